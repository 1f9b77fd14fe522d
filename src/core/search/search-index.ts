import { nodeProse, isStep } from '../model/node.ts';
import type { Check, FaultTree } from '../model/fault-tree.ts';
import type { Library, LibraryBeside } from '../model/library.ts';
import { conceptOf, featureOf, type Lexicon, makeLexicon, named, stemPhrases } from './lexicon.ts';
import { readPhrase } from './read-phrase.ts';
import { readTokens } from './read-tokens.ts';
import type { NextDoor, Thesaurus } from '../model/thesaurus.ts';
import { type TaughtModel, untaughtModel } from './taught-model.ts';

/** Everything the search needs, as JSON: built ahead from the library, loaded on the first focus of the search box. */
export interface SearchIndex {
  /** With stems for words; the words of the trade are in `trade`. */
  readonly thesaurus: Thesaurus;
  readonly nextDoor: readonly NextDoor[];
  readonly signs: Readonly<Record<string, { readonly question: string; readonly yes: string; readonly no: string }>>;
  readonly blocks: Readonly<Record<string, string>>;
  readonly trees: readonly IndexedTree[];
  /** By feature (concept and how it is spoken of): tree, strength (1 to 99), tree, strength … */
  readonly features: Readonly<Record<string, readonly number[]>>;
  /** The same for single words, by stem. */
  readonly words: Readonly<Record<string, readonly number[]>>;
  readonly model: TaughtModel;
  /** Family of each part, by its number. */
  readonly parts: Readonly<Record<string, string>>;
  /** Pages that are found by name. */
  readonly pages: readonly NamedPage[];
  /** Stems that parts, points, targets, cautions, units and sources use and no tree does. */
  readonly trade: readonly string[];
}

/** A page that is no tree: kind, slug, title, and for a part its other numbers. */
export type NamedPage = readonly [
  kind: 'unit' | 'part' | 'target' | 'caution',
  slug: string,
  title: string,
  also?: string,
];

export interface IndexedTree {
  readonly slug: string;
  readonly title: string;
  readonly block: string;
  readonly symptoms: readonly string[];
  /** Number of checks and paths. */
  readonly checks: number;
  /** What can be seen from outside: sign to yes or no. */
  readonly signs: Readonly<Record<string, 'yes' | 'no'>>;
  /** Check that a sign answers, by sign. */
  readonly signChecks: Readonly<Record<string, string>>;
  /** Check that is a reading of a target, by target; only targets that a spoken number can answer. */
  readonly readings: Readonly<Record<string, string>>;
}

/** How strongly a word in a field says what a tree is about, 0 to 1. Our judgement, held by tests/bench/search.ts. */
const fieldStrength = {
  symptom: 0.6,
  title: 0.7,
  summary: 0.4,
  cause: 0.22,
  check: 0.16,
  end: 0.06,
  prose: 0.025,
} as const;
const mostProseStrength = 0.2;
const leastStrength = 0.04;

/** Builds the index of all trees. Cost: one reading of every text in them. */
export function buildSearchIndex(library: Library, model: TaughtModel = untaughtModel): SearchIndex {
  const { thesaurus, nextDoor } = stemPhrases(library.thesaurus, [...library.nextDoor.values()]);
  const lexicon = makeLexicon(thesaurus, nextDoor);
  const trees = [...library.trees.values()];
  const features = new Map<number, number[]>();
  const words = new Map<string, number[]>();
  for (const [number, tree] of trees.entries()) {
    const profile = profileOf(tree, lexicon);
    for (const [feature, strength] of profile.features) append(features, feature, number, strength);
    for (const [word, strength] of profile.words) append(words, word, number, strength);
  }
  return {
    thesaurus: { ...thesaurus, trade: [] },
    nextDoor,
    signs: Object.fromEntries([...library.signs].map(([slug, { question, yes, no }]) => [slug, { question, yes, no }])),
    blocks: Object.fromEntries([...library.blocks].map(([slug, { title }]) => [slug, title])),
    trees: trees.map((tree) => indexTree(tree, library.thesaurus)),
    features: Object.fromEntries([...features].sort(([a], [b]) => a - b)),
    words: Object.fromEntries([...words].sort(([a], [b]) => (a < b ? -1 : 1))),
    model,
    parts: Object.fromEntries(
      [...library.parts.values()].flatMap(({ slug, family, aliases }) =>
        [slug, ...aliases].map((name) => [name.toLowerCase(), family] as const),
      ),
    ),
    pages: listPages(library),
    trade: listTrade(library, lexicon, words),
  };
}

/** Gives the function that tells which concepts of the thesaurus a tree speaks of, by their numbers. */
export function makeConceptReader(library: LibraryBeside): (tree: FaultTree) => readonly number[] {
  const { thesaurus, nextDoor } = stemPhrases(library.thesaurus, [...library.nextDoor.values()]);
  const lexicon = makeLexicon(thesaurus, nextDoor);
  return (tree) => [...new Set([...profileOf(tree, lexicon).features.keys()].map(conceptOf))];
}

function listPages({ units, parts, targets, cautions }: Library): readonly NamedPage[] {
  return [
    ...[...units.values()].map(({ slug, title }): NamedPage => ['unit', slug, title]),
    ...[...parts.values()].map(({ slug, title, aliases }): NamedPage => [
      'part',
      slug,
      title,
      aliases.join(' ').toLowerCase(),
    ]),
    ...[...targets.values()].map(({ slug, title }): NamedPage => ['target', slug, title]),
    ...[...cautions.values()].map(({ slug, title }): NamedPage => ['caution', slug, title]),
  ];
}

/** Stems of three letters or more that reference content uses and neither the thesaurus nor a tree does, sorted. */
function listTrade(library: Library, lexicon: Lexicon, words: ReadonlyMap<string, unknown>): readonly string[] {
  const texts = [
    ...library.thesaurus.trade,
    ...[...library.parts.values()].flatMap(({ title, aliases, pins }) => [
      title,
      ...aliases,
      ...pins.map(({ name }) => name),
    ]),
    ...[...library.points.values()].flatMap(({ title, find }) => [title, find]),
    ...[...library.targets.values()].map(({ title }) => title),
    ...[...library.units.values()].map(({ title }) => title),
    ...[...library.cautions.values()].flatMap(({ title, line, text }) => [title, line, text]),
    ...[...library.setups.values()].map(({ title }) => title),
    ...[...library.instruments.values()].map(({ title }) => title),
  ];
  const found = new Set(
    texts.flatMap((text) => readTokens(text).flatMap(({ stem, amount }) => (amount ? [] : [stem]))),
  );
  return [...found].filter((stem) => stem.length > 2 && !lexicon.phrases.has(stem) && !words.has(stem)).sort();
}

function append<Key>(table: Map<Key, number[]>, key: Key, tree: number, strength: number): void {
  if (strength < leastStrength) return;
  const row = table.get(key) ?? [];
  row.push(tree, levelOf(strength * 99));
  table.set(key, row);
}

/** Strengths are told apart by a half and no finer: the same few numbers again and again pack small. */
const strengthLevels = [5, 9, 15, 24, 37, 55, 74, 99];

function levelOf(strength: number): number {
  return strengthLevels.reduce((best, level) =>
    Math.abs(level - strength) < Math.abs(best - strength) ? level : best,
  );
}

function indexTree(tree: FaultTree, thesaurus: Thesaurus): IndexedTree {
  const checks = tree.nodes.filter((node) => node.kind === 'check');
  const readable = new Set(thesaurus.amounts.flatMap(({ target }) => target));
  return {
    slug: tree.slug,
    title: tree.title,
    block: tree.block,
    symptoms: tree.symptoms,
    checks: tree.nodes.filter(isStep).length,
    signs: { ...signsOfFirstCheck(tree), ...tree.signs },
    signChecks: firstBy(checks, ({ sign, id }) => (sign === undefined ? undefined : [sign, id])),
    readings: firstBy(checks, ({ target, id }) =>
      target !== undefined && readable.has(target.target) ? [target.target, id] : undefined,
    ),
  };
}

/** A first check that asks for a sign: the answer that stays in this tree is what the tree expects. */
function signsOfFirstCheck(tree: FaultTree): Record<string, 'yes' | 'no'> {
  const [first] = tree.nodes;
  if (first?.kind !== 'check' || first.sign === undefined) return {};
  const staying = first.outcomes.filter(({ to }) => {
    const kind = tree.nodes.find(({ id }) => id === to)?.kind;
    return kind !== 'elsewhere' && kind !== 'hand-over';
  });
  const [word] = staying.flatMap(({ when }) => when);
  return staying.length === 1 && (word === 'yes' || word === 'no') ? { [first.sign]: word } : {};
}

function firstBy(
  checks: readonly Check[],
  entryOf: (check: Check) => readonly [string, string] | undefined,
): Record<string, string> {
  const found: Record<string, string> = {};
  for (const check of checks) {
    const entry = entryOf(check);
    if (entry !== undefined) found[entry[0]] ??= entry[1];
  }
  return found;
}

interface Profile {
  readonly features: ReadonlyMap<number, number>;
  readonly words: ReadonlyMap<string, number>;
}

/** What a tree is about: each concept and word with its strength. Independent witnesses join as 1 − Π(1 − strength). */
function profileOf(tree: FaultTree, lexicon: Lexicon): Profile {
  const features = new Map<number, number>();
  const words = new Map<string, number>();
  const join = <Key>(table: Map<Key, number>, key: Key, strength: number): void => {
    table.set(key, 1 - (1 - (table.get(key) ?? 0)) * (1 - strength));
  };
  const add = (text: string, strength: number): void => {
    const read = readPhrase(text, lexicon);
    for (const { concept, polarity, surety, isAside } of read.mentions) {
      join(features, featureOf(concept, polarity), strength * surety * (isAside ? 0.7 : 1));
    }
    for (const { stem, surety } of read.words) join(words, stem, strength * surety);
  };
  for (const symptom of tree.symptoms) add(symptom, fieldStrength.symptom);
  add(tree.title, fieldStrength.title);
  add(tree.summary, fieldStrength.summary);
  const prose = { features: new Map<number, number>(), words: new Map<string, number>() };
  for (const node of tree.nodes) {
    const isEnd = node.kind === 'elsewhere' || node.kind === 'hand-over';
    add(node.title, node.kind === 'cause' ? fieldStrength.cause : isEnd ? fieldStrength.end : fieldStrength.check);
    if (node.kind === 'path') for (const { title } of node.stages) add(title, fieldStrength.check);
    if (isEnd) continue;
    for (const paragraph of nodeProse(node)) {
      const read = readPhrase(paragraph, lexicon);
      for (const { concept } of read.mentions) join(prose.features, featureOf(concept, named), fieldStrength.prose);
      for (const { stem } of read.words) join(prose.words, stem, fieldStrength.prose);
    }
  }
  for (const [feature, strength] of prose.features) join(features, feature, Math.min(strength, mostProseStrength));
  for (const [word, strength] of prose.words) join(words, word, Math.min(strength, mostProseStrength));
  return { features, words };
}
