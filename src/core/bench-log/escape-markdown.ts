/**
 * A person's text on one line of CommonMark, read back as exactly these characters: every mark of ASCII punctuation gets a backslash
 * (CommonMark 0.31.2, 2.4), white space is folded, control and direction characters are left out.
 * @example escapeMarkdown('a *b* <c>') // 'a \\*b\\* \\<c\\>'
 */
export function escapeMarkdown(text: string): string {
  return foldText(text).replaceAll(/[!-/:-@[-`{-~]/g, '\\$&');
}

/** A person's text on one line: white space folded, control and direction characters left out. */
export function foldText(text: string): string {
  return text
    .replaceAll(/\s+/gu, ' ')
    .replaceAll(/[\p{Cc}\p{Cf}\p{Cs}]/gu, '')
    .trim();
}
