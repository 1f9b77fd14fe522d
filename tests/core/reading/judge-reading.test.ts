import type { InstrumentClass } from '#core/model/instrument-class.ts';
import type { Target } from '#core/model/target.ts';
import { applyLimits } from '#core/model/limits.ts';
import {
  assumeInstrument,
  chooseInstrument,
  listInstruments,
  makeOwnInstrument,
  parseAccuracy,
} from '#core/reading/instrument.ts';
import { judgeInstrument } from '#core/reading/advice.ts';
import { describeJudgement, judgeEntry, readEntry } from '#core/reading/judge-reading.ts';
import { type Judgement, verdictProbability } from '#core/reading/judgement.ts';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { makeTarget } from '../../support/make-target.ts';
import { makeInstrument } from '../../support/reading/make-instrument.ts';

const rail = makeTarget();
const coarse = makeInstrument(
  { percent: 0.5, counts: 2, resolution: 0.01, to: 20 },
  { slug: 'coarse', title: 'Coarse meter' },
);
const fine = makeInstrument(
  { percent: 0.05, counts: 3, resolution: 0.001, to: 20 },
  { slug: 'fine', title: 'Fine meter' },
);

function judge(
  text: string,
  target: Target = rail,
  instrument: InstrumentClass | undefined = coarse,
  others: readonly InstrumentClass[] = [],
): Judgement {
  const judged = judgeEntry(readEntry([text], target), target, instrument, others);
  if (judged.kind === 'problem') throw new Error(judged.problem.message);
  return judged;
}

// By hand from ±(0.5 % + 2 × 10 mV), half digit 5 mV, u = √(a² + 0.005²)/√3: at 4.70 V a = 0.0435, u = 0.0253; the low verdict needs
// 4.75 − 1.645 u = 4.708 V or less, the verdict in 4.792 V or more.
describe('a verdict needs 95 %', () => {
  test.each([
    ['4.70', 'low'],
    ['4.71', 'too-close'],
    ['4.72', 'too-close'],
    ['4.75', 'too-close'],
    ['4.79', 'too-close'],
    ['4.80', 'in'],
    ['5.00', 'in'],
    ['5.20', 'in'],
    ['5.21', 'too-close'],
    ['5.26', 'too-close'],
    ['5.30', 'high'],
    ['0.02', 'none'],
    ['3.10', 'low'],
  ])('%s V is %s', (text, verdict) => {
    expect(judge(text).verdict).toBe(verdict);
  });

  test('the verdict is a band with at least 0.95, or no band has so much', () => {
    fc.assert(
      fc.property(fc.integer({ min: -50, max: 700 }), (hundredths) => {
        const judged = judge((hundredths / 100).toFixed(2));
        if (!judged.isEvidence) return judged.verdict === 'too-close';
        const most = judged.probabilities.toSorted((a, b) => b.probability - a.probability)[0];
        return judged.verdict === 'too-close'
          ? (most?.probability ?? 1) < verdictProbability
          : most?.band === judged.verdict && most.probability >= verdictProbability;
      }),
    );
  });

  test('fewer digits never make a reading surer', () => {
    expect(judge('5').uncertainty).toBeGreaterThan(judge('5.0').uncertainty);
    expect(judge('5.0').uncertainty).toBeGreaterThan(judge('5.00').uncertainty);
    // Half of 1 V, rectangular, and the meter's 0.045 V: √(0.5² + 0.045²)/√3 = 0.2898 V.
    expect(judge('5').uncertainty).toBeCloseTo(0.2898, 4);
  });

  test('millivolts on a target in volts come out in volts', () => {
    expect(judge('5000 mV').value).toBe(5);
    expect(judge('5000 mV').unit).toBe('V');
  });
});

describe('too close to call says what would settle it', () => {
  test('all the digits first, where they alone would do', () => {
    const { verdict, settle } = judge('5', rail, coarse, [coarse, fine]);
    expect(verdict).toBe('too-close');
    expect(settle.map(({ kind }) => kind)).toEqual(['better-range', 'other-point']);
  });

  test('a better instrument among those the reader owns', () => {
    const { settle } = judge('4.78', rail, coarse, [coarse, fine]);
    expect(settle[0]).toMatchObject({ kind: 'other-instrument', instruments: ['fine'] });
    expect(judge('4.78', rail, coarse, [coarse]).settle.map(({ kind }) => kind)).toEqual(['other-point']);
  });

  test('no instrument where the reading stands on the limit', () => {
    expect(judge('4.75', rail, coarse, [coarse, fine]).settle.map(({ kind }) => kind)).toEqual(['other-point']);
  });

  test('both candidates are named in the sentence', () => {
    expect(describeJudgement(judge('4.78'))).toBe('Too close to call: in range or low.');
    expect(describeJudgement(judge('5.00'))).toBe('In range.');
  });
});

describe('readings that fool people', () => {
  const clock = makeTarget({
    bands: [
      { name: 'none', from: undefined, to: 0.8 },
      { name: 'low', from: 0.8, to: 2.4 },
      { name: 'in', from: 2.4, to: undefined },
    ],
    instruments: ['oscilloscope'],
    misreads: [{ instrument: 'multimeter', from: 1.2, to: 2.4, says: 'A running clock reads about half.' }],
  });

  test('a moving clock of 1.8 V on a meter is not called low', () => {
    const judged = judge('1.80', clock);
    expect(judged.verdict).toBe('too-close');
    expect(judged.isEvidence).toBe(false);
    expect(judged.notes[0]).toEqual({ kind: 'misread', text: 'A running clock reads about half.' });
  });

  test('the same figure on a scope is low', () => {
    const scope = makeInstrument({ percent: 3, counts: 2, resolution: 0.02, to: 8 }, { family: 'oscilloscope' });
    expect(judge('1.80', clock, scope).verdict).toBe('low');
  });

  test('a reading outside the trap is judged as it is', () => {
    expect(judge('3.40', clock).verdict).toBe('in');
    expect(judge('0.10', clock).verdict).toBe('none');
  });

  test('−5 V on a positive rail is swapped leads, not nothing', () => {
    const judged = judge('-5.00');
    expect(judged.verdict).toBe('too-close');
    expect(judged.notes[0]?.kind).toBe('negative');
    expect(judge('-0.01').verdict).toBe('none');
  });

  test('a figure that the instrument cannot show is doubted', () => {
    const judged = judge('5.00 k');
    expect(judged.verdict).toBe('too-close');
    expect(judged.notes[0]?.kind).toBe('beyond-range');
  });

  test('a x1 probe may have stopped the crystal, a x10 probe is believed', () => {
    const crystal = makeTarget({
      quantity: 'voltage-pp',
      unit: 'Vpp',
      bands: [
        { name: 'none', from: undefined, to: 0.1 },
        { name: 'low', from: 0.1, to: 1 },
        { name: 'in', from: 1, to: undefined },
      ],
      words: ['starts-when-probed'],
      instruments: ['oscilloscope'],
    });
    const probe = (farads: number): InstrumentClass =>
      makeInstrument(
        { percent: 3, counts: 2, resolution: 0.02, to: 8 },
        { quantity: 'voltage-pp', unit: 'Vpp', family: 'oscilloscope', inputCapacitanceFarads: farads },
      );
    expect(judge('0.02', crystal, probe(95e-12)).verdict).toBe('too-close');
    expect(judge('3.00', crystal, probe(95e-12)).verdict).toBe('in');
    expect(judge('0.02', crystal, probe(12e-12)).verdict).toBe('none');
  });
});

describe('signs, words and over range', () => {
  const negativeRail = makeTarget({ compare: 'magnitude', sign: 'negative', words: ['reversed'] });

  test('a wrong sign is reversed, and the page asks for a forgotten minus', () => {
    const judged = judge('5.00', negativeRail);
    expect(judged.verdict).toBe('reversed');
    expect(judged.notes[0]?.text).toContain('If only the minus was left out, type it');
    expect(judge('-5.00', negativeRail).verdict).toBe('in');
    expect(judge('0.10', negativeRail).verdict).toBe('none');
  });

  test('a word of the target is an answer', () => {
    const pulsing = makeTarget({ words: ['pulsing'] });
    expect(judge('pulsing', pulsing).verdict).toBe('pulsing');
    expect(judge('None', pulsing).verdict).toBe('none');
    expect(judge('none', pulsing).probabilities.reduce((sum, { probability }) => sum + probability, 0)).toBe(1);
    expect(judgeEntry(readEntry(['pulsing'], rail), rail, coarse).kind).toBe('problem');
  });

  const track = makeTarget({
    quantity: 'resistance',
    unit: 'Ω',
    bands: [
      { name: 'in', from: undefined, to: 1 },
      { name: 'high', from: 1, to: undefined },
    ],
  });
  const ohmmeter = makeInstrument(
    { percent: 1, counts: 2, resolution: 0.1, to: 600 },
    { quantity: 'resistance', unit: 'Ω' },
  );

  test('OL is above every limit for resistance', () => {
    expect(judge('OL', track, ohmmeter).verdict).toBe('high');
    expect(judge('open', track, ohmmeter).verdict).toBe('high');
    expect(judge('short', track, ohmmeter).verdict).toBe('in');
  });

  test('OL is above no limit that the meter cannot reach', () => {
    const insulation = {
      ...track,
      unit: 'kΩ',
      bands: [
        { name: 'low', from: undefined, to: 1 },
        { name: 'in', from: 1, to: undefined },
      ],
    };
    const judged = judge('OL', insulation, ohmmeter);
    expect(judged.verdict).toBe('too-close');
    expect(judged.isEvidence).toBe(false);
  });

  test('OL on volts is no reading', () => {
    expect(judgeEntry(readEntry(['OL'], rail), rail, coarse)).toMatchObject({
      kind: 'problem',
      problem: { code: 'over-range' },
    });
  });

  test('an instrument that does not measure the quantity gives a problem', () => {
    expect(judgeEntry(readEntry(['5.00'], rail), rail, ohmmeter)).toMatchObject({
      problem: { code: 'not-for-this-instrument' },
    });
  });

  test('without an instrument the digits alone count', () => {
    const judged = judgeEntry(readEntry(['4.76'], rail), rail, undefined);
    // Half of 10 mV over √3.
    expect(judged).toMatchObject({ kind: 'judgement', verdict: 'in' });
    expect(judged.kind === 'judgement' ? judged.uncertainty : 0).toBeCloseTo(0.002887, 6);
  });
});

describe('loading', () => {
  // By hand: 10 kΩ behind the point, 200 kΩ of pointer meter: × 1.05.
  test('a known source resistance is put right', () => {
    const idle = makeTarget({ sourceResistanceOhms: 10_000 });
    const pointer = makeInstrument(
      { percent: 0, counts: 3, resolution: 0.1, to: 10 },
      { inputResistanceOhms: 200_000 },
    );
    const judged = judge('4.60', idle, pointer);
    expect(judged.value).toBeCloseTo(4.83, 10);
    expect(judged.notes.map(({ kind }) => kind)).toContain('loading');
    expect(judged.uncertainty).toBeGreaterThan(0.3 / Math.sqrt(3));
  });

  test('a meter of low resistance warns where it reads low', () => {
    const pointer = makeInstrument(
      { percent: 0, counts: 3, resolution: 0.1, to: 10 },
      { inputResistanceOhms: 200_000 },
    );
    expect(
      judge('3.0', rail, pointer)
        .notes.map(({ text }) => text)
        .join(' '),
    ).toContain('200\u00a0kΩ');
  });
});

describe('what an instrument can do is known beforehand', () => {
  const own = (text: string): InstrumentClass => {
    const accuracy = parseAccuracy(text);
    if (accuracy === undefined) throw new Error(text);
    return makeOwnInstrument(accuracy, { quantity: 'voltage-dc', unit: 'V', instruments: ['multimeter'] });
  };

  // By hand: window 0.5 V; a = 0.26 V, u = 0.150 V, 3.29 u = 0.494 V; with 6 % + 1 a = 0.31, u = 0.179, 3.29 u = 0.589 V.
  test('±(5 % + 10 mV) on a window of 0.5 V can show faults only, ±(6 % + 10 mV) cannot judge it', () => {
    const meter = (percent: number): InstrumentClass =>
      makeInstrument({ percent, counts: 1, resolution: 0.01, to: 20 });
    expect(judgeInstrument(rail, meter(0.5)).kind).toBe('can');
    expect(judgeInstrument(rail, meter(5)).kind).toBe('only-faults');
    expect(judgeInstrument(rail, meter(6)).kind).toBe('cannot');
    expect(judgeInstrument(rail, meter(6)).text).toMatch(/too coarse/);
  });

  test('an instrument that can only show faults never says in', () => {
    const meter = makeInstrument({ percent: 5, counts: 1, resolution: 0.01, to: 20 });
    for (let hundredths = 470; hundredths <= 530; hundredths++) {
      expect(judge((hundredths / 100).toFixed(2), rail, meter).verdict).not.toBe('in');
    }
  });

  test('a limit on one side can always be judged', () => {
    const open = makeTarget({
      bands: [
        { name: 'low', from: undefined, to: 2.4 },
        { name: 'in', from: 2.4, to: undefined },
      ],
    });
    expect(judgeInstrument(open, own('20 % + 5')).kind).toBe('can');
  });

  const upTo = (high: number, change: Partial<Target> = {}): Target =>
    makeTarget({
      quantity: 'resistance',
      unit: 'Ω',
      nominal: 0,
      bands: [
        { name: 'in', from: undefined, to: high },
        { name: 'high', from: high, to: undefined },
      ],
      ...change,
    });

  // By hand: 2 counts of 0.1 Ω and half a digit: √(0.2² + 0.05²)/√3 = 0.119 Ω; the guard band of 95 % is 1.645 × 0.119 = 0.196 Ω.
  test('an upper limit on what cannot be below zero needs room for one guard band above nothing', () => {
    const ohmmeter = makeInstrument(
      { percent: 0.9, counts: 2, resolution: 0.1, to: 600 },
      { quantity: 'resistance', unit: 'Ω' },
    );
    expect(judgeInstrument(upTo(0.15), ohmmeter)).toMatchObject({ kind: 'cannot', windowWidth: 0.15 });
    expect(judgeInstrument(upTo(0.19), ohmmeter).kind).toBe('cannot');
    expect(judgeInstrument(upTo(0.2), ohmmeter).kind).toBe('can');
    expect(judge('0.0', upTo(0.15), ohmmeter).verdict).toBe('too-close');
    expect(judge('0.0', upTo(0.2), ohmmeter).verdict).toBe('in');
  });

  test('an upper limit alone on what has a sign is no such window', () => {
    const meter = makeInstrument({ percent: 0.5, counts: 2, resolution: 0.1, to: 20 });
    expect(judgeInstrument(upTo(0.15, { quantity: 'voltage-dc', unit: 'V' }), meter).kind).toBe('can');
  });

  test('an ESR meter is a choice only where the target names it, a share of two resistances too', () => {
    const esr = makeInstrument(
      { percent: 5, counts: 2, resolution: 0.01, to: 1 },
      { slug: 'esr', family: 'esr-meter', quantity: 'resistance', unit: 'Ω' },
    );
    const ohms = makeInstrument(
      { percent: 0.9, counts: 2, resolution: 0.1, to: 600 },
      { slug: 'ohms', quantity: 'resistance', unit: 'Ω' },
    );
    const classes = new Map([esr, ohms].map((one) => [one.slug, one]));
    const slugsFor = (target: Target): readonly string[] => listInstruments(target, classes).map(({ slug }) => slug);
    const part = { quantity: 'resistance', unit: 'Ω', isMarked: false, isOptional: false };
    const entered = [
      { ...part, name: 'this one' },
      { ...part, name: 'its sister' },
    ];
    const share = upTo(200, { quantity: 'ratio', unit: '%', computed: 'percent', entered });

    expect(slugsFor(upTo(0.5))).toEqual(['ohms']);
    expect(slugsFor(upTo(0.5, { instruments: ['esr-meter', 'multimeter'] }))).toEqual(['esr', 'ohms']);
    expect(slugsFor(share)).toEqual(['ohms']);
    expect(chooseInstrument('esr', upTo(0.5), classes)?.slug).toBe('ohms');
    expect(chooseInstrument('esr', share, classes)?.slug).toBe('ohms');
    expect(chooseInstrument('esr', { ...share, instruments: ['esr-meter'] }, classes)?.slug).toBe('esr');
  });

  test('an instrument without the range says so', () => {
    const ohmmeter = makeInstrument(
      { percent: 1, counts: 2, resolution: 0.1, to: 600 },
      { quantity: 'resistance', unit: 'Ω' },
    );
    expect(judgeInstrument(rail, ohmmeter).kind).toBe('does-not-measure');
  });

  test.each([
    ['±(0.5 % + 2)', 0.5, 2],
    ['0.5%+2', 0.5, 2],
    ['1,2 % + 10 digits', 1.2, 10],
    ['0.8% rdg + 3 dgt', 0.8, 3],
    ['+/- (2 % of reading + 5 counts)', 2, 5],
    ['2 %', 2, 0],
  ])('the accuracy %s is read', (text, percent, counts) => {
    expect(parseAccuracy(text)).toEqual({ percent, counts });
  });

  test.each(['', 'good', '60 %', '1 % + 5000', '0.5', `1%${' '.repeat(100)}`])('the accuracy %j is refused', (text) => {
    expect(parseAccuracy(text)).toBeUndefined();
  });
});

describe('the instrument assumed without a choice', () => {
  const classes = new Map(
    [
      makeInstrument({ percent: 1, counts: 2, resolution: 0.01, to: 20 }, { slug: 'multimeter-2000' }),
      makeInstrument({ percent: 0.5, counts: 3, resolution: 0.001, to: 6 }, { slug: 'multimeter-6000' }),
      makeInstrument(
        { percent: 3, counts: 2, resolution: 0.01, to: 40 },
        { slug: 'oscilloscope-x10', quantity: 'voltage-pp', unit: 'Vpp', family: 'oscilloscope' },
      ),
    ].map((instrument) => [instrument.slug, instrument]),
  );

  test('is the 6000-count multimeter', () => {
    expect(assumeInstrument(rail, classes)?.slug).toBe('multimeter-6000');
  });

  test('is another where the multimeter has no such range, or does not reach', () => {
    const ripple = makeTarget({ quantity: 'voltage-pp', unit: 'mVpp', instruments: ['oscilloscope'] });
    expect(assumeInstrument(ripple, classes)?.slug).toBe('oscilloscope-x10');
    expect(assumeInstrument(rail, classes, 12)?.slug).toBe('multimeter-2000');
  });

  test('is none where a multimeter is no substitute', () => {
    expect(assumeInstrument(makeTarget({ instruments: ['insulation-tester'] }), classes)).toBeUndefined();
  });
});

describe('limits of a region or a unit', () => {
  test('take the place of the target’s own', () => {
    const changed = applyLimits(rail, { low: 4.9, nominal: undefined, high: undefined });
    expect(judge('4.80', changed).verdict).toBe('low');
    expect(changed.bands.map(({ name, from, to }) => [name, from, to])).toEqual([
      ['none', undefined, 0.5],
      ['low', 0.5, 4.9],
      ['in', 4.9, 5.25],
      ['high', 5.25, undefined],
    ]);
  });

  test('out of order leave it as it was', () => {
    expect(applyLimits(rail, { low: 6, nominal: undefined, high: undefined })).toEqual(rail);
  });
});
