import { describe, expect, it } from 'vitest';
import { contrastOf } from '#core/model/site.ts';

describe('the contrast of two colours', () => {
  // WCAG 2.2: black on white is 21, a colour on itself 1. The greys on white: the worked pair that guides to 1.4.3 give, from memory.
  it.each([
    ['#000000', '#ffffff', '21.00'],
    ['#a8330a', '#a8330a', '1.00'],
    ['#767676', '#ffffff', '4.54'],
    ['#777777', '#ffffff', '4.48'],
  ])('of %s and %s is %s, whichever lies above', (one, other, ratio) => {
    expect(contrastOf(one, other).toFixed(2)).toBe(ratio);
    expect(contrastOf(other, one).toFixed(2)).toBe(ratio);
  });
});
