import { tidyLabel } from '../figure/label.ts';

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
    .replace(/^(?:import|export)\b/u, (word) => `&#${word.codePointAt(0)};${word.slice(1)}`);
}

/** What opens elements and expressions is not even written as itself, so that nothing which counts these is misled. */
const asEntity: Readonly<Record<string, string>> = { '<': '&lt;', '{': '&#123;', '}': '&#125;' };

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
  return shorten(tidyLabel(text), longest).replaceAll('&', '&amp;').replaceAll('"', '&quot;').replaceAll('<', '&lt;');
}

/** Writes text as a YAML scalar in double quotes, of which JSON's strings are a part (YAML 1.2.2, section 1.3). */
export function escapeYaml(text: string, longest: number): string {
  return JSON.stringify(shorten(tidyLabel(text), longest));
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
