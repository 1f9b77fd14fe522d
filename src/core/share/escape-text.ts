import type { PostFormat } from './post-format.ts';

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
