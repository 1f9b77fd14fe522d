/** A post before it is written in a markup: what any text for a forum or a log is made of. Texts may be hostile. */
export type PostBlock =
  /** `level` as in HTML, 1 to 3; 3 where it is left out, as a post stands below the title of its thread. */
  | { readonly kind: 'heading'; readonly text: string; readonly level?: 1 | 2 | 3 }
  | { readonly kind: 'paragraph'; readonly spans: readonly PostSpan[] }
  | { readonly kind: 'list'; readonly items: readonly (readonly PostSpan[])[] }
  /** An address of this site, alone on its line below `name`; it must be http or https, else both are left out. */
  | { readonly kind: 'link'; readonly name: string; readonly address: string };

/** A run of text within a line. */
export interface PostSpan {
  readonly text: string;
  readonly isStrong?: boolean;
}

/** The longest text that one span of a post may hold; the rest is cut with an ellipsis. */
export const longestSpan = 1000;

/** The markups a post can be copied in: as boards of different ages take it. */
export const postFormats = ['bbcode', 'commonmark', 'plain'] as const;

export type PostFormat = (typeof postFormats)[number];

/**
 * Writes blocks in a markup. Every text is cleaned and escaped here, so that whatever a person typed into it reads as text
 * and cannot open a tag, a link, a picture, a heading or a new line. `longest` is what one span may hold, in characters.
 */
export function writeBlocks(blocks: readonly PostBlock[], format: PostFormat, longest: number = longestSpan): string {
  return blocks
    .map((block) => writeBlock(block, format, longest))
    .filter((text) => text !== '')
    .join('\n\n');
}

function writeBlock(block: PostBlock, format: PostFormat, longest: number): string {
  switch (block.kind) {
    case 'heading':
      return writeHeading(block.text, block.level ?? 3, format);
    case 'paragraph':
      return writeSpans(block.spans, format, longest);
    case 'list':
      return writeList(block.items, format, longest);
    case 'link':
      return writeLink(block, format);
  }
}

function writeHeading(text: string, level: 1 | 2 | 3, format: PostFormat): string {
  const line = escapeText(cleanText(text, longestSpan), format);
  if (line === '') return '';
  return { bbcode: `[b]${line}[/b]`, commonmark: `${'#'.repeat(level)} ${line}`, plain: line }[format];
}

function writeSpans(spans: readonly PostSpan[], format: PostFormat, longest: number): string {
  const runs = spans
    .map(({ text, isStrong = false }) => ({ line: cleanText(text, longest), isStrong }))
    .filter(({ line }) => line !== '');
  return runs
    .map(({ line, isStrong }, index) => {
      const text = escapeText(line, format);
      if (!isStrong || format === 'plain') return index === 0 ? escapeLineStart(text, format) : text;
      return format === 'bbcode' ? `[b]${text}[/b]` : `**${text}**`;
    })
    .join(' ');
}

function writeList(items: readonly (readonly PostSpan[])[], format: PostFormat, longest: number): string {
  const lines = items.map((spans) => writeSpans(spans, format, longest)).filter((line) => line !== '');
  if (lines.length === 0) return '';
  if (format === 'bbcode') return ['[list]', ...lines.map((line) => `[*]${line}`), '[/list]'].join('\n');
  return lines.map((line) => `- ${line}`).join('\n');
}

function writeLink({ name, address }: Extract<PostBlock, { kind: 'link' }>, format: PostFormat): string {
  const safe = readAddress(address);
  if (safe === undefined) return '';
  const link = { bbcode: `[url]${safe}[/url]`, commonmark: `<${safe}>`, plain: safe }[format];
  return `${escapeText(name, format)}\n\n${link}`;
}

/** The address where it is http or https and made of letters that no markup gives a meaning to. */
function readAddress(address: string): string | undefined {
  return /^https?:\/\/[\w.:-]+\/[\w.,:/#=&%~-]*$/.test(address) ? address : undefined;
}

/** Cleaned text as a reader of that markup takes it for plain text, and for nothing else, within a line. */
export function escapeText(line: string, format: PostFormat): string {
  switch (format) {
    case 'bbcode':
      return escapeBbcode(line);
    case 'commonmark':
      return escapeCommonmark(line);
    case 'plain':
      return line;
  }
}

/** Escaped text with what means something only at the start of a line (CommonMark 0.31.2, sections 4.1, 4.3 and 5.2) escaped too. */
export function escapeLineStart(line: string, format: PostFormat): string {
  if (format !== 'commonmark') return line;
  return line.replace(/^[-+=:]/u, '\\$&').replace(/^(\d{1,9})([.)])/u, '$1\\$2');
}

/**
 * BBCode has no escape that all boards know. Brackets become round, and signs that a board might pass on as HTML, or
 * take for an item of a list, become their typographic likes, so that nothing is left to be a tag or an entity.
 */
function escapeBbcode(line: string): string {
  return line
    .replaceAll('[', '(')
    .replaceAll(']', ')')
    .replaceAll('<', '‹')
    .replaceAll('>', '›')
    .replaceAll('*', '∗')
    .replace(/&(?=#?\w+;)/gu, '＆');
}

/** Backslashes as CommonMark 0.31.2, section 2.4 has them; the signs of common extensions (tables, struck text, formulas) too. */
function escapeCommonmark(line: string): string {
  return line.replace(/[\\`*_[\]<>&!~|#$^]/gu, '\\$&');
}

/**
 * A person's own words as one line that can hide nothing: control and format characters gone (those that turn the direction of
 * writing too; the two joiners that scripts and emoji need stay), white space run together, at most `longest` characters, and what
 * boards turn into links or calls by themselves (`scheme://`, `www.`, `@name`) pulled apart by a space.
 * @example cleanText('Fen\n\u202Esupply  http://x.example', 80) // 'Fen supply http: //x.example'
 */
export function cleanText(text: string, longest: number): string {
  const line = text
    .slice(0, longest * 4)
    .toWellFormed()
    .replace(/[\p{Cf}--[\u200c\u200d]]/gv, '')
    .replace(/[\p{Cc}\s]+/gu, ' ')
    .trim();
  const letters = [...line];
  const cut = letters.length > longest ? `${letters.slice(0, longest - 1).join('')}…` : line;
  return cut
    .replace(/:(?=\/\/)/gu, ': ')
    .replace(/www\.(?=\S)/giu, (match) => `${match.slice(0, -1)} .`)
    .replace(/@(?=[\p{L}\p{N}_])/gu, '@ ');
}
