import { execFileSync } from 'node:child_process';
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';

/** A commit's message as Conventional Commits 1.0.0 reads it; undefined where it is none. */
export interface Change {
  readonly type: string;
  readonly scope: string | undefined;
  readonly says: string;
  /** What has to be changed, where something old is no longer understood. */
  readonly breaks: string | undefined;
}

export function readChange(message: string): Change | undefined {
  const [first = '', ...rest] = message.trim().split('\n');
  const found = /^(?<type>[a-z]+)(?:\((?<scope>[^()]+)\))?(?<bang>!)?: (?<says>.+)$/u.exec(first)?.groups;
  if (found === undefined) return undefined;
  const { type = '', scope, bang, says = '' } = found;
  // A footer runs until the next one, or to the end: Conventional Commits, rules 8 to 12.
  const footer = /^BREAKING[ -]CHANGE: (?<what>[\s\S]+?)(?=\n[A-Za-z-]+(?:: | #)|$(?![\s\S]))/mu.exec(rest.join('\n'));
  const what = footer?.groups?.['what']?.replace(/\s+/gu, ' ').trim();
  return { type, scope, says, breaks: what ?? (bang === undefined ? undefined : says) };
}

const sections: readonly (readonly [type: string, title: string])[] = [
  ['feat', 'New'],
  ['fix', 'Fixed'],
  ['perf', 'Faster'],
];

/** The notes of a release as CommonMark. What a reader or an author does not see, tests and inner order, is left out. */
export function writeNotes(changes: readonly Change[]): string {
  const listOf = (title: string, lines: readonly string[]): readonly string[] =>
    lines.length === 0 ? [] : [`## ${title}`, lines.map((line) => `- ${escapeMarks(line)}`).join('\n')];
  const said = [
    ...listOf(
      'Change this when you upgrade',
      changes.flatMap(({ breaks }) => breaks ?? []),
    ),
    ...sections.flatMap(([type, title]) =>
      listOf(
        title,
        changes
          .filter((change) => change.type === type)
          .map(({ scope, says }) => (scope === undefined ? says : `${scope}: ${says}`)),
      ),
    ),
  ];
  return `${(said.length === 0 ? ['Nothing that a reader or an author would notice.'] : said).join('\n\n')}\n`;
}

/** A message is anybody's words: no mark of it makes a link, a picture or an element. */
function escapeMarks(text: string): string {
  return text.replace(/[\\`*_[\]<>&!|@#~]/gu, '\\$&');
}

function git(...words: readonly string[]): string {
  return execFileSync('git', words, { encoding: 'utf8', stdio: ['ignore', 'pipe', 'ignore'] });
}

/** The last tag of a version, or undefined before the first. */
function findLastTag(): string | undefined {
  try {
    return git('describe', '--tags', '--match', 'v[0-9]*', '--abbrev=0').trim();
  } catch {
    return undefined;
  }
}

// Usage: npm run changes [-- FOLDER]: prints the notes of the next release; with FOLDER writes notes.md, tag.txt and commit.txt there.
if (import.meta.main) {
  const last = findLastTag();
  const messages = git('log', '--no-merges', '--format=%B%x00', ...(last === undefined ? [] : [`${last}..HEAD`]));
  const notes = writeNotes(messages.split('\0').flatMap((message) => readChange(message) ?? []));
  const [folder] = process.argv.slice(2);
  if (folder === undefined) process.stdout.write(notes);
  else {
    const { version }: { readonly version: string } = JSON.parse(readFileSync('package.json', 'utf8'));
    const files = { 'notes.md': notes, 'tag.txt': `v${version}\n`, 'commit.txt': git('rev-parse', 'HEAD') };
    for (const [name, text] of Object.entries(files)) writeFileSync(join(folder, name), text);
  }
}
