import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { countSlips, makeCorrector } from '#core/search/correct-words.ts';

const corrector = makeCorrector([
  'amplifier',
  'fuse',
  'intermittent',
  'keyboard',
  'parity',
  'picture',
  'rectifier',
  'screen',
  'speaker',
  'transformer',
  'volt',
  'voltag',
]);

describe('misspelt words', () => {
  it.each([
    ['fuze', 'fuse'],
    ['pictrue', 'picture'],
    ['keybaord', 'keyboard'],
    ['keybord', 'keyboard'],
    ['rectifer', 'rectifier'],
    ['intermittant', 'intermittent'],
    ['transfromer', 'transformer'],
    ['ampilfier', 'amplifier'],
    ['speeker', 'speaker'],
  ])('%s is taken for %s', (typed, meant) => {
    expect(corrector(typed)?.stem).toBe(meant);
  });

  it('words of their own are left alone', () => {
    for (const word of ['parrot', 'garden', 'pot', 'house', 'scream', 'vault', 'peculiar'])
      expect(corrector(word)).toBeUndefined();
  });

  it('a nearer word is surer', () => {
    expect(corrector('pictur')?.surety).toBeGreaterThan(corrector('rectfyer')?.surety ?? 0);
  });
});

describe('slips between two words', () => {
  it('count letters left out, put in, changed and swapped (Damerau 1964)', () => {
    expect(countSlips('fuse', 'fuse')).toBe(0);
    expect(countSlips('fuse', 'fuze')).toBe(1);
    expect(countSlips('fuse', 'fsue')).toBe(1);
    expect(countSlips('fuse', 'fus')).toBe(1);
    expect(countSlips('fuse', 'ffuse')).toBe(1);
    expect(countSlips('', 'fuse')).toBe(4);
    // The optimal string alignment of the literature's example is 3; unrestricted it would be 2.
    expect(countSlips('ca', 'abc')).toBe(3);
  });

  it('are the same both ways, nought only for equal words, and at most the longer word', () => {
    fc.assert(
      fc.property(fc.string({ maxLength: 12 }), fc.string({ maxLength: 12 }), (a, b) => {
        const slips = countSlips(a, b);
        expect(slips).toBe(countSlips(b, a));
        expect(slips === 0).toBe(a === b);
        expect(slips).toBeLessThanOrEqual(Math.max(a.length, b.length));
      }),
    );
  });
});
