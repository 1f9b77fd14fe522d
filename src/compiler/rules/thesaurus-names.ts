import { suggestName } from '../nearest-name.ts';
import { fileSlugs } from './file-slugs.ts';
import type { Rule, RuleFinding } from './rule.ts';

export const thesaurusNames: Rule = {
  id: 'thesaurus-names',
  group: 'language',
  says: 'What the thesaurus and the list of subjects next door name exists: concepts, signs, targets, cautions.',
  why: 'A name that does not exist in the thesaurus joins nothing to nothing.',
  wrong: 'signs: { any-lihgt: {} }',
  right: 'signs: { any-light: {} }',
  severity: 'error',
  *find({ library, files }) {
    const targets = fileSlugs({ files }, 'targets');
    const cautions = fileSlugs({ files }, 'cautions');
    const { concepts, amounts, signs } = library.thesaurus;
    const names = Object.keys(concepts);
    const file = 'content/thesaurus.yaml';
    for (const [name, { near, together }] of Object.entries(concepts)) {
      const key = `front/concepts/${name}`;
      for (const [index, other] of near.entries())
        yield* unknown(file, `${key}/near/${index}`, 'concept', other, names);
      for (const [index, pair] of together.entries()) {
        const parts = pair.split(' ').filter((part) => !/^(?:named|gone|fine)$/.test(part));
        for (const part of parts) yield* unknown(file, `${key}/together/${index}`, 'concept', part, names);
      }
    }
    for (const [index, { means, target }] of amounts.entries()) {
      const key = `front/amounts/${index}`;
      for (const name of means) yield* unknown(file, key, 'concept', name, names);
      for (const name of target) yield* unknown(file, key, 'target', name, targets);
    }
    for (const [sign, { yes, no }] of Object.entries(signs)) {
      const key = `front/signs/${sign}`;
      yield* unknown(file, key, 'sign', sign, [...library.signs.keys()]);
      for (const aspect of [...yes, ...no]) yield* unknown(file, key, 'concept', aspect.split(' ')[0] ?? '', names);
    }
    for (const { slug, caution, isLethal } of library.nextDoor.values()) {
      const door = { file: 'content/next-door.yaml', key: `front/${slug}` };
      if (caution !== undefined) yield* unknown(door.file, `${door.key}/caution`, 'caution', caution, cautions);
      else if (isLethal) {
        yield {
          ...door,
          message: `Unexpected lethal subject \`${slug}\` without a caution, expected the page that says why.`,
          help: 'Add `caution:` with the slug of a caution.',
        };
      }
    }
  },
};

function* unknown(
  file: string,
  key: string,
  what: string,
  name: string,
  known: readonly string[],
): Iterable<RuleFinding> {
  if (known.includes(name)) return;
  yield {
    file,
    key,
    message: `Unexpected ${what} \`${name}\`, expected one that exists.`,
    help: `Name an existing ${what}.${suggestName(name, known)}`,
  };
}
