import { isAbsolute, relative, sep } from 'node:path';
import { parseArgs } from 'node:util';
import { suggestName } from '#compiler/nearest-name.ts';

const formats = ['terminal', 'json', 'github'] as const;
export type CheckFormat = (typeof formats)[number];

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
      return refuse(
        `Unexpected option \`${token.rawName}\`, expected ${known.join(', ')}.${suggestName(token.rawName, known)}`,
      );
    }
    if (token.name !== 'help' && (token.value === undefined || token.value === '')) {
      return refuse(`Unexpected end after \`${token.rawName}\`, expected ${expectedAfter(token.name)}.`);
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
    return refuse(`Unexpected format \`${wanted}\`, expected ${formats.join(', ')}.${suggestName(wanted, formats)}`);
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
  return path.split(sep).join('/').replaceAll('\\', '/').replace(/^\.\//, '').replace(/\/+$/, '');
}

function refuse(message: string): CheckCall {
  return { kind: 'refused', message: `${message}\n${usage}` };
}
