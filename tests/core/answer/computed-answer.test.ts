import { loadLibrary } from '#build/library.ts';
import { makeWalkData, openWalkData, type BenchTree } from '#core/answer/bench-tree.ts';
import { readAnswerValue, printAnswerValue, type Answer } from '#core/answer/answer.ts';
import { areNeighbours, decideWord, describeVerdict, nameInstrument, sayJudged } from '#core/answer/judge-answer.ts';
import { sayAnswer } from '#core/answer/say.ts';
import { sayEventAnswer } from '#core/log/describe-event.ts';
import { describe, expect, test } from 'vitest';

const library = loadLibrary();
const tree = library.trees.get('audio-silent');
if (tree === undefined) throw new Error('The tree is gone.');
const walk = openWalkData(makeWalkData(tree, library), [...library.instrumentClasses.values()]);
const bench: BenchTree = { ...walk, limits: {} };

function answer(text: string): Answer {
  return { tree: undefined, node: 'half-supply', stage: undefined, ...(readAnswerValue(text) ?? { value: text }) };
}

// content/targets/half-supply.mdx: 40 to 60 % of the supply. By hand: 4.41 V of 9.00 V are 49 %.
describe('an answer of two readings', () => {
  test('is carried by a link as they were typed, and comes back', () => {
    expect(printAnswerValue(answer('4.41V,9.00V'))).toBe('4.41V,9.00V');
    expect(printAnswerValue(answer('low,3.0V,9.00V'))).toBe('low,3.0V,9.00V');
  });

  test('is judged by the result, and said with it and with both', () => {
    expect(decideWord(answer('4.41V,9.00V'), bench)).toBe('in');
    expect(sayAnswer(answer('4.41V,9.00V'), bench)).toBe('49\u00a0% (4.41\u00a0V, 9.00\u00a0V)');
    expect(sayJudged(answer('4.41V,9.00V'), bench)).toBe('49\u00a0% (4.41\u00a0V, 9.00\u00a0V): in range');
    expect(describeVerdict(answer('1.0V,9.00V'), bench)).toBe('Low.');
    expect(nameInstrument(answer('4.41V,9.00V'), bench)).toBe('multimeter-6000');
    expect(areNeighbours(answer('4.41V,9.00V'), bench)).toBe(false);
  });

  test('an older link with the share alone still means the same', () => {
    expect(decideWord(answer('49pct'), bench)).toBe('in');
    expect(decideWord(answer('20pct'), bench)).toBe('low');
    expect(sayAnswer(answer('49pct'), bench)).toBe('49\u00a0%');
  });

  test('in the log it stands as its page said it', () => {
    const said = {
      tree: 'audio-silent',
      node: 'half-supply',
      stage: undefined,
      value: '4.41V,9.00V',
      said: '49 % (4.41 V, 9.00 V)',
    };
    expect(sayEventAnswer(said)).toBe('49 % (4.41 V, 9.00 V)');
  });
});
