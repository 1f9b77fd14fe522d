/** What people call things: the content of thesaurus.yaml. */
export interface Thesaurus {
  /** By slug. */
  readonly concepts: Readonly<Record<string, Concept>>;
  /** Words that bind "not there" to what follows, or to what came before. */
  readonly absence: { readonly before: readonly string[]; readonly after: readonly string[] };
  /** Words that say that something works. */
  readonly fine: readonly string[];
  /** After these, what follows is a circumstance and not the subject. */
  readonly circumstance: readonly string[];
  /** "No" and "works" do not reach across these. */
  readonly boundary: readonly string[];
  /** Words that say nothing about a fault. */
  readonly ordinary: readonly string[];
  /** Words of the trade that lead to no concept: no strangers. */
  readonly trade: readonly string[];
  readonly amounts: readonly AmountMeaning[];
  /** By sign: what a person says in passing that answers it, as `concept fine`. */
  readonly signs: Readonly<Record<string, Readonly<Record<'yes' | 'no', readonly string[]>>>>;
}

/** One idea and the words and phrases for it. */
export interface Concept {
  readonly words: readonly string[];
  /** Phrases that say it is missing or does not work. */
  readonly gone: readonly string[];
  /** Phrases that say it works. */
  readonly fine: readonly string[];
  /** Concepts that often mean the same trouble. */
  readonly near: readonly string[];
  /** Pairs of concepts (`minus supply`, `computer gone`) that mean this one when they stand close together. */
  readonly together: readonly string[];
  /** A kind of unit that the trees are about. */
  readonly ours: boolean;
  /** A fault by its nature: where it is missing ("no hum"), all is well. */
  readonly trouble: boolean;
}

export type AmountQuantity = 'voltage' | 'resistance' | 'frequency' | 'time' | 'speed' | 'current' | 'amplitude';

/** What a number with its unit means: volts, ohms, hertz, seconds, revolutions a minute, amperes, millivolts. */
export interface AmountMeaning {
  readonly quantity: AmountQuantity;
  readonly from: number;
  readonly to: number;
  readonly means: readonly string[];
  /** The number says that something is not there. */
  readonly absent: boolean;
  /** Read off with decimals, the number says that all is well there. */
  readonly healthy: boolean;
  /** Targets that the number is a reading of. */
  readonly target: readonly string[];
}

/** A subject that is not in these pages, and what to say when somebody asks for it. */
export interface NextDoor {
  readonly slug: string;
  readonly title: string;
  readonly words: readonly string[];
  /** Words of that world that do not decide by themselves. */
  readonly hints: readonly string[];
  /** Concepts of the thesaurus that tell it, for a danger: it is spoken of wherever one of them is. */
  readonly concepts: readonly string[];
  readonly says: string;
  readonly isLethal: boolean;
  /** Apparatus of another kind: nothing of ours fits it, unless a unit of ours is named beside it. */
  readonly isApart: boolean;
  readonly caution: string | undefined;
}

export const emptyThesaurus: Thesaurus = {
  concepts: {},
  absence: { before: [], after: [] },
  fine: [],
  circumstance: [],
  boundary: [],
  ordinary: [],
  trade: [],
  amounts: [],
  signs: {},
};
