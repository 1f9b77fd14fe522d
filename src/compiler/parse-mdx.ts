import type { Link, Nodes, Root, RootContent } from 'mdast';
import remarkFrontmatter from 'remark-frontmatter';
import remarkMdx from 'remark-mdx';
import remarkParse from 'remark-parse';
import { unified } from 'unified';
import { findExcess, findLength, tooDeep } from './find-excess.ts';
import { inspectDecoded, inspectText } from './inspect-text.ts';
import type { Position } from './position.ts';
import type { ReadContext } from './problem.ts';
import type { Report } from './problem.ts';

export interface ParsedMdx {
  /** Text of the front matter and the line it begins on, or undefined where there is none. */
  readonly frontMatter: { readonly text: string; readonly firstLine: number } | undefined;
  /** Everything below the front matter. */
  readonly body: readonly RootContent[];
}

const parser = unified().use(remarkParse).use(remarkFrontmatter, ['yaml']).use(remarkMdx);

/**
 * Reads MDX text into its parts, or reports the first place where it cannot be read. Runs nothing, and takes no longer
 * than a moment: what is too large for that, or holds what nobody sees or what begins like code, is not read. Files the position
 * of every link.
 */
export function parseMdx(text: string, context: ReadContext): ParsedMdx | undefined {
  const { report } = context;
  const long = findLength(text);
  const foreign = long === undefined ? inspectText(text) : [];
  const excess = long ?? (foreign.length > 0 ? undefined : findExcess(text));
  for (const finding of [...foreign, ...(excess === undefined ? [] : [excess])]) report(finding);
  if (foreign.length > 0 || excess !== undefined) return undefined;
  let root: Root;
  try {
    root = parser.parse(text);
    inspectNodes(root, text, context);
    reportOtherMarkdown(text, report);
  } catch (error) {
    report(error instanceof RangeError ? tooDeep : explainSyntaxError(error, text));
    return undefined;
  }
  const first = root.children[0];
  const hasFrontMatter = first?.type === 'yaml';
  return {
    frontMatter: hasFrontMatter ? { text: first.value, firstLine: (first.position?.start.line ?? 0) + 1 } : undefined,
    body: hasFrontMatter ? root.children.slice(1) : root.children,
  };
}

/** Path of a page, and a state of it in the alphabet of links (design of addresses): no dots, doubled slashes or escapes before `#`. */
const siteAddress = /^\/(?:[a-z0-9-]+\/)*(?:#[a-z0-9/.=&,-]*)?$/i;

/** Whether an address leads to this site from its root, in letters that every browser reads alike. */
export function isSiteAddress(address: string): boolean {
  return siteAddress.test(address);
}

/** Looks at what entities and escapes decode to, in words, attributes and addresses, and files every link. */
function inspectNodes(node: Nodes, text: string, context: ReadContext): void {
  const position = node.position === undefined ? 'unavailable' : pointOf(node.position.start);
  const inspect = (words: string, place: Position): void => {
    for (const finding of inspectDecoded(words)) context.report({ ...finding, position: place });
  };
  if (node.type === 'text' || node.type === 'inlineCode') inspect(node.value, position);
  if (node.type === 'link') inspectLink(node, position, text, context);
  if (node.type === 'mdxJsxFlowElement' || node.type === 'mdxJsxTextElement') {
    for (const { value, position: place } of node.attributes) {
      if (typeof value === 'string') inspect(value, place === undefined ? position : pointOf(place.start));
    }
  }
  if ('children' in node) for (const child of node.children) inspectNodes(child, text, context);
}

/** A link is written as `[words](/address/)`, so that no two readers can see another address in it. */
function inspectLink(node: Link, position: Position, text: string, { positions, report }: ReadContext): void {
  if (!isSiteAddress(node.url)) return;
  const tail = `](${node.url})`;
  if (text.slice(0, node.position?.end.offset).endsWith(tail)) {
    positions.addName({ kind: 'page', name: node.url, key: '', position });
    return;
  }
  report({
    rule: 'link-address',
    position,
    message: `Unexpected way to write the address \`${node.url.slice(0, 60)}\`, expected it plainly in round brackets.`,
    help: `Write [words](${node.url.slice(0, 60)}): no angle brackets, entities, backslashes, titles or line breaks around the address.`,
  });
}

/** Tables and footnotes of a wider Markdown, by the line that makes them one: here they would be read as a paragraph. */
const otherMarkdown: readonly { readonly what: 'table' | 'footnote'; readonly isIn: (line: string) => boolean }[] = [
  { what: 'table', isIn: isBelowTableHead },
  { what: 'footnote', isIn: (line) => /^[\s>*+-]*\[\^[^\]]*\]:/.test(line) },
];

/** Whether a line holds nothing but cells such as `---` and `:-:`. */
function isBelowTableHead(line: string): boolean {
  if (!line.includes('|')) return false;
  const cells = line
    .replace(/^[\s>]+/, '')
    .trimEnd()
    .split('|');
  if (cells[0] === '') cells.shift();
  if (cells.at(-1) === '') cells.pop();
  return cells.length > 0 && cells.every((cell) => /^:?-+:?$/.test(cell.trim()));
}

function reportOtherMarkdown(text: string, report: Report): void {
  for (const [index, line] of text.split(/\r?\n/).entries()) {
    const found = otherMarkdown.find(({ isIn }) => isIn(line));
    if (found === undefined) continue;
    report({
      rule: 'prose-only',
      position: { line: index + 1, column: 1 },
      message: `Unexpected ${found.what}, expected paragraphs, lists, emphasis or links.`,
      help:
        found.what === 'table'
          ? 'Write a list, one row an item; numbers belong in targets.'
          : 'Write it in the sentence.',
    });
  }
}

function pointOf({ line, column }: { readonly line: number; readonly column: number }): Position {
  return { line, column };
}

type Explained = Parameters<Report>[0];

const closeAndQuote = 'Close every element you open, and quote every attribute.';

function explainSyntaxError(error: unknown, text: string): Explained {
  const position = readErrorPosition(error);
  const reason = error instanceof Error && 'reason' in error ? String(error.reason) : String(error);
  return (
    explainTag(reason, position) ??
    explainCharacter(reason, position, text) ?? {
      rule: 'syntax',
      position,
      message: sentence(reason),
      help: closeAndQuote,
    }
  );
}

/** An element left open, or closed by the wrong name: the place that has to change is the one where it was opened. */
function explainTag(reason: string, position: Position): Explained | undefined {
  const open = /^Expected a closing tag for `(<[^`]*>)` \((\d+):(\d+)/.exec(reason);
  if (open !== null) {
    const [, name = '', line, column] = open;
    return {
      rule: 'syntax',
      position: { line: Number(line), column: Number(column) },
      message: `Unexpected \`${name}\` that is never closed, expected \`${name.replace('<', '</')}\` further down.`,
      help: 'Close it after its last part, with a blank line before; elements without a body end in ` />`.',
    };
  }
  const wrong = /^Unexpected closing tag `([^`]*)`, expected corresponding closing tag for `(<[^`]*>)` \((\d+):/.exec(
    reason,
  );
  if (wrong === null) return undefined;
  const [, closing = '', name = '', line] = wrong;
  return {
    rule: 'syntax',
    position,
    message: `Unexpected \`${closing}\`, expected \`${name.replace('<', '</')}\` for the \`${name}\` of line ${line ?? ''}.`,
    help: 'Every element is closed under the name it was opened with, capital letters included, the inner one first.',
  };
}

function explainCharacter(reason: string, position: Position, text: string): Explained | undefined {
  const found = characterAt(text, position);
  const before =
    position === 'unavailable' ? '' : (text.split('\n')[position.line - 1] ?? '').slice(0, position.column - 1);
  const say = (message: string, help: string): Explained => ({ rule: 'syntax', position, message, help });
  if (/expression|acorn/i.test(reason)) {
    return {
      rule: 'no-code',
      position,
      message: 'Unexpected `{`, expected text.',
      help: 'Content is data: write the value itself. Only comments may stand in braces: {/* like this */}.',
    };
  }
  if (!/^Unexpected character/.test(reason)) return undefined;
  if (before.endsWith('<') && /\d/.test(found)) {
    return say('Unexpected `<` before a digit, expected words.', `Write \`below ${found} …\` or \`&lt;${found} …\`.`);
  }
  if (before.endsWith('<') && found === '!') {
    return say('Unexpected `<!`, expected text or an element.', 'A comment is written {/* like this */}.');
  }
  if (/[“”„‘’«»]/.test(found)) {
    return say(`Unexpected ${found}, expected a straight quote.`, 'Attributes stand in straight quotes: name="value".');
  }
  return undefined;
}

function readErrorPosition(error: unknown): Position {
  if (typeof error !== 'object' || error === null || !('place' in error)) return 'unavailable';
  const place = error.place;
  if (typeof place !== 'object' || place === null) return 'unavailable';
  const point = 'start' in place ? place.start : place;
  if (typeof point !== 'object' || point === null || !('line' in point) || !('column' in point)) return 'unavailable';
  return { line: Number(point.line), column: Number(point.column) };
}

function characterAt(text: string, position: Position): string {
  if (position === 'unavailable') return '';
  return (text.split('\n')[position.line - 1] ?? '').charAt(position.column - 1);
}

function sentence(reason: string): string {
  const first = reason.split('\n')[0] ?? reason;
  return /[.?]$/.test(first) ? first : `${first}.`;
}
