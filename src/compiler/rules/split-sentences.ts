/** The sentences of a paragraph; a colon or a semicolon ends one too, since an eye rests there. */
export function splitSentences(paragraph: string): readonly string[] {
  return paragraph.split(/(?<=[.!?:;])\s+/);
}
