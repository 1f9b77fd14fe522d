import { tidyLabel } from '../figure/label.ts';
import { isRecord, readRecord } from '../model/read-record.ts';

/** A finished repair as far as a tree can begin from it: what was seen, done and found, in the person's own words. */
export interface RepairSeed {
  readonly title: string;
  readonly symptom: string;
  /** Checks in the order they were done, each with what was found. */
  readonly steps: readonly { readonly title: string; readonly said: string }[];
  readonly cause: string;
  readonly repair: string;
  readonly proof: string;
}

const mostSteps = 40;
const mostCharacters = 1_000;

/**
 * Reads a repair that another page left in storage. The text is hostile until it has been read: undefined where it is not
 * of that shape; at most 40 steps and 1,000 characters a field are kept.
 */
export function readRepairSeed(text: string): RepairSeed | undefined {
  const value = readRecord(text);
  if (value === undefined) return undefined;
  const steps = value['steps'];
  if (!Array.isArray(steps)) return undefined;
  const [title, symptom, cause, repair, proof] = ['title', 'symptom', 'cause', 'repair', 'proof'].map((name) =>
    readText(value[name]),
  );
  if (title === undefined || symptom === undefined) return undefined;
  return {
    title,
    symptom,
    steps: steps.slice(0, mostSteps).flatMap((step: unknown) => {
      if (!isRecord(step)) return [];
      const [name, said] = [readText(step['title']), readText(step['said'])];
      return name === undefined ? [] : [{ title: name, said: said ?? '' }];
    }),
    cause: cause ?? '',
    repair: repair ?? '',
    proof: proof ?? '',
  };
}

function readText(value: unknown): string | undefined {
  return typeof value === 'string' ? value.slice(0, mostCharacters) : undefined;
}

/**
 * Turns a finished repair into the beginning of a tree: its checks in the order they were done, each leading on by what
 * was found and to a hand-over by anything else, then its cause with how it was repaired and proved. What only the author
 * can know is marked `Replace this:`; the compiler's messages tell the rest. Whatever the repair's words are, they stay
 * words. `since` is the day of today.
 */
export function draftFromRepair(repair: RepairSeed, since: string): string {
  const checks = repair.steps.map((step, index) => writeCheck(step, index, repair.steps.length));
  return [
    '---',
    `title: ${escapeYaml(or(repair.title, 'Replace this: the symptom in a few words'), 60)}`,
    'block: power',
    `since: ${since}`,
    `summary: ${escapeYaml(or(repair.symptom, 'Replace this: one sentence about the symptom'), 200)}`,
    'symptoms:',
    `  - ${escapeYaml(or(repair.symptom, 'Replace this: as an owner types it'), 80)}`,
    `  - ${escapeYaml('Replace this: the same in other words', 80)}`,
    `  - ${escapeYaml('Replace this: and once more', 80)}`,
    '---',
    '',
    ...checks,
    ...writeCause(repair),
    ...writeHandOver(),
  ].join('\n');
}

function writeCheck(step: RepairSeed['steps'][number], index: number, count: number): string {
  const next = index + 1 < count ? `step-${index + 2}` : 'found-cause';
  return [
    `<Check id="step-${index + 1}" title="${escapeAttribute(or(step.title, 'Replace this: a question'), 60)}" minutes="5" power="off">`,
    '',
    `  Replace this: how and where, in two to five short sentences. In this repair: ${escapeProse(or(step.said, 'nothing was noted'))}`,
    '',
    `  <Outcome when="as-here" to="${next}" says="${escapeAttribute(or(step.said, 'As in this repair'), 60)}" />`,
    '',
    '  <Outcome when="otherwise" to="not-this" says="Anything else" />',
    '</Check>',
    '',
  ].join('\n');
}

function writeCause({ cause, repair, proof }: RepairSeed): readonly string[] {
  return [
    `<Cause id="found-cause" title="${escapeAttribute(or(cause, 'Replace this: the part and its failure'), 60)}" chance="occasional">`,
    '',
    `  ${escapeProse(or(cause, 'Replace this: what it is and why it fails'))}`,
    '',
    '  <Confirm>',
    '',
    '    Replace this: which reading makes sure of it, with a Target.',
    '',
    '  </Confirm>',
    '',
    '  <Repair minutes="30" leaves="nothing" success="usual">',
    '',
    `    ${escapeProse(or(repair, 'Replace this: what is done at the bench'))}`,
    '',
    '  </Repair>',
    '',
    '  <Prove minutes="10">',
    '',
    `    ${escapeProse(or(proof, 'Replace this: the same reading again, and how long to watch it'))}`,
    '',
    '  </Prove>',
    '</Cause>',
    '',
  ];
}

function writeHandOver(): readonly string[] {
  return [
    '<HandOver id="not-this" title="Another fault than the one of this repair" because="beyond-this-page">',
    '',
    '  Unplug it and keep your hands out. Write down what you read, and pass it on with your notes.',
    '',
    '</HandOver>',
    '',
  ];
}

function or(text: string, other: string): string {
  return tidyLabel(text) === '' ? other : text;
}

const slugPattern = /^[a-z0-9]+(-[a-z0-9]+)*$/;

/** The name a draft is kept and downloaded under where its author has given none yet. */
export const untitled = 'untitled';

/** The draft's slug as typed, or `untitled` where it is none: small letters, digits, single hyphens, at most 40. */
export function slugOfDraft(typed: string): string {
  const slug = typed.trim().toLowerCase();
  return isSlug(slug) ? slug : untitled;
}

export function isSlug(text: string): boolean {
  return text.length <= 40 && slugPattern.test(text);
}

/**
 * Where a draft belongs in the project: the folder is the block that its front matter names.
 * @example fileOfDraft('---\nblock: power\n', 'psu-5v-low') === 'content/trees/power/psu-5v-low.mdx'
 */
export function fileOfDraft(text: string, slug: string): string {
  const block =
    /^block:[ \t]*["']?([a-z0-9-]{1,40})["']?[ \t]*\r?$/mu.exec(text.slice(0, 20_000))?.[1] ?? 'no-block-yet';
  return `content/trees/${block}/${slug}.mdx`;
}

/** Wraps a file for a post in Markdown: a fence longer than any run of backticks in it. */
export function postAsMarkdown(text: string, file: string): string {
  const longest = Math.max(2, ...[...text.matchAll(/`+/gu)].map(([run]) => run.length));
  const fence = '`'.repeat(longest + 1);
  return `${file}\n\n${fence}mdx\n${text.replace(/\n?$/u, '\n')}${fence}\n`;
}

/** Wraps a file for a post in BBCode; undefined where the text itself would end the code. */
export function postAsBbcode(text: string, file: string): string | undefined {
  return /\[\/code\]/iu.test(text) ? undefined : `${file}\n[code]\n${text.replace(/\n?$/u, '\n')}[/code]\n`;
}

/**
 * Writes text so that MDX reads it as these words and nothing else, in one line: no element, expression, link, heading,
 * list or import can come of it. Whitespace and control characters become single spaces.
 *
 * @example escapeProse('5 < 6 {x}') // '5 &lt; 6 &#123;x&#125;'
 */
export function escapeProse(text: string): string {
  const plain = tidyLabel(text).replace(/[!"#$%&'()*+,\-./:;<=>?@[\\\]^_`{|}~]/gu, (mark) =>
    harmless.has(mark) ? mark : (asEntity[mark] ?? `\\${mark}`),
  );
  return plain
    .replace(/^(\d{1,9})([.)])/u, '$1\\$2')
    .replace(/^([-+])/u, '\\$1')
    .replace(
      /^(\P{L}*)([ie])(?=mport\b|xport\b)/u,
      (_, marks: string, letter: string) => `${marks}&#${letter.codePointAt(0)};`,
    );
}

/** What opens and closes elements and expressions is not even written as itself, so that nothing which counts these is misled. */
const asEntity: Readonly<Record<string, string>> = { '<': '&lt;', '>': '&gt;', '{': '&#123;', '}': '&#125;' };

/** Marks that mean nothing inside a line of prose; at its beginning two of them would, which is seen to. */
const harmless: ReadonlySet<string> = new Set([
  '"',
  "'",
  '(',
  ')',
  ',',
  '-',
  '.',
  ':',
  ';',
  '?',
  '/',
  '%',
  '+',
  '$',
  '^',
  '|',
]);

/**
 * Writes text as the inside of a quoted attribute, cut to `longest` characters at the end of a word where one is near.
 *
 * @example `title="${escapeAttribute('8" disk & drive', 60)}"` // title="8&quot; disk &amp; drive"
 */
export function escapeAttribute(text: string, longest: number): string {
  return shorten(tidyLabel(text), longest)
    .replaceAll('&', '&amp;')
    .replaceAll('"', '&quot;')
    .replace(/[<>{}]/gu, (mark) => asEntity[mark] ?? mark);
}

/**
 * Writes text as a YAML scalar in double quotes, of which JSON's strings are a part (YAML 1.2.2, section 1.3). Words that would begin a
 * line of code have their first letter as an escape, which YAML reads as the letter.
 */
export function escapeYaml(text: string, longest: number): string {
  return JSON.stringify(shorten(tidyLabel(text), longest)).replace(
    /(^|[>}])(\P{L}*)([ie])(?=mport\b|xport\b)/gu,
    (_, before: string, marks: string, letter: string) =>
      `${before}${marks}\\u00${(letter.codePointAt(0) ?? 0).toString(16)}`,
  );
}

function shorten(text: string, longest: number): string {
  if (text.length <= longest) return text;
  const cut = text
    .slice(0, longest)
    .toWellFormed()
    .replace(/\ufffd$/u, '');
  const space = cut.lastIndexOf(' ');
  return space > longest / 2 ? cut.slice(0, space) : cut;
}
