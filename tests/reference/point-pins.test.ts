import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { loadLibrary } from '#build/library.ts';
import { findPins } from '#core/model/part.ts';

// Which pin a probe goes to. Expected numbers: point-pins.tsv. Source `symbols`: the open schematic symbol set of the Debian package
// kicad-symbols 6.0.10 (pins.tsv holds the same part), looked up by eye by its own name of the pin, which stands in the last column.
// Source `memory`: makers’ sheets as remembered, not read; a wrong number there is as wrong as ours. Source `practice`: an arrangement,
// drawn with letters and signs: which of them the lead goes to was decided by hand (the plus leg of a capacitor, the node of a reset).
const rows = readFileSync(new URL('point-pins.tsv', import.meta.url), 'utf8')
  .trim()
  .split('\n')
  .slice(1)
  .map((line) => line.split('\t'));
const symbolNames = new Map(
  readFileSync(new URL('pins.tsv', import.meta.url), 'utf8')
    .trim()
    .split('\n')
    .slice(1)
    .map((line) => line.split('\t'))
    .map(([part, pin, name]) => [`${part} ${pin}`, name] as const),
);
const { points, parts } = loadLibrary();

describe('the pin a probe goes to', () => {
  test.each(rows)('%s on a %s: %s, ground %s', (point, slug, read, ground, source, names) => {
    const pins = points.get(point ?? '')?.pins;
    const part = parts.get(slug ?? '');
    if (pins === undefined || part === undefined) throw new Error(`No ${point} or ${slug}`);
    const found = findPins(part, pins);

    expect(found.read.map(({ number }) => number).join(' ')).toBe(read);
    expect(found.ground?.number ?? '').toBe(ground);
    if (source === 'symbols')
      expect(
        read
          ?.split(' ')
          .map((pin) => symbolNames.get(`${slug} ${pin}`))
          .join(' '),
      ).toBe(names);
  });

  test('each test point that lies on a part is among them', () => {
    const known = new Set(rows.map(([point]) => point));
    const missing = [...points.values()].filter(({ slug, pins }) => pins !== undefined && !known.has(slug));

    expect(missing.map(({ slug }) => slug)).toEqual([]);
  });
});
