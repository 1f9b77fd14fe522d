/**
 * Reads all content and prints every problem, or those of some files and of what they name: npm run check -- [files or folders] [--format terminal|json|github]
 * npm run check -- --explain <rule> prints a rule with a wrong and a right example; --worth <tree> what a tree is worth.
 * Exits with 0 where nothing is wrong (warnings aside), 1 for errors, 2 for a wrong call.
 */
import { compileContent, type ContentFile } from '#compiler/compile-content.ts';
import { explainedMessages, findExplanation } from '#compiler/find-explanation.ts';
import { loadContent } from '#compiler/load.ts';
import { suggestName } from '#compiler/nearest-name.ts';
import type { Problem } from '#compiler/problem.ts';
import { printExplanation } from '#compiler/reporters/explanation.ts';
import { printAnnotations } from '#compiler/reporters/github.ts';
import { printJson } from '#compiler/reporters/json.ts';
import { printProblems } from '#compiler/reporters/terminal.ts';
import { type CheckCall, type CheckFormat, readCheckCall } from './check-call.ts';
import { printWorth } from './print-worth.ts';

const reporters: Readonly<Record<CheckFormat, (problems: readonly Problem[]) => string>> = {
  terminal: printProblems,
  json: printJson,
  github: printAnnotations,
};

process.exitCode = run(process.argv.slice(2));

function run(words: readonly string[]): number {
  const call = readCheckCall(words, process.cwd());
  switch (call.kind) {
    case 'refused':
      return refuse(call.message);
    case 'help':
      console.log(call.text);
      return 0;
    case 'explain':
      return explain(call.id);
    case 'worth':
      return printWorthOf(call.slug);
    case 'check':
      return check(call);
  }
}

function check({ named, format }: CheckCall & { readonly kind: 'check' }): number {
  const files = loadContent(process.cwd());
  const isNamed = (file: string): boolean =>
    named.length === 0 || named.some((name) => file === name || file.startsWith(`${name}/`));
  const unknown = named.find((name) => !files.some(({ file }) => file === name || file.startsWith(`${name}/`)));
  if (unknown !== undefined) {
    const names = files.map(({ file }) => file);
    return refuse(`Unexpected file \`${unknown}\`, expected one under content/.${suggestFile(unknown, names)}`);
  }
  const beside = named.length === 0 ? new Set<string>() : filesNamedBy(files.filter(({ file }) => isNamed(file)));
  const shown = compileContent(files).problems.filter(
    ({ file, rule }) =>
      (isNamed(file) || beside.has(file)) && (rule !== 'thesaurus-used' || named.some((name) => name === file)),
  );
  const text = reporters[format](shown);
  if (text !== '') console.log(text);
  return shown.some(({ severity }) => severity === 'error') ? 1 : 0;
}

/**
 * What a file rests on, broken or not: the targets and cautions that it names in quotes, and every table. What is wrong there is wrong
 * for whoever opens the page.
 */
function filesNamedBy(files: readonly ContentFile[]): ReadonlySet<string> {
  const slugs = files.flatMap(({ text }) => [...text.matchAll(/\b(?:use|target)="\s*([a-z0-9-]+)\s*"/g)]);
  const tables = ['points', 'setups', 'hazards', 'instruments', 'signs', 'sources', 'blocks'];
  return new Set([
    ...slugs.flatMap(([, slug = '']) => [`content/targets/${slug}.mdx`, `content/cautions/${slug}.mdx`]),
    ...tables.map((name) => `content/${name}.yaml`),
  ]);
}

/** The nearest path, or else the file whose own name is nearest: most people type only that. */
function suggestFile(name: string, files: readonly string[]): string {
  const whole = suggestName(name, files);
  if (whole !== '') return whole;
  const last = (path: string): string => path.split('/').at(-1) ?? path;
  const wanted = last(name).replace(/\.mdx$/, '');
  const found = files.find((file) => last(file).replace(/\.(mdx|yaml|txt)$/, '') === wanted);
  return found === undefined ? '' : ` Did you mean \`${found}\`?`;
}

function explain(id: string): number {
  const found = findExplanation(id);
  if (found === undefined) {
    const ids = explainedMessages.map((message) => message.id);
    return refuse(`Unexpected rule \`${id}\`, expected one of those below.${suggestName(id, ids)}\n${ids.join(', ')}`);
  }
  console.log(printExplanation(found));
  return 0;
}

function printWorthOf(slug: string): number {
  const { library } = compileContent(loadContent(process.cwd()));
  const tree = library.trees.get(slug);
  if (tree === undefined) {
    const slugs = [...library.trees.keys()];
    return refuse(
      `Unexpected tree \`${slug}\`, expected the slug of a tree without errors.${suggestName(slug, slugs)}`,
    );
  }
  console.log(printWorth(tree, library));
  return 0;
}

function refuse(message: string): number {
  console.error(message.trim());
  return 2;
}
