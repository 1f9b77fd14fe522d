import { describe, expect, it } from 'vitest';
import { editDistance, nearestName, suggestName } from '#compiler/nearest-name.ts';

describe('edit distance', () => {
  // The pairs that Levenshtein's distance is commonly shown with.
  it.each([
    ['kitten', 'sitting', 3],
    ['saturday', 'sunday', 3],
    ['', 'abc', 3],
    ['flaw', 'lawn', 2],
    ['same', 'same', 0],
  ])('from %s to %s is %i, both ways', (one, other, distance) => {
    expect(editDistance(one, other)).toBe(distance);
    expect(editDistance(other, one)).toBe(distance);
  });
});

describe('the nearest name', () => {
  const names = ['oscilloscope', 'multimeter', 'led-forward', 'rail-5v', 'in'];

  it.each([
    ['multimetre', 'multimeter'],
    ['rail-5', 'rail-5v'],
    ['scope', 'oscilloscope'],
    ['led-forward-voltage', 'led-forward'],
  ])('to %s is %s', (word, name) => {
    expect(nearestName(word, names)).toBe(name);
  });

  it.each(['bench', 'x', 'completely-another'])('to %s is none', (word) => {
    expect(nearestName(word, ['multimeter', 'oscilloscope'])).toBeUndefined();
    expect(suggestName(word, ['multimeter', 'oscilloscope'])).toBe('');
  });
});
