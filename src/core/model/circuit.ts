import { fnv1a } from './fnv.ts';
import type { Status } from './target.ts';

/** A small circuit as a netlist: what each of its points reads when all is well and under each fault, simulated beforehand. */
export interface Circuit {
  readonly slug: string;
  readonly title: string;
  readonly summary: string;
  /** Slug of sources.yaml: where the shape of the circuit comes from. */
  readonly source: string;
  readonly status: Status;
  /** Slugs of points.yaml. */
  readonly points: Readonly<Record<string, CircuitPoint>>;
  /** Points whose readings are evidence; the others say how bad the complaint is, which brought the reader here. */
  readonly evidence: readonly string[];
  /** Part or parameter of the netlist to what good ones lie between. */
  readonly tolerances: Readonly<Record<string, Change>>;
  readonly faults: Readonly<Record<string, CircuitFault>>;
  /** Elements and settings of the netlist, its models first; no title, no comments. */
  readonly lines: readonly string[];
  readonly drawing: Drawing;
  /** Undefined where it was not simulated yet. */
  readonly results: CircuitResults | undefined;
}

/** What is simulated of a circuit. */
export type Netlist = Omit<Circuit, 'results' | 'drawing'>;

/** A part of a circuit as one unit has it: what is printed beside it and its value, or `none` where the unit has no such part. */
export type FittedPart = 'none' | { readonly name: string; readonly value: string | undefined };

/** A circuit as it is drawn, on a grid: what stands where. What is joined to what, the netlist says. */
export interface Drawing {
  readonly parts: readonly DrawnElement[];
  readonly wires: readonly Wire[];
  /** Where a sign of ground hangs. */
  readonly grounds: readonly Place[];
  readonly flags: readonly PointFlag[];
}

/** Steps across and down from the upper left corner. */
export type Place = readonly [x: number, y: number];

export const directions = ['right', 'down', 'left', 'up'] as const;
export type Direction = (typeof directions)[number];
export const textSides = ['above', 'below', 'leftward', 'rightward'] as const;

/** One symbol: an element of the netlist, or several that stand for one thing. */
export interface DrawnElement {
  /** As the netlist writes them. */
  readonly elements: readonly string[];
  readonly symbol: string;
  readonly at: Place;
  readonly direction: Direction;
  readonly isMirrored: boolean;
  /** The node of each pin of the symbol; undefined where nothing is joined to it. */
  readonly nodes: readonly (string | undefined)[];
  /** What it is called where that is more than its name in the netlist. */
  readonly words: string | undefined;
  readonly value: string | undefined;
  /** Where its words stand, if not where they usually do. */
  readonly side: (typeof textSides)[number] | undefined;
}

export interface Wire {
  readonly node: string;
  readonly corners: readonly Place[];
}

/** Where a lead of a point is put on, and to which side its flag flies. */
export interface PointFlag {
  readonly point: string;
  /** Counted from 1 in the order of the points. */
  readonly number: number;
  readonly lead: 'red' | 'black';
  readonly node: string;
  readonly at: Place;
  readonly direction: Direction;
}

/** The two nodes between which a point is read. */
export interface CircuitPoint {
  readonly red: string;
  readonly black: string;
}

export interface CircuitFault {
  readonly title: string;
  /** Other names that trees have for it: it is their cause of the same id as the fault, or one of these. */
  readonly also: readonly string[];
  /** The ways in which it comes, equally often: part or parameter to what happens to it. */
  readonly ways: readonly Readonly<Record<string, Change>>[];
}

/** What happens to a part: it opens, shorts, or its value lies between two figures, as a share of it or in its own unit. */
export type Change =
  | { readonly kind: 'open' | 'short' }
  | { readonly kind: 'share' | 'value'; readonly from: number; readonly to: number };

/** What the simulator gave, as it lies beside the netlist. */
export interface CircuitResults {
  readonly engine: string;
  /** `hashNetlist` of what was simulated. */
  readonly netlist: string;
  /** Seconds that a trace covers; 0 where only steady values were asked for. */
  readonly seconds: number;
  /** `healthy` or a fault; then the point. */
  readonly states: Readonly<Record<string, Readonly<Record<string, PointReading>>>>;
}

/** The state of a circuit without a fault. */
export const healthy = 'healthy';

/** What is read at one point, in volts and hertz. `ac` is rms without the mean; `rate` how often a second it rises. */
export const figureNames = ['mean', 'ac', 'low', 'high', 'rate'] as const;
export type FigureName = (typeof figureNames)[number];

export type PointReading = Readonly<Record<FigureName, Spread>> & {
  /** Volts at equal distances in time, all parts at their nominal values. */
  readonly trace: readonly number[];
};

/** The nominal figure, then the 0th, 5th, 25th, 50th, 75th, 95th and 100th percentile over the tolerances. */
export type Spread = readonly number[];
export const spreadLevels = [0, 0.05, 0.25, 0.5, 0.75, 0.95, 1] as const;

/** Everything that a simulation depends on as a name of 16 hexadecimal digits. It guards against forgetting, not against malice. */
export function hashNetlist({ lines, points, tolerances, faults }: Netlist): string {
  const changes = Object.entries(faults).map(([id, fault]) => [id, fault.ways]);
  const text = JSON.stringify([lines, points, tolerances, changes]);
  return [0x811c9dc5, 0x01234567].map((offset) => fnv1a(text, offset).toString(16).padStart(8, '0')).join('');
}
