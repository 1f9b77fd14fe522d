/** A fault with the outcome that it gives each check, in one order for all. */
export interface FaultSignature {
  readonly id: string;
  /** How often this fault comes, relative to the others; 1 for each gives the counts of faults instead. */
  readonly rate: number;
  readonly outcomes: readonly (string | number)[];
}

/** How far a set of checks detects and isolates faults, in the manner of IEEE 1522. Fractions are 0 to 1. */
export interface IsolationMetrics {
  /** Fraction of fault detection: rate of the faults that some check shows, over the rate of all; undefined without a healthy row. */
  readonly detectedFraction: number | undefined;
  /** Rate of the detected faults in groups of at most k, over the rate of the detected: k is the argument. 0 where none is detected. */
  readonly isolatedFraction: (mostInGroup: number) => number;
  /** Sum of rate × size of the group over the detected faults, divided by their rate: how many suspects are left on average. */
  readonly expectedGroupSize: number;
  /** Detected faults that no check separates, by id, in the order of their first fault. */
  readonly groups: readonly (readonly string[])[];
  /** Positions of the checks that come out the same for every fault and for the healthy unit. */
  readonly idleChecks: readonly number[];
}

/**
 * Measures detection and isolation. `healthy` is how the checks come out on a unit without a fault; without it every fault counts as
 * detected, as on a bench where the symptom has been seen. Formulas from memory of IEEE Std 1522-2004.
 * @example measureIsolation([{ id: 'a', rate: 1, outcomes: [1] }, { id: 'b', rate: 1, outcomes: [1] }]).expectedGroupSize // 2
 */
export function measureIsolation(
  faults: readonly FaultSignature[],
  healthy?: readonly (string | number)[],
): IsolationMetrics {
  const detected = healthy === undefined ? faults : faults.filter((fault) => !agrees(fault.outcomes, healthy));
  const groups: FaultSignature[][] = [];
  for (const fault of detected) {
    const group = groups.find(([first]) => first !== undefined && agrees(first.outcomes, fault.outcomes));
    if (group === undefined) groups.push([fault]);
    else group.push(fault);
  }
  const detectedRate = sumRates(detected);
  const share = (rate: number): number => (detectedRate > 0 ? rate / detectedRate : 0);
  const allRows = [...faults.map((fault) => fault.outcomes), ...(healthy === undefined ? [] : [healthy])];
  const checkCount = allRows[0]?.length ?? 0;
  const totalRate = sumRates(faults);
  return {
    detectedFraction: healthy === undefined || totalRate === 0 ? undefined : detectedRate / totalRate,
    isolatedFraction: (mostInGroup) =>
      share(groups.reduce((sum, group) => (group.length <= mostInGroup ? sum + sumRates(group) : sum), 0)),
    expectedGroupSize: share(groups.reduce((sum, group) => sum + sumRates(group) * group.length, 0)),
    groups: groups.map((group) => group.map((fault) => fault.id)),
    idleChecks: Array.from({ length: checkCount }, (_, check) => check).filter((check) =>
      allRows.every((row) => row[check] === allRows[0]?.[check]),
    ),
  };
}

function agrees(first: readonly (string | number)[], second: readonly (string | number)[]): boolean {
  return first.length === second.length && first.every((outcome, check) => outcome === second[check]);
}

function sumRates(faults: readonly FaultSignature[]): number {
  return faults.reduce((sum, fault) => sum + fault.rate, 0);
}
