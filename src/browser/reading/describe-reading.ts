import type { InstrumentClass } from '#core/model/instrument-class.ts';
import type { Target } from '#core/model/target.ts';
import { printBand, printNumber } from '#core/model/target-text.ts';
import { printReading, type Reading } from '#core/quantity/reading.ts';
import { judgeInstrument } from '#core/reading/advice.ts';
import type { Judgement } from '#core/reading/judgement.ts';

/** Two-sided 95 % of the normal distribution. */
const coverage = 1.96;

/** What was read, how far it may be off and the zone's limits: `4.1 V, give or take 0.05 V. Low: 0.5 to 4.75 V.` */
export function describeReading(judgement: Judgement, reading: Reading, target: Target): string {
  const figure = printReading(reading);
  const doubt = Number((coverage * judgement.uncertainty).toPrecision(2));
  const around = doubt > 0 ? `, give or take ${printNumber(doubt)}\u00a0${target.unit}` : '';
  const zone = printBand(judgement.verdict, target);
  return `${figure}${around}.${zone === undefined ? '' : ` That zone is ${zone}.`}`;
}

/** What is said before anything is typed: whether the instrument can judge this target at all, and what a percentage is of. */
export function describeField(target: Target, instrument: InstrumentClass | undefined): string {
  const share = target.relativeTo === undefined ? '' : `In ${target.unit} of ${target.relativeTo}. `;
  const suitability = instrument === undefined ? '' : judgeInstrument(target, instrument).text;
  return `${share}${suitability === '' ? 'Type what the display shows, every digit of it.' : suitability}`;
}
