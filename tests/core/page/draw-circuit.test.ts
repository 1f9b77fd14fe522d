import { describe, expect, it } from 'vitest';
import { gzipSync } from 'node:zlib';
import { loadLibrary } from '#build/library.ts';
import { pinsOf, roomOf, symbolOf, wordsOf } from '#core/circuit/drawing.ts';
import { partSymbols, step } from '#core/circuit/symbols.ts';
import type { DrawnElement } from '#core/model/circuit.ts';
import { drawCircuit } from '#core/page/draw-circuit.ts';
import { printHtml } from '#core/page/markup.ts';

const circuits = [...loadLibrary().circuits.values()];

function place(over: Partial<DrawnElement>): DrawnElement {
  return {
    elements: ['D1'],
    symbol: 'diode',
    at: [10, 10],
    direction: 'right',
    isMirrored: false,
    nodes: ['a', 'k'],
    words: undefined,
    value: undefined,
    side: undefined,
    ...over,
  };
}

describe('the drawing of a circuit as SVG', () => {
  it.each(circuits.map(({ slug, ...circuit }) => [slug, circuit] as const))(
    '%s has at most 3 kB gzip',
    (_, circuit) => {
      const printed = printHtml(
        drawCircuit(
          circuit.drawing,
          (point) => point,
          (point) => `#${point}`,
        ),
      );
      expect(printed).toContain('<path');
      expect(gzipSync(printed).length).toBeLessThanOrEqual(3000);
    },
  );

  it('prints words as words, whatever they hold', () => {
    const part = place({ words: '<script>x</script> & "y"' });
    const drawn = printHtml(
      drawCircuit(
        { parts: [part], wires: [], grounds: [], flags: [] },
        () => '',
        () => '',
      ),
    );
    expect(drawn).toContain('&lt;script&gt;x&lt;/script&gt; &amp; "y"</text>');
    expect(drawn).not.toContain('<script');
  });

  // By hand: a diode is four steps long; a quarter turn takes its cathode from the right to below, left, above.
  it.each([
    ['right', [14, 10]],
    ['down', [10, 14]],
    ['left', [6, 10]],
    ['up', [10, 6]],
  ] as const)('lays the cathode of a diode %s of its anode', (direction, cathode) => {
    expect(pinsOf(place({ direction })).map(({ at }) => at)).toEqual([[10, 10], cathode]);
  });

  it('mirrors a transistor: its collector, above when it lies to the right, is below then', () => {
    const npn = { symbol: 'npn', nodes: ['c', 'b', 'e'] } as const;
    expect(pinsOf(place(npn))[0]?.at).toEqual([13, 8]);
    expect(pinsOf(place({ ...npn, isMirrored: true }))[0]?.at).toEqual([13, 12]);
  });

  it.each(Object.keys(partSymbols))('%s reaches from pin to pin: its lines begin or end at each of them', (name) => {
    const { pins, path, leads = [] } = symbolOf(name);
    const ends = endsOf(`${path}${leads.join('')}`);
    for (const [x, y] of pins) expect(ends, `${x},${y}`).toContain(`${x * step},${y * step}`);
  });

  it('puts the words of a part that stands to its right, of one that lies above and below it', () => {
    const standing = wordsOf(place({ direction: 'down', words: 'one' })).map(roomOf);
    expect(standing.every(({ left }) => left > 108)).toBe(true);
    const lying = wordsOf(place({ symbol: 'resistor', value: '1\u00a0kΩ' })).map(roomOf);
    expect(lying.map(({ top }) => top > 100)).toEqual([false, true]);
  });
});

/** Where the strokes of a path of moves, lines and arcs begin and end. */
function endsOf(path: string): ReadonlySet<string> {
  const found = new Set<string>();
  let [x, y] = [0, 0];
  for (const [, command = '', rest = ''] of path.matchAll(/([a-z])([^a-z]*)/gi)) {
    const numbers = [...rest.matchAll(/-?\d*\.?\d+/g)].map(([text]) => Number(text));
    const isOwn = command === command.toLowerCase();
    const [startX, startY] = isOwn ? [x, y] : [0, 0];
    switch (command.toUpperCase()) {
      case 'H':
        x = startX + (numbers[0] ?? 0);
        break;
      case 'V':
        y = startY + (numbers[0] ?? 0);
        break;
      case 'Z':
        break;
      default:
        x = startX + (numbers.at(-2) ?? 0);
        y = startY + (numbers.at(-1) ?? 0);
    }
    found.add(`${x},${y}`);
  }
  return found;
}
