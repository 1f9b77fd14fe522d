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
