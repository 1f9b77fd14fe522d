import { splitSentences } from './reader-texts.ts';

/**
 * What a sentence tells to do, read clause by clause. Rules name an act and what it is done to, each as a short pattern; how far
 * apart the two may stand is counted in words, so that a decimal point, a bracket or a full stop in `approx.` hides nothing. Every
 * pattern is tried at every place, and a "not" denies only what it belongs to. Cost: words times patterns.
 */
export interface Told {
  /** The words from the act to its object, as they stand in the sentence. */
  readonly words: string;
  readonly from: number;
  readonly to: number;
}

/** An act, what it is done to or with, and how many words may stand between the two. */
export interface Telling {
  readonly act: RegExp;
  /** Left out where the act says it all. */
  readonly object?: RegExp;
  readonly reach?: number;
  /** The first words name a thing and no act: an article may stand before them. */
  readonly isThing?: boolean;
  /** The object holds a "without" of its own: only what stands before the act can deny it. */
  readonly isDeniedBefore?: boolean;
}

/** Every place where a sentence tells to do this, in order; what is denied there is not told. */
export function findTold(sentence: string, telling: Telling): readonly Told[] {
  const { act, object, reach = 10, isThing = false, isDeniedBefore = false } = telling;
  return matchEach(sentence, act).flatMap(({ index, 0: words }): readonly Told[] => {
    // "A short", "the swap", "the fuse’s touch": a noun.
    if (!isThing && article.test(sentence.slice(0, index))) return [];
    const actEnd = index + words.length;
    const end = object === undefined ? actEnd : endOfObject(sentence, actEnd, object, reach);
    if (end === undefined || isDenied(sentence, index, isDeniedBefore ? index : end)) return [];
    return [{ words: sentence.slice(index, end), from: index, to: end }];
  });
}

/** Words without accents and with plain blanks and apostrophes: a mark over a letter hides no word from the patterns. */
export function foldLetters(text: string): string {
  return text.normalize('NFKD').replace(/\p{M}/gu, '').replace(/[’‘]/g, "'").replace(/\s+/g, ' ');
}

/** Sentences of a text as the patterns read them; one that ends in an abbreviation goes on. */
export function foldedSentences(text: string): readonly string[] {
  return splitSentences(foldLetters(text).replace(/\b(approx|max|min|e\.g|i\.e|vs|no|resp|ca|incl)\. /gi, '$1 '));
}

const everywhere = new Map<string, RegExp>();

/** Every place where the pattern is found, whatever the case of its letters. */
function matchEach(sentence: string, { source }: RegExp): readonly RegExpExecArray[] {
  const pattern = everywhere.get(source) ?? new RegExp(source, 'gi');
  everywhere.set(source, pattern);
  return [...sentence.matchAll(pattern)];
}

/** Where the object that stands within reach after the act ends. */
function endOfObject(sentence: string, from: number, object: RegExp, reach: number): number | undefined {
  const window = firstWords(sentence.slice(from), reach + longestObject);
  const found = new RegExp(object.source, 'i').exec(window);
  if (found === null || countWords(window.slice(0, found.index)) > reach) return undefined;
  return from + found.index + found[0].length;
}

const longestObject = 8;
const article =
  /(?:\b(?:an?|the|this|that|these|any|each|every|its|your|of|another|such|dead|still|is|are|reads?)|'s) $/i;

function firstWords(text: string, count: number): string {
  let end = 0;
  let words = 0;
  for (const found of text.matchAll(/\S+/g)) {
    if (words === count) break;
    end = found.index + found[0].length;
    words += 1;
  }
  return text.slice(0, end);
}

function countWords(text: string): number {
  return text.split(' ').filter((word) => word !== '').length;
}

const denial =
  /\b(?:never|not|no|(?:do|does|must|should|is|are|will|can)n't|don't|nobody|none|nothing|without|instead of|rather than|cannot|neither|nor|avoid|refuse)\b/i;

/** Words that sound like a denial and forbid nothing. */
const noDenial =
  /\b(?:no (?:need|harm|danger|risk|problem|matter|longer|later|worry|sooner|fewer|less|more|sound|picture|light|sign)|not (?:only|just|yet|least|sure|start|work|light|run|come|matter)|nothing (?:wrong|bad|else|happens|to (?:fear|lose)|comes|shows)|without (?:fear|delay|hesitation|worry|waiting|hurry)|(?:do not|don't|never) (?:hesitate|hurry|worry|fear|be (?:afraid|shy|timid)|forget|fail|wait|mind|bother)|does not matter|doesn't matter|cannot hurt|can't hurt|won't hurt|will not hurt|if not|or not|whether or not)\b/gi;

/**
 * Whether the words from `start` to `end` are forbidden: a "never" or "without" in their own clause. In "if it does not start, …" or
 * "do not hurry, …" it belongs to another clause; in "never touch, prod or press …" it goes on over the list.
 */
function isDenied(sentence: string, start: number, end: number): boolean {
  const masked = sentence.replace(noDenial, (words) => 'x'.repeat(words.length));
  const before = masked.slice(0, start);
  const cut = lastBoundary(before);
  if (denial.test(masked.slice(cut, end))) return true;
  return continuesList(before, cut, masked.slice(cut));
}

const boundary =
  /,|\b(?:but|then|so|because|until|unless|if|when|while|where|once|although|though|since|and then|after which)\b/gi;

function lastBoundary(text: string): number {
  let cut = 0;
  for (const { index, 0: words } of text.matchAll(boundary)) cut = index + words.length;
  return cut;
}

/** "Never touch, prod or press it": single acts between commas, and "or" before the last. */
function continuesList(before: string, cut: number, rest: string): boolean {
  if (!before.slice(0, cut).endsWith(',')) return false;
  const isList = /^[^,]{0,60}\b(?:or|nor)\b/i.test(rest) || /\b(?:or|nor)\b[^,]{0,60}$/i.test(before.slice(cut));
  if (!isList) return false;
  const earlier = before.slice(0, cut - 1).split(',');
  for (let place = earlier.length - 1; place >= 0; place -= 1) {
    const part = earlier[place] ?? '';
    if (denial.test(part)) return countWords(part.slice(part.search(denial))) <= 6;
    if (countWords(part.trim()) > 3) return false;
  }
  return false;
}
