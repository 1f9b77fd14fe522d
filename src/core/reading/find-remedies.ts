import type { InstrumentClass } from '../model/instrument-class.ts';
import type { Target } from '../model/target.ts';
import type { Reading } from '../quantity/reading.ts';
import { assessDoubt, type Doubt } from './assess-doubt.ts';
import { computeBandProbabilities } from './band-probabilities.ts';
import { measures } from './assume-instrument.ts';
import { type Remedy, verdictProbability } from './judgement.ts';

/** A reading that is too close to call, and what it was taken with. */
export interface CloseReading {
  readonly reading: Reading;
  readonly target: Target;
  readonly instrument: InstrumentClass | undefined;
  readonly doubt: Doubt;
  /** Best estimate in the target's unit. */
  readonly value: number;
}

/**
 * What would settle a reading that is too close to call, the cheapest first: all the digits or a better range, another instrument among
 * `others` (those the reader owns), another point. An instrument is named only where it would decide, should it show the same figure.
 */
export function findRemedies(close: CloseReading, others: readonly InstrumentClass[]): readonly Remedy[] {
  const { target, instrument, doubt, value, reading } = close;
  const decides = (accuracy: number, halfDigit: number): boolean =>
    computeBandProbabilities(value, Math.hypot(accuracy, halfDigit) / Math.sqrt(3), target).some(
      ({ probability }) => probability >= verdictProbability,
    );
  const remedies: Remedy[] = [];
  const finest = (doubt.resolution ?? 0) / 2;
  const isCoarse = doubt.resolution !== undefined && doubt.halfDigit > finest * 1.5;
  const settledByDigits = isCoarse && decides(doubt.accuracy, finest);
  if (settledByDigits || (isCoarse && doubt.halfDigit > doubt.accuracy)) {
    remedies.push({
      kind: 'better-range',
      text: 'Turn to the lowest range that shows it and type every digit of the display.',
      instruments: [],
    });
  } else if (doubt.resolution === undefined && doubt.halfDigit > 0 && decides(doubt.accuracy, doubt.halfDigit / 10)) {
    remedies.push({ kind: 'better-range', text: 'Read it with one more digit.', instruments: [] });
  }
  const deciding = others.filter((candidate) => {
    if (settledByDigits || candidate.slug === instrument?.slug) return false;
    if (!measures(candidate, target) || !isMeantFor(candidate, target, instrument)) return false;
    const its = assessDoubt(reading, target, candidate);
    return its !== undefined && !its.isBeyondRange && decides(its.accuracy, (its.resolution ?? 2 * its.halfDigit) / 2);
  });
  if (deciding.length > 0) {
    const titles = deciding.map(({ title }) => lowerFirst(title)).join(', or ');
    const slugs = deciding.map(({ slug }) => slug);
    remedies.push({
      kind: 'other-instrument',
      text: `Read it with another instrument: ${titles}.`,
      instruments: slugs,
    });
  }
  remedies.push({
    kind: 'other-point',
    text: 'Read another point of the same circuit, or an equal neighbour, and compare.',
    instruments: [],
  });
  return remedies;
}

function isMeantFor({ family }: InstrumentClass, { instruments }: Target, used: InstrumentClass | undefined): boolean {
  return instruments.includes(family) || family === used?.family;
}

function lowerFirst(text: string): string {
  return /^[A-Z]{2}/.test(text) ? text : `${text.charAt(0).toLowerCase()}${text.slice(1)}`;
}
