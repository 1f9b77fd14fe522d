import type { Finding } from './problem.ts';

/** What is more than any tree needs, and more than the parsers read in a moment. A tree of 40 nodes has 45,000 characters, 400 tags. */
export const limits = {
  characters: 200_000,
  lineCharacters: 5_000,
  frontMatterCharacters: 20_000,
  frontMatterDepth: 20,
  nodes: 120,
  /** Elements of one name inside one element: outcomes of a check, stages of a path. */
  siblings: 16,
  symptoms: 24,
  /** Of one list in front matter, and in a table. */
  listEntries: 60,
  tableEntries: 2_000,
  tags: 5_000,
  elementDepth: 20,
  markerDepth: 10,
  indentation: 60,
  braces: 120,
  marks: 20_000,
  /** Within one stretch without a blank line. */
  stretchCharacters: 20_000,
  stretchMarks: 200,
  /** Lines below an `import` or `export`. */
  codeLines: 1_000,
} as const;

/** A text, or the first line of it, that is too long to be looked at by any pattern; or undefined. */
export function findLength(text: string): Finding | undefined {
  if (text.length > limits.characters) return tooMuch('characters', text.length, limits.characters, 1);
  const lines = text.split('\n');
  const index = lines.findIndex(({ length }) => length > limits.lineCharacters);
  const length = lines[index]?.length;
  return length === undefined ? undefined : tooMuch('characters in a line', length, limits.lineCharacters, index + 1);
}

/**
 * The first thing in a text that makes it too large to be parsed at all, or undefined. Parsers of Markdown need time that
 * grows with the square of some marks, and recurse into what is nested: the text is measured before they see it.
 * Takes one pass over the text, whose lengths `findLength` has found in order.
 */
export function findExcess(text: string): Finding | undefined {
  return findInFrontMatter(text) ?? findInLines(text.split('\n')) ?? findInTags(text) ?? findInBraces(text);
}

/** What a reader answers where the text was nested too deep to be read without running out of stack. */
export const tooDeep: Finding = {
  rule: 'too-large',
  position: { line: 1, column: 1 },
  message: `Unexpected nesting too deep to be read, expected at most ${limits.elementDepth} levels.`,
  help: 'Close what is open; nodes stand beside each other, not inside each other.',
};

/** The message for a count above its limit. */
export function tooMuch(what: string, count: number, most: number, line: number): Finding {
  return {
    rule: 'too-large',
    position: { line, column: 1 },
    message: `Unexpected ${count} ${what}, expected at most ${most}.`,
    help: 'It was not read further. Take away what does not belong to one tree, or make two trees of it.',
  };
}

function findInFrontMatter(text: string): Finding | undefined {
  if (!/^\uFEFF?---[ \t]*\r?\n/.test(text)) return undefined;
  const end = text.indexOf('\n---', 3);
  const front = text.slice(0, end < 0 ? text.length : end);
  if (front.length > limits.frontMatterCharacters) {
    return tooMuch('characters in the front matter', front.length, limits.frontMatterCharacters, 1);
  }
  let line = 1;
  let depth = 0;
  for (const character of front) {
    if (character === '\n') line += 1;
    else if ('[{'.includes(character)) depth += 1;
    else if (']}'.includes(character)) depth -= 1;
    if (depth > limits.frontMatterDepth)
      return tooMuch('lists inside each other', depth, limits.frontMatterDepth, line);
  }
  return undefined;
}

function findInLines(lines: readonly string[]): Finding | undefined {
  let stretch = { line: 1, characters: 0, marks: 0 };
  let marks = 0;
  let isAfterBlank = true;
  for (const [index, text] of lines.entries()) {
    const line = index + 1;
    const markers = countMarkers(text);
    if (markers.depth > limits.markerDepth)
      return tooMuch('marks of lists or quotes in a row', markers.depth, limits.markerDepth, line);
    if (markers.indentation > limits.indentation) {
      return tooMuch('columns of indentation', markers.indentation, limits.indentation, line);
    }
    if (isAfterBlank && /^(?:import|export)\b/.test(text) && lines.length - line > limits.codeLines) {
      return {
        rule: 'no-code',
        position: { line, column: 1 },
        message: 'Unexpected `import` or `export`, expected text.',
        help: 'Content is data: write the value itself. Only comments may stand in braces: {/* like this */}.',
      };
    }
    isAfterBlank = text.trim() === '';
    if (isAfterBlank) stretch = { line: line + 1, characters: 0, marks: 0 };
    else {
      stretch.characters += text.length + 1;
      const found = countMarks(text);
      stretch.marks += found;
      marks += found;
    }
    if (marks > limits.marks) return tooMuch('marks', marks, limits.marks, line);
    if (stretch.characters > limits.stretchCharacters) {
      return tooMuch('characters without a blank line', stretch.characters, limits.stretchCharacters, stretch.line);
    }
    if (stretch.marks > limits.stretchMarks) {
      return tooMuch('marks without a blank line', stretch.marks, limits.stretchMarks, stretch.line);
    }
  }
  return undefined;
}

/** Marks that open something which the parser must look for the end of. */
function countMarks(text: string): number {
  let count = 0;
  for (const character of text) if ('[]*_`<>{}!&~'.includes(character)) count += 1;
  return count;
}

function countMarkers(text: string): { readonly depth: number; readonly indentation: number } {
  let depth = 0;
  let indentation = 0;
  for (const character of text) {
    if ('>*+-'.includes(character)) depth += 1;
    else if (character === ' ') indentation += 1;
    else if (character === '\t') indentation += 4;
    else break;
  }
  return { depth: text.trimEnd().length === depth ? 0 : depth, indentation: text.trim() === '' ? 0 : indentation };
}

/** A whole tag, in whose quoted values nothing counts; or where there is none, what opens and closes one. */
const tagParts =
  /\n|<([A-Za-z][\w.:-]*)(?:\s+[\w.:-]+(?:="[^"]{0,5000}"|='[^']{0,5000}')?)*\s*(\/?)>|<\/|\/>|<([A-Za-z][\w.:-]*)?/g;
const nodeNames: ReadonlySet<string> = new Set(['Check', 'Path', 'Cause', 'Elsewhere', 'HandOver']);

function findInTags(text: string): Finding | undefined {
  let line = 1;
  let depth = 0;
  let tags = 0;
  let nodes = 0;
  for (const [found, wholeName, selfClosing, openName] of text.matchAll(tagParts)) {
    if (found === '\n') line += 1;
    else if (found === '</' || found === '/>') depth -= 1;
    else {
      tags += 1;
      if (selfClosing !== '/') depth += 1;
      if (nodeNames.has(wholeName ?? openName ?? '')) nodes += 1;
      if (nodes > limits.nodes) return tooMuch('nodes or more', nodes, limits.nodes, line);
      if (tags > limits.tags) return tooMuch('tags or more', tags, limits.tags, line);
      if (depth > limits.elementDepth) return tooMuch('elements inside each other', depth, limits.elementDepth, line);
      line += found.split('\n').length - 1;
    }
  }
  return undefined;
}

/** After every closing brace the parser reads from the opening one again. */
function findInBraces(text: string): Finding | undefined {
  const count = text.split(/[{}]/).length - 1;
  return count > limits.braces ? tooMuch('braces', count, limits.braces, 1) : undefined;
}
