import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { nodeType, offsetOfLine, tidyLabel } from '#core/figure/label.ts';
import { fitSymbol, rimWidth } from '#core/figure/symbol.ts';
import { arbitraryHostileTitle } from '../../arbitraries/fault-tree.ts';

/** 0.42 em a letter, about the mean of the shipped font. */
const measure = (text: string, size: number): number => 0.42 * size * Array.from(text).length;
const kinds = ['check', 'path', 'cause', 'elsewhere', 'hand-over'] as const;

describe('fitSymbol', () => {
  it('makes a rhombus wider than high for a question of sixty letters, well below a square one', () => {
    const symbol = fitSymbol('check', 'Is the tone there at the top of the volume control of it?', measure);

    expect(symbol.width).toBeLessThan(215);
    expect(symbol.height).toBeLessThan(130);
    expect(symbol.width / symbol.height).toBeGreaterThan(1.6);
  });

  it('keeps the corners of every line inside the rhombus |x| / width + |y| / height <= 1 / 2', () => {
    fc.assert(
      fc.property(fc.oneof(arbitraryHostileTitle, fc.lorem({ maxCount: 12 })), (title) => {
        const symbol = fitSymbol('check', title, measure);
        for (const [place, line] of symbol.lines.entries()) {
          const across = measure(line, nodeType.size) / 2;
          const up = Math.abs(offsetOfLine(place, symbol.lines.length, nodeType.line)) + 0.5 * nodeType.size;
          expect(across / symbol.width + up / symbol.height).toBeLessThanOrEqual(0.5);
        }
      }),
    );
  });

  it('keeps the corners of every line inside the rounded inner outline of an end', () => {
    fc.assert(
      fc.property(fc.oneof(arbitraryHostileTitle, fc.lorem({ maxCount: 12 })), (title) => {
        const symbol = fitSymbol('cause', title, measure);
        const radius = symbol.height / 2 - rimWidth;
        const straight = symbol.width / 2 - rimWidth - radius;
        for (const [place, line] of symbol.lines.entries()) {
          const beyond = Math.max(0, measure(line, nodeType.size) / 2 - straight);
          const up = Math.abs(offsetOfLine(place, symbol.lines.length, nodeType.line)) + 0.5 * nodeType.size;
          expect(Math.hypot(beyond, up)).toBeLessThanOrEqual(radius);
        }
      }),
    );
  });

  it('loses no letter and gives whole even sizes, whatever the kind', () => {
    fc.assert(
      fc.property(fc.constantFrom(...kinds), arbitraryHostileTitle, (kind, title) => {
        const symbol = fitSymbol(kind, title, measure);

        expect(symbol.lines.join('').replaceAll(' ', '')).toBe(tidyLabel(title).replaceAll(' ', ''));
        expect([symbol.width % 2, symbol.height % 2]).toEqual([0, 0]);
      }),
    );
  });
});
