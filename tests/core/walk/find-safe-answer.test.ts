import { describe, expect, it } from 'vitest';
import { readContent } from '#build/library.ts';
import { findSafeAnswer } from '#core/walk/find-safe-answer.ts';
import { makeCheck, makeHandOver, makeTree } from '../../arbitraries/make-tree.ts';

const tree = makeTree([
  makeCheck('earth', { in: 'listen', 'high none': 'no-earth' }),
  makeCheck('listen', { in: 'fine', high: 'too-hard' }),
  makeHandOver('no-earth', { because: 'licensed' }),
  makeHandOver('fine', { because: 'not-a-fault' }),
  makeHandOver('too-hard', { because: 'beyond-this-page' }),
]);

describe('the answer to take where a reading is too close to call', () => {
  it('is the one that hands over because of a danger, where the reading may be it', () => {
    expect(findSafeAnswer(tree, 'earth', ['in', 'high'])?.to).toBe('no-earth');
    expect(findSafeAnswer(tree, 'earth', ['low', 'in'])).toBeUndefined();
  });

  it('is none where the other end is no danger, and none at what is no check', () => {
    expect(findSafeAnswer(tree, 'listen', ['in', 'high'])).toBeUndefined();
    expect(findSafeAnswer(tree, 'fine', ['in', 'high'])).toBeUndefined();
    expect(findSafeAnswer(tree, 'toString', ['in', 'high'])).toBeUndefined();
  });

  it('is, at the earth of a humming unit, to hand it over', () => {
    const hum = readContent().library.trees.get('audio-hum');
    if (hum === undefined) throw new Error('There is no tree audio-hum.');
    expect(findSafeAnswer(hum, 'earth-path', ['in', 'high'])?.to).toBe('earth-missing');
  });
});
