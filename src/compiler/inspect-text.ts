import type { Finding } from './problem.ts';

/** More findings than this of one file tell its author nothing new. */
const mostFindings = 20;

/**
 * What makes a file one that nobody may read further: characters that are not seen, letters that only look like ours, and lines that
 * begin like module code. Looked for in the file as it is written, before any parser sees it, since two parsers may disagree on
 * all three. A byte order mark at the very beginning and lines ended by CR and LF, as some editors write them, are legal.
 * One pass over the text for each of the three.
 */
export function inspectText(text: string): readonly Finding[] {
  const found = [findHidden(text.replace(/^\uFEFF/, ' ')), findOtherScripts(text), findModuleCode(text)].flatMap(
    (each) => take(each, mostFindings),
  );
  if (found.length === 0) return [];
  const lineStarts = [0, ...[...text.matchAll(/\n/g)].map(({ index }) => index + 1)];
  return found.slice(0, mostFindings).map(({ index, ...finding }) => {
    const line = lineStarts.findLastIndex((start) => start <= index);
    return { ...finding, position: { line: line + 1, column: index - (lineStarts[line] ?? 0) + 1 } };
  });
}

/**
 * The same for words that were written with entities or escapes (`&#x200B;`, "\u202E"): what they decode to. At most one finding of
 * each kind; where the words stand is the caller's to say.
 */
export function inspectDecoded(words: string): readonly Omit<Finding, 'position'>[] {
  return [...take(findHidden(words), 1), ...take(findOtherScripts(words), 1)].map(
    ({ index: _index, ...finding }) => finding,
  );
}

/** The first ones: what is full of the same thing is not searched to its end. */
function take<Item>(items: Iterable<Item>, most: number): readonly Item[] {
  const taken: Item[] = [];
  for (const item of items) {
    taken.push(item);
    if (taken.length === most) break;
  }
  return taken;
}

type Found = Omit<Finding, 'position'> & { readonly index: number };

/**
 * Characters that no reader sees or that no editor types: control, format, private-use and unassigned ones, halves of a pair (Unicode
 * general category C), line and paragraph separators, whatever is ignored where it is drawn (Default_Ignorable_Code_Point: zero-width
 * and bidirectional marks, fillers, variation selectors, tags), blanks but for the no-break ones, and U+FFFD, which a file has that is
 * not UTF-8. Unicode Standard, chapters 4.5 and 5.21, by the tables of the JavaScript engine.
 */
const hidden =
  /\r(?!\n)|(?![\t\n\r])[\p{C}\p{Zl}\p{Zp}\p{Default_Ignorable_Code_Point}\uFFFD\u2800]|(?![ \u00A0\u202F])\p{Zs}/gu;

const namesOfHidden: Readonly<Record<string, string>> = {
  '\0': 'NUL',
  '\r': 'carriage return without a line feed',
  '\u0085': 'next line',
  '\u00AD': 'soft hyphen',
  '\u200B': 'zero-width space',
  '\u200D': 'zero-width joiner',
  '\u202E': 'right-to-left override',
  '\u2028': 'line separator',
  '\u2029': 'paragraph separator',
  '\uFEFF': 'byte order mark',
  '\uFFFD': 'what is not UTF-8',
};

function* findHidden(text: string): Iterable<Found> {
  for (const { 0: character, index } of matchesIn(text, /[^\t -~]/, hidden)) {
    const name = namesOfHidden[character];
    yield {
      index,
      rule: 'hidden-character',
      message: `Unexpected character ${codeOf(character)}${name === undefined ? '' : ` (${name})`}, expected letters, signs and plain blanks.`,
      help:
        character === '\uFFFD'
          ? 'Save the file as UTF-8 and write the character again.'
          : 'Delete it; it came with pasted text. Type the words around it again if you cannot see it.',
    };
  }
}

/** Words with a letter, or a combining mark, outside ASCII; and single signs and digits there that may stand for letters and digits. */
const unusualWord = /(?<![\p{L}\p{M}])(?:[\p{L}\p{M}]*[^\P{L}A-Za-z]|[A-Za-z]*\p{M})[\p{L}\p{M}]*/gu;
const unusualSign = /[\u{1F100}-\u{1F1FF}]|[‐‑‒―⁃﹘﹣－]|(?![\p{L}\p{M}\0-\x7F])[\p{N}\p{S}]/gu;
/** Letters of European names: accents fold away for the rules that look for words. */
const latinWord = /^[A-Za-zÀ-ÖØ-öø-ÿĀ-ĪĬ-İĲ-ķĹ-ňŌ-ž]+$/u;
/** Greek letters as units and symbols, alone or as technicians join them to Latin ones: kΩ, µF, ΔV, πfC. */
const symbolWord =
  /^(?:[kKMGmnpµμ]?Ω|[µμ](?:[ACFHSTVWglms]|Hz|Ah|V(?:pp|rms|ac|dc))?|[ΔΣΦδπφ][A-Za-z]{0,3}|[ΓΘΛΨαβγεηθλρστχψω])$/u;

function* findOtherScripts(text: string): Iterable<Found> {
  for (const { 0: written, index } of matchesIn(text, notAscii, unusualWord)) {
    const word = written.normalize('NFC');
    if (latinWord.test(word) || symbolWord.test(word)) continue;
    const letter = [...word].find((each) => !latinWord.test(each)) ?? '';
    yield otherScript(index, `${codeOf(letter)} in \`${written.slice(0, 40)}\``);
  }
  for (const { 0: sign, index } of matchesIn(text, notAscii, unusualSign)) {
    const plain = sign.normalize('NFKD');
    const isLetter = /[A-Za-z\u{1F100}-\u{1F1FF}]/u.test(plain) || /[\p{Nd}\p{Nl}\p{Pd}]/u.test(sign);
    if (isLetter && sign !== '\u2126') yield otherScript(index, `\`${sign}\` (${codeOf(sign)})`);
  }
}

function otherScript(index: number, what: string): Found {
  return {
    index,
    rule: 'other-script',
    message: `Unexpected ${what}, expected Latin letters, plain digits and hyphens.`,
    help: 'Type the word again in plain letters. Greek letters are for units and symbols: kΩ, µF, ΔV, π.',
  };
}

const notAscii = /[^\0-\x7F]/;

/** Matches of a slow pattern, looked for only in lines in which a quick one finds something, as they are asked for. */
function* matchesIn(
  text: string,
  quick: RegExp,
  pattern: RegExp,
): Iterable<{ readonly 0: string; readonly index: number }> {
  if (!quick.test(text.replaceAll('\n', ' '))) return;
  let lineStart = 0;
  for (const line of text.split(/(?<=\n)/)) {
    if (quick.test(line.replace('\n', ' '))) {
      for (const { 0: found, index } of line.matchAll(pattern)) yield { 0: found, index: lineStart + index };
    }
    lineStart += line.length;
  }
}

/** What JavaScript takes for a blank between two words of code: blanks, ends of lines, comments. */
const gap = String.raw`(?:\s|/\*(?:[^*]|\*(?!/))*\*/)*`;
const identifier = String.raw`[\p{ID_Start}$_][\p{ID_Continue}$]*`;
/** An opened comment may end lines further down. */
const end = '$|/[/*]';
/** Some readers take anything as code behind a tab: no sentence has one there. */
const codeAfter: Readonly<Record<string, RegExp>> = {
  import: new RegExp(
    [
      String.raw`^(?:[^\S ]|${gap}(?:["'{*(]|${end}|\.${gap}(?:meta|source|defer)\b))`,
      String.raw`^${gap}(?:(?:type|defer|source)\b${gap})?(?:[{*]|${identifier}${gap}(?:${end}|,${gap}(?:[{*]|${end})|from${gap}(?:["']|${end})))`,
    ].join('|'),
    'u',
  ),
  export: new RegExp(
    [
      String.raw`^(?:[^\S ]|${gap}(?:["'{*(=@]|${end}))`,
      String.raw`^${gap}(?:default|const|let|var|function|class|async|enum|declare|abstract|namespace|interface)\b`,
      // A comment is code at once: what it holds may begin like code again, and would be read to its end each time.
      String.raw`^${gap}(?:type|import|as)\b\s*(?:/[/*]|[{*]|${identifier}\s*(?:/[/*]|[=<;]|$))`,
    ].join('|'),
    'u',
  ),
};
/** What may stand before code at the beginning of a line, for any parser: blanks, marks of lists and quotes, numbers, quote marks. */
const mayPrecede = /[\s\d>*+#.)"'`“‘-]/;

/** Lines that begin like code, also behind a tag or a comment. An ordinary sentence has a word there that JavaScript would not take. */
function* findModuleCode(text: string): Iterable<Found> {
  if (!/import|export/.test(text)) return;
  const words = /(?<![\p{ID_Continue}$])(?:import|export)(?![\p{ID_Continue}$-])/gu;
  for (const { 0: word, index } of matchesIn(text, /import|export/, words)) {
    let before = index;
    while (before > 0 && text[before - 1] !== '\n' && mayPrecede.test(text.charAt(before - 1))) before -= 1;
    if (before > 0 && !['\n', '}'].includes(text.charAt(before - 1)) && !text.slice(before, index).includes('>'))
      continue;
    const lineEnd = text.indexOf('\n', index);
    const rest = text.slice(index + word.length, lineEnd < 0 ? text.length : lineEnd);
    if (codeAfter[word]?.test(rest.trimEnd()) !== true) continue;
    yield {
      index,
      rule: 'no-code',
      message: `Unexpected line that begins like code (\`${word}\`), expected text.`,
      help: 'Content is data and runs nothing. Begin the line with another word.',
    };
  }
}

function codeOf(character: string): string {
  return `U+${(character.codePointAt(0) ?? 0).toString(16).toUpperCase().padStart(4, '0')}`;
}

/** Controls and other characters that a terminal, an editor or a reader would obey or not see. */
const unprintable = /[\p{C}\p{Zl}\p{Zp}\p{Default_Ignorable_Code_Point}]/gu;

/**
 * Words of a file for a terminal: what is not seen is written out (`<U+001B>`), so that a file can neither move the cursor nor begin a
 * line of its own; `##[`, which some runners obey in the middle of a line (from memory of their source), is parted.
 */
export function makeVisible(words: string): string {
  return words.replace(unprintable, (character) => `<${codeOf(character)}>`).replaceAll('##[', '## [');
}
