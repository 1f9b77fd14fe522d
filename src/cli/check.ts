/**
 * Reads all content and prints every problem, or those of some files and of what they name: npm run check -- [files or folders] [--format terminal|json|github]
 * npm run check -- --explain <rule> prints a rule with a wrong and a right example; --worth <tree> what a tree is worth.
 * Exits with 0 where nothing is wrong (warnings aside), 1 for errors, 2 for a wrong call.
 */
import { isAbsolute, relative, sep } from 'node:path';
import { parseArgs } from 'node:util';
import { compileContent, type ContentFile } from '#compiler/compile-content.ts';
import { explainedMessages, findExplanation } from '#compiler/rules/all.ts';
import { filesOfTree, loadContent, shownPath, treeSlugs } from '#compiler/load.ts';
import { suggestName } from '#compiler/nearest-name.ts';
import type { Problem } from '#compiler/problem.ts';
import { printAnnotations, printExplanation, printJson, printProblems } from '#compiler/reporters.ts';
import { keepOnDisk } from '#build/keep.ts';
import { readQueries } from '#build/teach-search.ts';
import { printMissed } from './print-missed.ts';
import { printWorth } from './print-worth.ts';

const formats = ['terminal', 'json', 'github'] as const;
type CheckFormat = (typeof formats)[number];

/** What `npm run check` was asked for, or why it cannot be done. */
export type CheckCall =
  /** `named`: files or folders from the project's root with forward slashes; none means all. */
  | { readonly kind: 'check'; readonly named: readonly string[]; readonly format: CheckFormat }
  | { readonly kind: 'explain'; readonly id: string }
  | { readonly kind: 'worth'; readonly slug: string }
  | { readonly kind: 'help'; readonly text: string }
  | { readonly kind: 'refused'; readonly message: string };

const usage = `Usage: npm run check -- [files or folders under content/]
  --format terminal|json|github   how problems are printed (github: annotations of a pull request)
  --explain <rule>                a rule with a wrong and a right example
  --worth <tree>                  what a tree is worth: minutes, what it separates, what would help most`;

const options = {
  format: { type: 'string' },
  explain: { type: 'string' },
  worth: { type: 'string' },
  help: { type: 'boolean', short: 'h' },
} as const;

/** Reads the words after `npm run check --`. `root` is the project's folder: absolute paths are taken from there. */
export function readCheckCall(words: readonly string[], root: string): CheckCall {
  const { tokens } = parseArgs({ args: [...words], options, allowPositionals: true, strict: false, tokens: true });
  const names = Object.keys(options);
  for (const token of tokens) {
    if (token.kind !== 'option') continue;
    if (!names.includes(token.name)) {
      const known = names.map((name) => `--${name}`);
      return refuseCall(
        `Unexpected option \`${token.rawName}\`, expected ${known.join(', ')}.${suggestName(token.rawName, known)}`,
      );
    }
    if (token.name !== 'help' && (token.value === undefined || token.value === '')) {
      return refuseCall(`Unexpected end after \`${token.rawName}\`, expected ${expectedAfter(token.name)}.`);
    }
  }
  // The last one counts, as everywhere on a command line.
  const findValue = (name: string): string | undefined =>
    tokens.flatMap((token) => (token.kind === 'option' && token.name === name ? [token.value ?? ''] : [])).at(-1);
  if (tokens.some((token) => token.kind === 'option' && token.name === 'help')) return { kind: 'help', text: usage };
  const id = findValue('explain');
  if (id !== undefined) return { kind: 'explain', id };
  const slug = findValue('worth');
  if (slug !== undefined) return { kind: 'worth', slug };
  const wanted = findValue('format') ?? 'terminal';
  const format = formats.find((name) => name === wanted);
  if (format === undefined) {
    return refuseCall(
      `Unexpected format \`${wanted}\`, expected ${formats.join(', ')}.${suggestName(wanted, formats)}`,
    );
  }
  const named = tokens.flatMap((token) => (token.kind === 'positional' ? [fromRoot(token.value, root)] : []));
  return { kind: 'check', named, format };
}

function expectedAfter(name: string): string {
  if (name === 'format') return formats.join(', ');
  return name === 'explain' ? 'the id of a rule, as messages print it in brackets' : 'the slug of a tree';
}

function fromRoot(name: string, root: string): string {
  const path = isAbsolute(name) ? relative(root, name) : name;
  const named = path
    .split(sep)
    .join('/')
    .replaceAll('\\', '/')
    .replace(/^\.\//, '')
    .replace(/(?<!\/)\/+$/, '');
  // A library of one's own lies elsewhere: inside, its files are called as all content is.
  const folder = shownPath('content/', root);
  return named === folder || named.startsWith(`${folder}/`) ? `content${named.slice(folder.length)}` : named;
}

function refuseCall(message: string): CheckCall {
  return { kind: 'refused', message: `${message}\n${usage}` };
}

const reporters: Readonly<Record<CheckFormat, (problems: readonly Problem[]) => string>> = {
  terminal: printProblems,
  json: printJson,
  github: printAnnotations,
};

/** What a command has to say, and the status it ends with: 0 where nothing is wrong (warnings aside), 1 for errors, 2 for a wrong call. */
interface Done {
  readonly status: 0 | 1 | 2;
  readonly said: string;
}

/** Does what the words after `npm run check --` ask for, in the project at `root`. */
export function runCheck(words: readonly string[], root: string): Done {
  const call = readCheckCall(words, root);
  switch (call.kind) {
    case 'refused':
      return refuse(call.message);
    case 'help':
      return { status: 0, said: call.text };
    case 'explain':
      return explain(call.id);
    case 'worth':
      return tellWorth(call.slug, root);
    case 'check':
      return check(call, root);
  }
}

function check({ named, format }: CheckCall & { readonly kind: 'check' }, root: string): Done {
  const files = loadContent(root);
  const isNamed = (file: string): boolean =>
    named.length === 0 || named.some((name) => file === name || file.startsWith(`${name}/`));
  const unknown = named.find((name) => !files.some(({ file }) => file === name || file.startsWith(`${name}/`)));
  if (unknown !== undefined) {
    const names = files.map(({ file }) => file);
    return refuse(`Unexpected file \`${unknown}\`, expected one under content/.${suggestFile(unknown, names)}`);
  }
  const beside = named.length === 0 ? new Set<string>() : filesNamedBy(files.filter(({ file }) => isNamed(file)));
  const shown = compileContent(files, keepOnDisk(root)).problems.filter(
    ({ file, rule }) =>
      (isNamed(file) || beside.has(file)) && (rule !== 'thesaurus-used' || named.some((name) => name === file)),
  );
  const status = shown.some(({ severity }) => severity === 'error') ? 1 : 0;
  const inFolder = shown.map((problem) => ({ ...problem, file: shownPath(problem.file, root) }));
  return { status, said: reporters[format](inFolder) };
}

/**
 * What a file needs, broken or not: the targets and cautions that it names in quotes, and every table. What is wrong there is wrong on the
 * page too.
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

function explain(id: string): Done {
  const found = findExplanation(id);
  if (found === undefined) {
    const ids = explainedMessages.map((message) => message.id);
    return refuse(`Unexpected rule \`${id}\`, expected one of those below.${suggestName(id, ids)}\n${ids.join(', ')}`);
  }
  return { status: 0, said: printExplanation(found) };
}

function tellWorth(slug: string, root: string): Done {
  const files = loadContent(root);
  const { library } = compileContent(filesOfTree(files, slug));
  const tree = library.trees.get(slug);
  if (tree === undefined) {
    return refuse(
      `Unexpected tree \`${slug}\`, expected the slug of a tree without errors.${suggestName(slug, treeSlugs(files))}`,
    );
  }
  // A tree is found beside all others, so all are read.
  const whole = compileContent(files, keepOnDisk(root)).library;
  const queries = readQueries(files.find(({ file }) => file === 'content/queries.tsv')?.text ?? '');
  return { status: 0, said: `${printWorth(tree, library)}\n\n${printMissed(slug, whole, queries)}` };
}

function refuse(message: string): Done {
  return { status: 2, said: message.trim() };
}

if (import.meta.main) {
  const { status, said } = runCheck(process.argv.slice(2), process.cwd());
  if (said !== '') (status === 2 ? console.error : console.log)(said);
  process.exitCode = status;
}
