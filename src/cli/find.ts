import { templateMark } from '#compiler/tree-template.ts';
import { readContent } from '#build/library.ts';
import { makeCorrector } from '#core/search/correct-words.ts';
import { openSearch } from '#core/search/open-search.ts';
import { buildIndex } from '#build/search-index.ts';
import { searchCorrected } from '#core/search/search-session.ts';

// Usage: npm run find -- "words" [--json]: ranks the trees for a symptom, with the code of the page's search box.
const words = process.argv.slice(2).filter((word) => word !== '--json');
const isJson = process.argv.includes('--json');
const text = words.join(' ');
if (text.trim() === '' || ['--help', '-h'].includes(text.trim())) {
  console.error('Say what the unit does, or does not do: npm run find -- "no picture but it beeps"');
  process.exit(2);
}
const { library } = readContent();
// A tree that was just begun still says what the template says.
const written = [...library.trees].filter(
  ([, tree]) => !tree.symptoms.some((phrase) => phrase.startsWith(templateMark)),
);
const search = openSearch(buildIndex({ ...library, trees: new Map(written) }));
const answer = searchCorrected(search, makeCorrector(search.byUse), text);

if (isJson) {
  console.log(JSON.stringify(answer.results.map(({ tree, score, symptom }) => ({ tree, score, symptom }))));
} else {
  const { nextDoor, warning, near, pages, question, isUnwritten, isWeak, symptoms } = answer;
  const results = answer.results.length > 0 ? answer.results : near;
  if (warning !== undefined) console.log(`First: ${warning.says} See the caution ${warning.caution ?? ''}.`);
  if (nextDoor !== undefined) console.log(`${nextDoor.isLethal ? 'STOP. ' : ''}${nextDoor.title}: ${nextDoor.says}`);
  else if (answer.results.length === 0)
    console.log(
      near.length > 0
        ? `${isUnwritten ? 'No tree covers this yet' : 'Nothing here fits'}. Nearest:`
        : `Nothing here fits. The blocks: ${Object.values(search.index.blocks).join(', ')}.`,
    );
  for (const [kind, slug, title] of pages) console.log(`By name: ${kind} ${slug} (${title})`);
  if (symptoms.length > 1)
    console.log(`Two symptoms: ${symptoms.map((symptom) => `"${symptom.text}" (${symptom.tree})`).join(', ')}`);
  if (isWeak) console.log('Only a weak fit:');
  if (question !== undefined) console.log(`It would help to know: ${question.question}`);
  for (const { tree, title, block, score, symptom, because, checks, carry } of results) {
    console.log(
      `${score.toFixed(2)}  ${tree}  ${title} (${block}, ${checks} checks)${carry === '' ? '' : `  #${carry}`}`,
    );
    const why = because.map(([said, met]) => (said === met ? said : `${said} → ${met}`)).join(', ');
    if (symptom !== '') console.log(`      "${symptom}"${why === '' ? '' : `: ${why}`}`);
  }
}
