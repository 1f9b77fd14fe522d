import type { Accuracy, InstrumentClass } from '#core/model/instrument-class.ts';
import { findUnit } from '#core/quantity/unit.ts';
import type * as v from 'valibot';
import { suggestName } from './nearest-name.ts';
import type { ReadContext } from './problem.ts';
import type { instrumentsSchema } from './schemas.ts';

type Front = v.InferOutput<typeof instrumentsSchema>;
type ClassFront = Front['classes'][string];
type Say = (field: string, message: string, help: string) => void;

/** Compiles the classes of instruments; one with a problem is left out. */
export function compileInstrumentClasses(
  { classes, families }: Front,
  { positions, report }: ReadContext,
): ReadonlyMap<string, InstrumentClass> {
  const compiled = new Map<string, InstrumentClass>();
  for (const [slug, front] of Object.entries(classes)) {
    let isSound = true;
    const say: Say = (field, message, help) => {
      isSound = false;
      report({ rule: 'instrument-class', position: positions.find(`front/classes/${slug}/${field}`), message, help });
    };
    checkClass(front, Object.keys(families), say);
    if (isSound) compiled.set(slug, makeClass(slug, front));
  }
  return compiled;
}

function checkClass(
  { family, quantities, thresholds, ...front }: ClassFront,
  families: readonly string[],
  say: Say,
): void {
  if (!families.includes(family)) {
    say(
      'family',
      `Unexpected family \`${family}\`, expected one from \`families\` above.${suggestName(family, families)}`,
      'Use a family that exists.',
    );
  }
  if (thresholds !== undefined && thresholds.low >= thresholds.high) {
    say('thresholds', 'Unexpected thresholds out of order, expected low below high.', 'Exchange them.');
  }
  for (const [quantity, { unit, ranges }] of Object.entries(quantities)) {
    if (findUnit(unit) === undefined) {
      say(
        `quantities/${quantity}/unit`,
        `Unexpected unit \`${unit}\`, expected one such as V, mV, Ω, nF or Hz.`,
        'Write the unit as the targets do.',
      );
    }
    for (const [index, range] of ranges.entries()) {
      const place = `quantities/${quantity}/ranges/${index}`;
      if (range.to <= (ranges[index - 1]?.to ?? 0)) {
        say(
          place,
          `Unexpected range to ${range.to} after a higher one, expected ranges from the lowest up.`,
          'Sort them.',
        );
      }
      if (range.resolution >= range.to) {
        say(
          place,
          `Unexpected resolution ${range.resolution}, expected it below the full scale ${range.to}.`,
          'Correct one of the two.',
        );
      }
      const perVolt = front['ohms-per-volt'];
      const expected = perVolt === undefined ? undefined : perVolt * range.to;
      const isVoltsDc = quantity === 'voltage-dc';
      if (isVoltsDc && expected !== undefined && range['input-resistance'] !== expected) {
        say(
          place,
          `Unexpected input resistance ${range['input-resistance'] ?? 'missing'}, expected ${expected}: full scale times ohms per volt.`,
          'Correct it.',
        );
      }
    }
  }
}

function makeClass(slug: string, front: ClassFront): InstrumentClass {
  const quantities = Object.entries(front.quantities).map(([quantity, { unit, ranges }]): [string, Accuracy] => [
    quantity,
    {
      unit,
      ranges: ranges.map(({ to, percent, counts, resolution, ...range }) => ({
        to,
        percent,
        counts,
        resolution,
        inputResistanceOhms: range['input-resistance'],
      })),
    },
  ]);
  return {
    slug,
    title: front.title,
    family: front.family,
    status: front.status,
    inputResistanceOhms: front['input-resistance'],
    inputCapacitanceFarads: front['input-capacitance'],
    ohmsPerVolt: front['ohms-per-volt'],
    thresholds: front.thresholds,
    quantities: Object.fromEntries(quantities),
  };
}
