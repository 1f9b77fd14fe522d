import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { comparePins, type SymbolPin } from '#build/compare-pins.ts';
import { readContent } from '#build/library.ts';
import { partPackages } from '#core/model/part.ts';

// Source: the open schematic symbol set of the Debian package kicad-symbols 6.0.10 (CC BY-SA 4.0), read by
// `npm run pins -- DIR --write tests/reference/pins.tsv`. pin-names.tsv says which of its names mean which of ours; each pair was
// read by eye. Digits are written # there and must be the same numbers where a name has them.
const readTable = (name: string): string[][] =>
  readFileSync(new URL(name, import.meta.url), 'utf8')
    .trim()
    .split('\n')
    .slice(1)
    .map((line) => line.split('\t'));
const symbols = Map.groupBy(readTable('pins.tsv'), ([part]) => part ?? '');
const meanings = new Set(readTable('pin-names.tsv').map(([symbol, ours]) => `${symbol}\t${ours}`));
const parts = [...readContent().library.parts.values()];
const drawn = parts.filter(({ symbol }) => symbol !== undefined);
const withoutDigits = (name: string): string => name.replace(/\d+/g, '#');

function symbolOf(slug: string): ReadonlyMap<string, SymbolPin> {
  return new Map((symbols.get(slug) ?? []).map(([, pin = '', name = '', type = '']) => [pin, { name, type }]));
}

describe('pins, against the symbol set', () => {
  test('all parts that it holds are compared', () => {
    expect(drawn.length).toBe(symbols.size);
    expect(drawn.length).toBeGreaterThanOrEqual(116);
  });

  test.each(drawn.map((part) => [part.slug, part] as const))('%s has the same pins', (slug, part) => {
    expect(comparePins(part, symbolOf(slug))).toEqual([]);
    const strange = part.pins.flatMap(({ number, name, status }) => {
      const other = symbolOf(slug).get(number)?.name ?? '';
      if (status !== undefined || name === other) return [];
      const pair = `${withoutDigits(other)}\t${withoutDigits(name)}`;
      return withoutDigits(other) === withoutDigits(name) || !meanings.has(pair)
        ? [`${number}: ${other}, ${name}`]
        : [];
    });
    expect(strange).toEqual([]);
  });
});

// Memory of the trade: ground and supply of logic at opposite corners, but for these.
test('supply and ground of chips in two rows lie where the package has them, or the part is known to differ', () => {
  const differing = drawn
    .filter(({ family, package: body }) => ['gate', 'selector', 'buffer'].includes(family) && body.startsWith('dip'))
    .filter(({ pins, package: body }) => {
      const { pins: count = 0 } = partPackages[body];
      return pins[count - 1]?.kind !== 'power' || pins[count / 2 - 1]?.kind !== 'ground';
    });
  expect(differing.map(({ slug }) => slug)).toEqual(['4049', '4050']);
});
