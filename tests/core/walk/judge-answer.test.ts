import { describe, expect, it } from 'vitest';
import { judgeAnswer, targetAt, wayOn } from '#core/walk/judge-answer.ts';
import { answerTo as answer, psuBench as bench } from '../../support/psu-bench.ts';

// 5 V rail of 4.75 to 5.25 V; ±(0.5 % + 2 counts) at 4.72 V is u = 0.025 V (worked in tests/reference/meter-accuracy.test.ts).
describe('what an answer comes to', () => {
  it('a word stands as it is, and leads where the tree says', () => {
    expect(judgeAnswer(answer('rail-bare', 'low'), bench)).toMatchObject({ kind: 'word', word: 'low' });
    expect(wayOn(answer('rail-bare', 'low'), bench)).toBe('regulator-out');
  });

  it('a reading is judged and leads where its band does', () => {
    expect(judgeAnswer(answer('rail-bare', '4.10V'), bench)).toMatchObject({ kind: 'word', word: 'low' });
    expect(wayOn(answer('rail-bare', '4.10V'), bench)).toBe('regulator-out');
  });

  it('a reading too close to call is kept and leads nowhere', () => {
    expect(judgeAnswer(answer('rail-bare', '4.74V', { instrument: 'multimeter-2000' }), bench).kind).toBe('undecided');
    expect(wayOn(answer('rail-bare', '4.74V'), bench)).toBeUndefined();
  });

  it('a finer instrument decides the same figure', () => {
    expect(judgeAnswer(answer('rail-bare', '4.735V', { instrument: 'multimeter-2000' }), bench).kind).toBe('undecided');
    expect(judgeAnswer(answer('rail-bare', '4.735V', { instrument: 'own-0.05-3' }), bench)).toMatchObject({
      kind: 'word',
      word: 'low',
    });
  });

  it('the limits of the board count where it has its own', () => {
    const limits = { [slugAt('rail-bare')]: { low: 3.5, nominal: 4, high: 4.5 } };

    expect(judgeAnswer(answer('rail-bare', '4.10V'), { ...bench, limits })).toMatchObject({ kind: 'word', word: 'in' });
  });

  it('a person’s word stands over the reading behind it', () => {
    expect(judgeAnswer(answer('rail-bare', 'low', { readings: ['4.74V'] }), bench)).toMatchObject({
      kind: 'word',
      word: 'low',
      judgement: { kind: 'judgement' },
    });
  });

  it('how often it shows counts as sometimes', () => {
    expect(judgeAnswer(answer('rail-bare', '3-of-8'), bench)).toMatchObject({ kind: 'word', word: '3-of-8' });
  });

  it.each([
    ['a figure where nothing is measured', 'supply-kind', '4.7V'],
    ['a reading in another unit', 'rail-bare', '47ohm'],
    ['a number beyond all numbers', 'rail-bare', '1e999V'],
    ['no number at all', 'rail-bare', 'NaN'],
    ['a node of another tree', 'nowhere', '4.7V'],
  ])('%s says nothing and hurts nothing', (_name, node, value) => {
    const judged = judgeAnswer(answer(node, value), bench);

    expect(judged.kind).toBe('nothing');
    expect(judged.kind === 'nothing' && judged.text.length > 0).toBe(true);
    expect(wayOn(answer(node, value), bench)).toBeUndefined();
  });
});

function slugAt(node: string): string {
  return targetAt(bench, node)?.slug ?? '';
}
