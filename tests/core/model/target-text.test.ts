import { describe, expect, it } from 'vitest';
import { wordsOfTarget } from '#core/model/node.ts';
import { printBand, printBands, printHealthy, printLimit, printNumber, printWord } from '#core/model/target-text.ts';
import { exceedsTouchLimit } from '#core/model/touch-limit.ts';
import { makeTarget } from '../../support/make-target.ts';

const minusFive = makeTarget({
  compare: 'magnitude',
  sign: 'negative',
  words: ['reversed'],
});
const atMost = makeTarget({
  unit: 'mVpp',
  nominal: undefined,
  bands: [
    { name: 'in', from: undefined, to: 50 },
    { name: 'high', from: 50, to: undefined },
  ],
});
const atLeast = makeTarget({
  nominal: undefined,
  bands: [
    { name: 'low', from: undefined, to: 7 },
    { name: 'in', from: 7, to: undefined },
  ],
});

describe('printHealthy', () => {
  it('names both limits and the unit once', () => {
    expect(printHealthy(makeTarget())).toBe('4.75 to 5.25\u00a0V');
  });

  it('says at least and at most where there is one limit', () => {
    expect(printHealthy(atLeast)).toBe('at least 7\u00a0V');
    expect(printHealthy(atMost)).toBe('at most 50\u00a0mVpp');
  });

  it('gives both limits of a negative rail their sign', () => {
    expect(printHealthy(minusFive)).toBe('−4.75\u00a0V to −5.25\u00a0V');
  });
});

describe('printBand', () => {
  it('says below and above for the bands beside the healthy one', () => {
    expect(printBand('none', makeTarget())).toBe('below 0.5\u00a0V');
    expect(printBand('low', makeTarget())).toBe('0.5 to 4.75\u00a0V');
    expect(printBand('high', makeTarget())).toBe('above 5.25\u00a0V');
  });

  it('has nothing to say of a word that is no band', () => {
    expect(printBand('reversed', minusFive)).toBeUndefined();
    expect(printBand('__proto__', minusFive)).toBeUndefined();
  });

  it('lets a band without edges stand for any reading', () => {
    expect(printBand('in', makeTarget({ bands: [{ name: 'in', from: undefined, to: undefined }] }))).toBe(
      'any reading',
    );
  });
});

describe('printBands', () => {
  it('says bands that touch as one, in whatever order they are named, and bands apart one by one', () => {
    expect(printBands(['low', 'none'], makeTarget())).toBe('below 4.75\u00a0V');
    expect(printBands(['none', 'low', 'in'], makeTarget())).toBe('below 5.25\u00a0V');
    expect(printBands(['high', 'none', 'low'], makeTarget())).toBe('below 4.75\u00a0V, or above 5.25\u00a0V');
    expect(printBands(['in'], atMost)).toBe('at most 50\u00a0mVpp');
    expect(printBands(['in', 'high'], atMost)).toBe('any reading');
    expect(printBands(['reversed'], minusFive)).toBe('');
  });
});

describe('printLimit', () => {
  it('puts a no-break space before the unit and keeps the digits it was given', () => {
    expect(printLimit(4.7, makeTarget())).toBe('4.7\u00a0V');
    expect(printLimit(20, makeTarget({ unit: '%' }))).toBe('20\u00a0%');
  });

  it('signs a negative rail, but not its zero', () => {
    expect(printLimit(5, minusFive)).toBe('−5\u00a0V');
    expect(printLimit(0, minusFive)).toBe('0\u00a0V');
  });
});

describe('printNumber', () => {
  it('uses a real minus sign', () => {
    expect(printNumber(-0.65)).toBe('−0.65');
    expect(printNumber(0.1)).toBe('0.1');
  });
});

describe('printWord', () => {
  it.each([
    ['in', 'In range'],
    ['none', 'Nothing there'],
    ['reversed', 'Wrong sign'],
    ['both-bad', 'Both are bad now'],
    ['still-silent', 'Still silent'],
    ['constructor', 'Constructor'],
  ])('calls %s "%s"', (word, text) => {
    expect(printWord(word)).toBe(text);
  });
});

describe('wordsOfTarget', () => {
  it('lists the bands from the bottom up, then the words that are no number', () => {
    expect(wordsOfTarget(minusFive)).toEqual(['none', 'low', 'in', 'high', 'reversed']);
  });
});

describe('exceedsTouchLimit', () => {
  // 60 V dc and 30 V ac rms: IEC 61010-1, from memory; 42.4 V peak: IEC 60335-1 clause 8.1.4.
  const healthy = (quantity: string, unit: string, to: number): boolean =>
    exceedsTouchLimit(makeTarget({ quantity, unit, nominal: undefined, bands: [{ name: 'in', from: 0, to }] }));

  it.each([
    ['60 V dc', 'voltage-dc', 'V', 60, 60.1],
    ['30 V rms', 'voltage-ac', 'V rms', 30, 30.1],
    ['42.4 V peak, which is 84.8 V from peak to peak', 'voltage-pp', 'Vpp', 84.8, 84.9],
    ['60 V dc, written in millivolts', 'voltage-dc', 'mV', 60_000, 60_100],
    ['60 V dc, written in kilovolts', 'voltage-dc', 'kV', 0.06, 0.0601],
  ])('begins above %s', (_what, quantity, unit, below, above) => {
    expect(healthy(quantity, unit, below)).toBe(false);
    expect(healthy(quantity, unit, above)).toBe(true);
  });

  it('knows the negative rail by its size', () => {
    expect(exceedsTouchLimit(makeTarget({ bands: [{ name: 'in', from: -80, to: -70 }], nominal: -75 }))).toBe(true);
  });

  it('is no matter of ohms', () => {
    expect(healthy('resistance', 'Ω', 1000)).toBe(false);
  });
});
