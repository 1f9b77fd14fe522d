import type { Prose } from './prose.ts';
import type { SupplyKind } from './supply.ts';

/** One symptom family: the decision graph from a symptom to its ends. The first node is where the reader starts. */
export interface FaultTree {
  readonly slug: string;
  readonly title: string;
  readonly block: string;
  readonly summary: string;
  /** Phrases as people type them, at least three. */
  readonly symptoms: readonly string[];
  /** Slugs of hazards.yaml that every unit with this symptom may hold. */
  readonly hazards: readonly string[];
  /** What can be seen without opening the unit: slug of signs.yaml to yes or no; a sign left out may be either. */
  readonly signs: Readonly<Record<string, 'yes' | 'no'>>;
  /** `as-written` where the order is the safety: the engine pulls nothing forward. Undefined where it is free to choose. */
  readonly order: 'as-written' | undefined;
  /** The day it came into the library, as `2026-11-30`. */
  readonly since: string | undefined;
  /** Earlier slugs of this tree, which keep answering. */
  readonly was: readonly string[];
  /** Slugs of circuits whose faults are causes of this tree. */
  readonly circuits: readonly string[];
  /**
   * What those circuits compute of P(outcome | cause): cause, then check or `path/stage`, then a probability for each word of the
   * target, 0 to 1; words left out have none.
   */
  readonly computed: Readonly<Record<string, Readonly<Record<string, Readonly<Record<string, number>>>>>>;
  /** In the order of the file. */
  readonly nodes: readonly TreeNode[];
}

export type TreeNode = Check | SignalPath | Cause | Elsewhere | HandOver;
export type NodeKind = TreeNode['kind'];

interface NodeBase {
  readonly id: string;
  readonly title: string;
  /** Earlier ids of this node; `tree/id` where it stood in another tree. */
  readonly was: readonly string[];
  /** Slugs of the cautions the author placed in this node, in order. */
  readonly cautions: readonly string[];
  /** The author's sentences, without the parts that have a field of their own. */
  readonly prose: Prose;
}

/** Of the unit; `accessory`: it is off, and the bench supply, player, recorder or tester beside it runs. */
export type Power = 'off' | 'on' | 'accessory';
/** What an action leaves behind: nothing, a mark (trimmer moved, leg lifted), or damage (soldered out, cut). */
export type Leaves = 'nothing' | 'mark' | 'damage';
export type Chance = 'common' | 'occasional' | 'rare';

/** One thing to look at or measure. */
export interface Check extends NodeBase {
  readonly kind: 'check';
  readonly minutes: number;
  readonly power: Power;
  /** Families of instruments that can do it; the first is the better one, later ones are weaker. */
  readonly instruments: readonly string[];
  /** Slugs of setups.yaml that must hold. */
  readonly needs: readonly string[];
  /** Checks of this tree that must have been done before. */
  readonly after: readonly string[];
  readonly leaves: Leaves;
  /** Minutes to wait before the reading counts. */
  readonly waitMinutes: number;
  /** Slug of the test point it looks at, where no target says it. */
  readonly point: string | undefined;
  /** How many equal neighbours are read and compared; undefined where only one point is read. */
  readonly siblings: number | undefined;
  /** What is swapped in, for a swap with a part known to be good. */
  readonly swap: string | undefined;
  /** Slug of signs.yaml that answers this check before anything is opened. */
  readonly sign: string | undefined;
  readonly target: TargetUse | undefined;
  readonly outcomes: readonly Outcome[];
}

/** A target as used at one place: which one, and at which test point. */
export interface TargetUse {
  readonly target: string;
  readonly point: string | undefined;
}

/** Where one or several answers lead. */
export interface Outcome {
  /** Bands of the check's target, or the check's own words. */
  readonly when: readonly string[];
  /** A node of the same tree. */
  readonly to: string;
  /** What the button says beyond the word, or undefined. */
  readonly says: string | undefined;
  /** Slug of the picture that the button shows. */
  readonly figure: string | undefined;
  /** A stage, as `path/stage`, that the fault lies before: what comes in there is bad. */
  readonly saysBefore: string | undefined;
  /** A stage, as `path/stage`, that the fault lies after: up to there all is good. */
  readonly saysAfter: string | undefined;
  /** Families of instruments that are not at hand, as the answer says: what needs one of them is suggested no more. */
  readonly without: readonly string[];
  /** Kinds of supply that answer so: for a unit whose file names its kind, this is the answer to confirm. */
  readonly supply: readonly SupplyKind[];
}

/** A chain of stages that a signal passes: the fault lies between the last good stage and the first bad one. */
export interface SignalPath extends NodeBase {
  readonly kind: 'path';
  readonly power: Power;
  readonly needs: readonly string[];
  readonly after: readonly string[];
  readonly instruments: readonly string[];
  readonly stages: readonly Stage[];
  /** Node to go to when the last stage is good. */
  readonly good: string;
}

export interface Stage {
  readonly id: string;
  readonly title: string;
  readonly target: string | undefined;
  readonly point: string | undefined;
  readonly minutes: number;
  /** The node (a cause or a jump) between this stage and those before it. */
  readonly fault: string;
  /** Stages before this one; the one above it in the file where the author says nothing. */
  readonly from: readonly string[];
  /** The author's hint on where to put the probe. */
  readonly says: string | undefined;
}

/** A part or condition that explains the symptom, with its repair and the proof of it. */
export interface Cause extends NodeBase {
  readonly kind: 'cause';
  readonly chance: Chance;
  readonly lies: 'unit' | 'accessory' | 'medium';
  /** Causes this one often brings along. */
  readonly brings: readonly string[];
  readonly shows: Shows;
  readonly confirm: Part | undefined;
  readonly repair: Repair | undefined;
  readonly prove: Prove | undefined;
}

/** What a cause makes checks read: check id to the outcome words it shows (any of them). */
export type Shows = Readonly<Record<string, readonly string[]>>;

export interface Part {
  readonly prose: Prose;
  readonly targets: readonly TargetUse[];
}

export interface Repair extends Part {
  readonly minutes: number;
  readonly needs: readonly string[];
  readonly leaves: Leaves;
  readonly success: 'likely' | 'usual' | 'doubtful';
  /** What to write down or photograph before anything is removed. */
  readonly record: Prose;
  readonly substitutes: readonly Substitute[];
}

export interface Prove extends Part {
  readonly minutes: number;
}

/** What a fitted part must match, and how to test the new one before it goes in. */
export interface Substitute {
  /** Slug of substitute-roles. */
  readonly role: string;
  readonly part: string | undefined;
  readonly value: string | undefined;
  readonly voltage: string | undefined;
  readonly test: string;
  readonly prose: Prose;
}

/** Another tree explains the symptom: it opens with the readings taken so far. */
export interface Elsewhere extends NodeBase {
  readonly kind: 'elsewhere';
  readonly tree: string;
  readonly node: string | undefined;
  readonly chance: Chance;
  readonly shows: Shows;
}

export type HandOverReason =
  'mains' | 'picture-tube' | 'switch-mode' | 'instrument' | 'licensed' | 'not-a-fault' | 'beyond-this-page';

/** An honest end that is not a repair. */
export interface HandOver extends NodeBase {
  readonly kind: 'hand-over';
  readonly because: HandOverReason;
  readonly chance: Chance;
  readonly shows: Shows;
}
