import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { tidyLabel, wrapLabel } from '#core/figure/label.ts';
import { arbitraryHostileTitle } from '../../arbitraries/fault-tree.ts';

/** Ten pixels a letter: widths can be counted, and the pixel that balancing leaves undone does not show. */
const letter = 10;
const measure = (text: string): number => letter * Array.from(text).length;

describe('wrapLabel', () => {
  it.each([
    ['a short label', 20, ['a short label']],
    ['Is the tone at the pin?', 20, ['Is the tone', 'at the pin?']],
    ['read/write heads', 10, ['read/write', 'heads']],
    ['read-only chips', 9, ['read-only', 'chips']],
    ['on/off switch', 8, ['on/off', 'switch']],
    ['on/offboard', 8, ['on/', 'offboard']],
    ['track-cracked', 8, ['track-', 'cracked']],
    ['a-b', 20, ['a-b']],
    ['', 20, ['']],
    ['   ', 20, ['']],
  ])('breaks %j at %i letters into %j', (label, limit, lines) => {
    expect(wrapLabel(label, limit * letter, measure)).toEqual(lines);
  });

  it('cuts a word that no line holds', () => {
    expect(wrapLabel('x'.repeat(25), 10 * letter, measure).every((line) => line.length <= 10)).toBe(true);
  });

  it('keeps letters, accents and joined emoji whole where it cuts', () => {
    const family = '👩‍🔧';
    const lines = wrapLabel(family.repeat(6), 6 * letter, measure);

    expect(lines.join('')).toBe(family.repeat(6));
    expect(lines.every((line) => line.length % family.length === 0)).toBe(true);
  });

  it('keeps every letter in order and every line within the limit', () => {
    fc.assert(
      fc.property(arbitraryHostileTitle, fc.integer({ min: 12, max: 40 }), (label, limit) => {
        const lines = wrapLabel(label, limit * letter, measure);
        const graphemes = new Intl.Segmenter('en', { granularity: 'grapheme' });

        expect(lines.join('').replaceAll(' ', '')).toBe(tidyLabel(label).replaceAll(' ', ''));
        for (const line of lines) {
          const isOneGrapheme = [...graphemes.segment(line)].length === 1;
          expect(isOneGrapheme || measure(line) <= limit * letter).toBe(true);
        }
      }),
    );
  });

  it('never takes more lines for the balance than filling from the top would', () => {
    expect(wrapLabel('one two three four five six seven eight', 12 * letter, measure)).toHaveLength(4);
  });
});

describe('tidyLabel', () => {
  it('turns control characters and runs of space into one space and mends half characters', () => {
    expect(tidyLabel(' a\u0000\n\tb \ud800c ')).toBe('a b \ufffdc');
  });
});
