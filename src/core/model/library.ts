import type { Circuit, FittedPart } from './circuit.ts';
import type { NextDoor, Thesaurus } from './thesaurus.ts';
import type { FaultTree } from './fault-tree.ts';
import type { InstrumentClass } from './instrument-class.ts';
import type { Prose } from './prose.ts';
import type { Chip, Part, PointPins } from './part.ts';
import type { Picture } from './picture.ts';
import type { Placement } from './placement.ts';
import type { Site } from './site.ts';
import type { SupplyKind } from './supply.ts';
import type { Limits, Status, Target } from './target.ts';

/** All content: what every page, rule and computation reads. Keys are slugs. */
export interface Library extends LibraryBeside {
  readonly trees: ReadonlyMap<string, FaultTree>;
}

/** All content but the trees. */
export interface LibraryBeside extends References {
  readonly site: Site;
  readonly circuits: ReadonlyMap<string, Circuit>;
  readonly thesaurus: Thesaurus;
  readonly nextDoor: ReadonlyMap<string, NextDoor>;
}

/** What trees refer to. */
export interface References {
  readonly blocks: ReadonlyMap<string, Block>;
  readonly targets: ReadonlyMap<string, Target>;
  readonly cautions: ReadonlyMap<string, Caution>;
  readonly units: ReadonlyMap<string, Unit>;
  readonly points: ReadonlyMap<string, TestPoint>;
  readonly parts: ReadonlyMap<string, Part>;
  readonly chips: ReadonlyMap<string, Chip>;
  readonly pictures: ReadonlyMap<string, Picture>;
  readonly setups: ReadonlyMap<string, Setup>;
  readonly hazards: ReadonlyMap<string, Hazard>;
  readonly instruments: ReadonlyMap<string, InstrumentFamily>;
  readonly instrumentClasses: ReadonlyMap<string, InstrumentClass>;
  readonly signs: ReadonlyMap<string, Sign>;
  readonly sources: ReadonlyMap<string, Source>;
}

export interface Block {
  readonly slug: string;
  readonly title: string;
  readonly summary: string;
}

/** The signal words of safety signs, the gravest first: ISO 3864-2 and ANSI Z535.4, from memory. */
export const severities = ['danger', 'warning', 'caution', 'notice'] as const;
export type Severity = (typeof severities)[number];

/** What each signal word means. */
export const severityWords: Readonly<Record<Severity, { readonly word: string; readonly says: string }>> = {
  danger: { word: 'Danger', says: 'Can kill. Its question comes before the step.' },
  warning: { word: 'Warning', says: 'Can injure badly. In full above the step the first time, then a line.' },
  caution: { word: 'Caution', says: 'Can burn, cut, or sicken slowly.' },
  notice: { word: 'Notice', says: 'Can ruin the unit or what it holds; nobody is hurt.' },
};

export interface Caution {
  readonly slug: string;
  readonly title: string;
  readonly severity: Severity;
  /** At most twelve words: what to do. Stands above a step once the text was read. */
  readonly line: string;
  /** The line at a step with power on and the case open, where it is another. */
  readonly openLive: string | undefined;
  /** What a danger asks before its step; yes goes on. */
  readonly asks: string | undefined;
  /** At most 60 words; shown before the step. */
  readonly text: string;
  readonly actions: readonly string[];
  readonly source: string;
  readonly status: Status;
  readonly prose: Prose;
}

export type MainsExposure = 'outside' | 'inside-covered' | 'inside-bare' | 'unknown';

/** One particular unit: where each test point sits, what differs. */
export interface Unit {
  readonly slug: string;
  readonly title: string;
  readonly summary: string;
  /** Made up to show how it works: lists say so. */
  readonly isInvented: boolean;
  readonly mains: MainsExposure;
  readonly supplyKind: SupplyKind | 'unknown';
  readonly hasTube: boolean;
  readonly storesCharge: boolean;
  /** The highest dc voltage that feeds anything in it, where its file says so. */
  readonly supplyVolts: number | undefined;
  readonly variants: readonly string[];
  readonly points: Readonly<Record<string, string>>;
  /** Its chips: slug of chips.yaml to slug of a part. */
  readonly chips: Readonly<Record<string, string>>;
  readonly targets: Readonly<Record<string, Limits>>;
  /** Its boards, drawn; undefined where its file has none. */
  readonly placement: UnitPlacement | undefined;
  /** Circuits that it has: slug to its own parts, each under the first element that the drawing shows there. */
  readonly circuits: Readonly<Record<string, Readonly<Record<string, FittedPart>>>>;
  /** What differs from the general tree: tree slug to sentences. */
  readonly differs: Readonly<Record<string, string>>;
  readonly prose: Prose;
}

export interface UnitPlacement extends Placement {
  /** Test points that are on no board: a plug, a lead, a screw of the case. */
  readonly elsewhere: readonly string[];
  /** Parts that the words of its points name and that sit on no board. */
  readonly offBoard: readonly string[];
}

export interface TestPoint {
  readonly slug: string;
  readonly title: string;
  /** How to find it without a drawing. */
  readonly find: string;
  /** Where it lies on a part, so that it can be drawn. */
  readonly pins: PointPins | undefined;
}

export interface Setup {
  readonly slug: string;
  readonly title: string;
  readonly minutes: number;
  readonly cautions: readonly string[];
  /** What undoes it: `power-on`, or undefined where it lasts. */
  readonly endedBy: 'power-on' | undefined;
  readonly text: string;
}

export interface Hazard {
  readonly slug: string;
  readonly title: string;
  readonly cautions: readonly string[];
  /** Set-up that must be redone before hands go in after power was on, or undefined. */
  readonly setup: string | undefined;
}

export interface InstrumentFamily {
  readonly slug: string;
  readonly title: string;
  /** P(a judgement made with it is right), 0 to 1; our judgement. */
  readonly reliability: number;
}

export interface Sign {
  readonly slug: string;
  readonly question: string;
  readonly yes: string;
  readonly no: string;
}

export interface Source {
  readonly slug: string;
  readonly title: string;
  readonly detail: string;
  readonly status: Status;
}
