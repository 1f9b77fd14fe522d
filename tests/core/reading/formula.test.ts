import { computeFrom, type Figure, fieldsOf, formulas, sayFormula } from '#core/reading/formula.ts';
import { describeReading, judgeEntry, printResult, readEntry } from '#core/reading/judge-reading.ts';
import type { Judgement } from '#core/reading/judgement.ts';
import type { Entered, Target } from '#core/model/target.ts';
import { describe, expect, test } from 'vitest';
import { bandsOf, makeTarget } from '../../support/make-target.ts';
import { makeInstrument } from '../../support/reading/make-instrument.ts';

const volts = (name: string, change: Partial<Entered> = {}): Entered => ({
  name,
  quantity: 'voltage-dc',
  unit: 'V',
  isMarked: false,
  isOptional: false,
  ...change,
});
const half = makeTarget({
  quantity: 'ratio',
  unit: '%',
  nominal: 50,
  bands: bandsOf(40, 60),
  computed: 'percent',
  entered: [volts('output pin'), volts('supply pin')],
});
const meter = makeInstrument({ percent: 0.5, counts: 2, resolution: 0.01, to: 20 });

function judge(texts: readonly string[], target: Target = half): Judgement {
  const judged = judgeEntry(readEntry(texts, target), target, meter);
  if (judged.kind === 'problem') throw new Error(judged.problem.message);
  return judged;
}

describe('formulas', () => {
  // Each by hand. The ripple is the worked example of content/targets/reservoir-ripple.mdx: 1 A, 4700 µF and 50 Hz predict 2.13 Vpp; a
  // meter that shows 0.5 V rms has 1.8 Vpp before it. 2 ÷ 1.111 is 1.8.
  test.each([
    ['ratio', [0.045, 0.1], 0.45],
    ['percent', [4.5, 9], 0.5],
    ['difference', [0.7, 0.2], 0.5],
    ['sum', [9.1, 9.2], 18.3],
    ['trough', [9, 0.7], 7.74],
    ['departure', [9615.4, 9600], 0.0016042],
    ['peak', [12.7279, 9], 1],
    ['ripple', [2.12766, 0, 1, 4700e-6, 50], 1],
    ['ripple', [0, 0.5, 1, 4700e-6, 50], 0.846],
    ['leakage', [0.016, 100e-6, 16], 1],
    ['loss', [2.12, 100e-6, 16], 0.99903],
  ] as const)('%s of %j is %d', (name, entered, expected) => {
    expect(formulas[name].compute(entered)).toBeCloseTo(expected, 4);
  });

  test('are said with the names of what is entered', () => {
    expect(sayFormula('percent', half.entered)).toBe('100 × output pin ÷ supply pin');
    expect(sayFormula('trough', [volts('dc'), volts('ac')])).toBe('dc − 1.8 × ac');
  });

  // One meter, 1 % off and nothing else: in a sum both errors go the same way, 2 × 0.05 V; in a share they may or may not cancel.
  test('what one instrument has in all its readings adds up where it can', () => {
    const five: Figure = { value: 5, uncertainty: 0.05, shared: 0.05 };
    expect(computeFrom(formulas.sum, [five, five], 'V').uncertainty).toBeCloseTo(0.1, 10);
    expect(computeFrom(formulas.percent, [five, five], '%').uncertainty).toBeCloseTo(Math.SQRT2, 3);
  });
});

describe('a target computed from two readings', () => {
  test('is judged by the result and the doubt of both', () => {
    const judged = judge(['4.5', '9.0']);
    expect(judged.verdict).toBe('in');
    expect(judged.value).toBeCloseTo(50, 10);
    // By hand: a = 0.0425 and 0.065 V, half digits 0.05 V; u = √(a² + 0.05²)/√3 = 0.03789 and 0.04735 V; 50 % × √(0.00842² + 0.00526²).
    expect(judged.uncertainty).toBeCloseTo(0.4964, 3);
    expect(judge(['3.6', '9.0']).verdict).toBe('too-close');
    expect(judge(['2.0', '9.0']).verdict).toBe('low');
  });

  test('asks for the one that is missing, and for a figure in its own unit', () => {
    expect(readEntry(['4.5'], half)).toMatchObject({ kind: 'problem', at: 1, problem: { code: 'empty' } });
    expect(readEntry(['4.5', '9 kΩ'], half)).toMatchObject({ kind: 'problem', at: 1, problem: { code: 'wrong-unit' } });
    const nothing = judgeEntry(readEntry(['4.5', '0'], half), half, meter);
    expect(nothing).toMatchObject({ kind: 'problem', problem: { message: expect.stringContaining('nothing') } });
  });

  test('takes the result alone, as older links carry it', () => {
    expect(judge(['49pct']).verdict).toBe('in');
    expect(judge(['20 %']).verdict).toBe('low');
  });

  test('what may be left out counts as nothing, and what stands on a part has no doubt', () => {
    const lead = makeTarget({
      quantity: 'resistance',
      unit: 'Ω',
      bands: bandsOf(undefined, 0.5),
      computed: 'difference',
      entered: [
        volts('reading', { quantity: 'resistance', unit: 'Ω' }),
        volts('meter leads', { quantity: 'resistance', unit: 'Ω', isOptional: true }),
      ],
    });
    expect(judgeEntry(readEntry(['0.9', '0.3'], lead), lead, undefined)).toMatchObject({ verdict: 'high' });
    expect(judgeEntry(readEntry(['0.7', '0.3'], lead), lead, undefined)).toMatchObject({ verdict: 'in' });
    expect(judgeEntry(readEntry(['0.3', ''], lead), lead, undefined)).toMatchObject({ verdict: 'in' });
    const marked = { ...half, entered: [volts('reading'), volts('label', { isMarked: true })] };
    expect(judge(['4.5', '9'], marked).uncertainty).toBeCloseTo(50 * 0.00842, 2);
  });

  test('is said with its result, in the prefix of the figure', () => {
    const entry = readEntry(['4.5', '9.0'], half);
    expect(printResult(entry, half)).toBe('50\u00a0%');
    expect(describeReading(judge(['4.5', '9.0']), entry, half)).toBe(
      '50\u00a0%, give or take 0.97\u00a0%. That zone is 40 to 60\u00a0%.',
    );
    expect(fieldsOf(half).map(({ title }) => title)).toEqual(['output pin', 'supply pin']);
  });

  test('one prefix for a value, its doubt and its zone', () => {
    const drop = makeTarget({
      bands: bandsOf(undefined, 0.05),
    });
    expect(describeReading(judge(['12 mV'], drop), readEntry(['12 mV'], drop), drop)).toMatch(
      /^12\u00a0mV, give or take \d+\u00a0mV\. That zone is at most 50\u00a0mV\.$/u,
    );
  });
});
