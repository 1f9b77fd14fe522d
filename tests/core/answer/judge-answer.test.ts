import type { Answer } from '#core/answer/answer.ts';
import { leadsTo } from '#core/answer/lead.ts';
import { waysOf } from '#core/model/node.ts';
import { describe, expect, it } from 'vitest';
import { readContent } from '#build/library.ts';
import { type BenchTree, targetAt } from '#core/answer/bench-tree.ts';
import { decideWord, describeVerdict, findSafeAnswer, judgeAnswer, nameInstrument } from '#core/answer/judge-answer.ts';
import { makeMainsTargets } from '#core/model/limits.ts';
import { makeCheck, makeHandOver, makeTree } from '../../arbitraries/make-tree.ts';
import { answerTo as answer, psuBench as bench } from '../../support/psu-bench.ts';

const wayOn = (given: Answer, on: BenchTree): string | undefined =>
  leadsTo(given, waysOf(on.tree), (one) => decideWord(one, on));

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

// 5 V rail of 4.75 to 5.25 V; ±(0.5 % + 2 counts) at 4.74 V is u = 0.025 V (worked in tests/reference/meter-accuracy.test.ts).
describe('the verdict on a reading', () => {
  it.each([
    ['4.10V', 'Low.'],
    ['5.00V', 'In range.'],
    ['4.74V', 'Too close to call: low or in range.'],
    ['4.10A', 'Does not fit this target.'],
  ])('%s: %s', (value, verdict) => {
    expect(describeVerdict(answer('rail-bare', value, { instrument: 'multimeter-2000' }), bench)).toBe(verdict);
  });

  it('says where a person decided over a reading that says something else, and only there', () => {
    expect(describeVerdict(answer('rail-bare', 'low', { readings: ['5.00V'] }), bench)).toBe(
      'Decided by hand; the reading alone: in range.',
    );
    expect(describeVerdict(answer('rail-bare', 'low', { readings: ['4.10V'] }), bench)).toBeUndefined();
  });

  it('is none for a word, and for a check without limits', () => {
    expect(describeVerdict(answer('rail-bare', 'low'), bench)).toBeUndefined();
    expect(describeVerdict(answer('supply-kind', '4.1V'), bench)).toBeUndefined();
  });

  // A full-wave rectifier doubles the frequency of the mains.
  it('follows the mains of the bench: 120 Hz of ripple is high at 50 Hz and in range at 60 Hz', () => {
    const mains = makeMainsTargets(bench.references.targets.values(), 60);
    const limits = Object.fromEntries(Object.entries(mains).map(([slug, target]) => [slug, target.limits]));
    const ripple = answer('ripple-rate', '120Hz', { instrument: 'frequency-counter' });
    expect(describeVerdict(ripple, bench)).toBe('High.');
    expect(describeVerdict(ripple, { ...bench, limits })).toBe('In range.');
  });
});

describe('the instrument of an answer', () => {
  it('is the one named, else the one a reading is judged with, and none for a word', () => {
    expect(nameInstrument(answer('rail-bare', '4.1V', { instrument: 'own-0.5-2' }), bench)).toBe('own-0.5-2');
    expect(nameInstrument(answer('rail-bare', '4.1V'), bench)).toBe('multimeter-6000');
    expect(nameInstrument(answer('rail-bare', 'low', { readings: ['4.1V'] }), bench)).toBe('multimeter-6000');
    expect(nameInstrument(answer('rail-bare', 'low'), bench)).toBeUndefined();
    expect(nameInstrument(answer('rail-bare', '4.1A'), bench)).toBeUndefined();
  });
});

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
