import { compileContent } from '#compiler/compile-content.ts';
import { loadContent } from '#compiler/load.ts';
import { convertUnit } from '#core/quantity/reading.ts';
import { findUnit } from '#core/quantity/unit.ts';
import { describe, expect, test } from 'vitest';

/** Trees have no say here. */
const files = loadContent(process.cwd()).filter(({ file: name }) => !name.startsWith('content/trees/'));
const file = 'content/instruments.yaml';
const { library } = compileContent(files);

function problemsAfter(from: string | RegExp, to: string): readonly string[] {
  const changed = files.map((content) =>
    content.file === file ? { file, text: content.text.replace(from, to) } : content,
  );
  expect(changed).not.toEqual(files);
  // The other tables have no say in it.
  return compileContent(changed.filter((content) => content.file === file))
    .problems.filter((problem) => problem.file === file)
    .map(({ rule, message }) => `${rule}: ${message}`);
}

describe('classes of instruments', () => {
  test('all stand in the library, each in a family that exists', () => {
    const slugs = [
      'multimeter-2000',
      'multimeter-6000',
      'analogue-20k',
      'oscilloscope-x1',
      'oscilloscope-x10',
      'logic-probe',
      'thermometer',
    ];
    for (const slug of slugs) expect(library.instrumentClasses.get(slug)?.slug).toBe(slug);
    for (const { family } of library.instrumentClasses.values()) expect(library.instruments.has(family)).toBe(true);
  });

  test('measure every quantity in a unit that converts to the unit of each target of that quantity', () => {
    for (const instrument of library.instrumentClasses.values()) {
      for (const target of library.targets.values()) {
        const accuracy = instrument.quantities[target.quantity];
        if (accuracy !== undefined)
          expect(convertUnit(1, accuracy.unit, target.unit), `${instrument.slug} ${target.slug}`).toBeGreaterThan(0);
      }
    }
  });

  test('every target’s unit is one that readings know', () => {
    for (const target of library.targets.values()) expect(findUnit(target.unit), target.slug).toBeDefined();
  });

  test.each<[string, string, RegExp]>([
    ['family: thermometer', 'family: thermometre', /Unexpected family `thermometre`.*`thermometer`/],
    ['unit: °C', 'unit: Kelvins', /Unexpected unit `Kelvins`/],
    [
      '- { to: 300, percent: 1, counts: 20, resolution: 0.1 }',
      '- { to: 300, percent: 1, counts: 20, resolution: 400 }',
      /Unexpected resolution 400/,
    ],
    [
      '- { to: 10, percent: 5, counts: 2, resolution: 0.1 }',
      '- { to: 0.5, percent: 5, counts: 2, resolution: 0.1 }',
      /Unexpected range to 0.5 after a higher one/,
    ],
    ['low: 0.8, high: 2.0', 'low: 2.8, high: 2.0', /Unexpected thresholds out of order/],
    ['ohms-per-volt: 20000', 'ohms-per-volt: 30000', /Unexpected input resistance 10000, expected 15000/],
    ['percent: 0.5, counts: 2', 'percent: many, counts: 2', /field-value/],
  ])('%s turned into %s is reported', (from, to, message) => {
    expect(problemsAfter(from, to).join('\n')).toMatch(message);
  });
});
