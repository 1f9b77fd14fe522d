import { type Circuit, healthy, type PointReading, type Spread } from '../model/circuit.ts';
import type { Cause, FaultTree, TargetUse } from '../model/fault-tree.ts';
import type { InstrumentClass } from '../model/instrument-class.ts';
import type { Target } from '../model/target.ts';
import { findUnit } from '../quantity/unit.ts';
import { uncertaintyAt } from '../reading/doubt.ts';
import { assumeInstrument } from '../reading/instrument.ts';
import { computeBandProbabilities } from '../reading/judgement.ts';
import { figureAt, peakToPeak } from './waveform.ts';

/** Probability of each band of a target, 0 to 1, together 1. */
export type BandShares = Readonly<Record<string, number>>;

/** What rows are computed from. */
export interface CircuitTables {
  readonly circuits: ReadonlyMap<string, Circuit>;
  readonly targets: ReadonlyMap<string, Target>;
  readonly instrumentClasses: ReadonlyMap<string, InstrumentClass>;
}

/** Levels at which the quantile function of a figure is read for its row: the middles of as many equal parts. */
const levels = 40;

/**
 * What a target reads of a point, in the target's unit: dc its mean, ac its rms without the mean, peak to peak, frequency, the lowest
 * point where the target is a trough. Undefined where a circuit says nothing of it (ohms of an unplugged unit, shares of what a label
 * says).
 */
export function spreadOf(reading: PointReading, { quantity, unit, computed }: Target): Spread | undefined {
  const scale = 10 ** -(findUnit(unit)?.exponent ?? 0);
  const scaled = (spread: Spread): Spread => spread.map((value) => value * scale);
  if (computed !== undefined) return computed === 'trough' ? scaled(reading.low) : undefined;
  switch (quantity) {
    case 'voltage-dc':
      return scaled(reading.mean);
    case 'voltage-ac':
      return scaled(reading.ac);
    case 'voltage-pp':
      return scaled(peakToPeak(reading));
    case 'frequency':
      return scaled(reading.rate);
    default:
      return undefined;
  }
}

/** Shares of a target's bands over a spread, each figure judged with the doubt of the instrument one would take (JCGM 106:2012, clause 7). */
export function shareBands(spread: Spread, target: Target, classes: CircuitTables['instrumentClasses']): BandShares {
  const instrument = assumeInstrument(target, classes, spread[0]);
  const shares: Record<string, number> = {};
  for (let level = 0; level < levels; level += 1) {
    const value = figureAt(spread, (level + 0.5) / levels);
    const doubt = (instrument && uncertaintyAt(value, target, instrument)) ?? 0;
    for (const { band, probability } of computeBandProbabilities(value, doubt, target)) {
      shares[band] = (shares[band] ?? 0) + probability / levels;
    }
  }
  return shares;
}

/** A check, or a stage of a path, with the target it reads at a point. */
export interface ReadPoint {
  /** `check`, or `path/stage`. */
  readonly id: string;
  readonly target: string;
  readonly point: string;
}

/** Every check and stage of a tree that reads a target at a named point. */
export function listReadPoints({ nodes }: Pick<FaultTree, 'nodes'>): readonly ReadPoint[] {
  const at = (
    id: string,
    use: { readonly [Key in keyof TargetUse]: string | undefined } | undefined,
  ): readonly ReadPoint[] =>
    use?.target === undefined || use.point === undefined ? [] : [{ id, target: use.target, point: use.point }];
  return nodes.flatMap((node) => {
    if (node.kind === 'check') return at(node.id, node.target);
    if (node.kind !== 'path') return [];
    return node.stages.flatMap((stage) => at(`${node.id}/${stage.id}`, stage));
  });
}

/** The circuits of a tree of which a cause is a fault, with that fault's name. */
export function findFaults(
  { circuits: named }: Pick<FaultTree, 'circuits'>,
  cause: Pick<Cause, 'id'>,
  { circuits }: Pick<CircuitTables, 'circuits'>,
): readonly { readonly circuit: Circuit; readonly fault: string }[] {
  return named.flatMap((slug) => {
    const circuit = circuits.get(slug);
    const found = Object.entries(circuit?.faults ?? {}).find(
      ([fault, { also }]) => fault === cause.id || also.includes(cause.id),
    );
    return circuit === undefined || found === undefined ? [] : [{ circuit, fault: found[0] }];
  });
}

/** The spread of one check's target at its point, in one state of a circuit; undefined where the circuit does not give it. */
export function readState(
  circuit: Circuit,
  state: string,
  { target: slug, point }: Omit<ReadPoint, 'id'>,
  { targets }: Pick<CircuitTables, 'targets'>,
): { readonly target: Target; readonly spread: Spread } | undefined {
  const reading = circuit.results?.states[state]?.[point];
  const target = targets.get(slug);
  const spread = reading && target && spreadOf(reading, target);
  return target === undefined || spread === undefined ? undefined : { target, spread };
}

/**
 * What the circuits of a tree say of P(outcome | cause) (design: Evidence from circuits): cause, check, band. A check is left out where the
 * healthy circuit itself would not read within the target's limits: then circuit and target speak of different things.
 */
export function computeRows(tree: FaultTree, tables: CircuitTables): FaultTree['computed'] {
  const shares = ({ target, spread }: NonNullable<ReturnType<typeof readState>>): BandShares =>
    shareBands(spread, target, tables.instrumentClasses);
  const points = listReadPoints(tree);
  const told = new Map(
    tree.circuits.map((slug) => {
      const circuit = tables.circuits.get(slug);
      const isTold = (read: ReadPoint): boolean => {
        if (circuit?.evidence.includes(read.point) !== true) return false;
        const sound = readState(circuit, healthy, read, tables);
        return sound !== undefined && (shares(sound)['in'] ?? 0) >= 0.9;
      };
      return [slug, points.filter(isTold)];
    }),
  );
  const rows: Record<string, Record<string, BandShares>> = {};
  for (const cause of tree.nodes) {
    if (cause.kind !== 'cause' && cause.kind !== 'elsewhere') continue;
    const row: Record<string, BandShares> = {};
    for (const { circuit, fault } of findFaults(tree, cause, tables)) {
      for (const read of told.get(circuit.slug) ?? []) {
        const found = readState(circuit, fault, read, tables);
        if (found === undefined) continue;
        row[read.id] = Object.fromEntries(
          Object.entries(shares(found)).flatMap(([band, share]) =>
            share < 0.0005 ? [] : [[band, Number(share.toFixed(3))]],
          ),
        );
      }
    }
    if (Object.keys(row).length > 0) rows[cause.id] = row;
  }
  return rows;
}
