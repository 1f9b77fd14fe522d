import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type AnswerValue, isWord, printAnswerValue, readAnswerValue, readShare } from '#core/answer/answer.ts';
import { sayAnswer } from '#core/answer/say.ts';

const quantity = fc.stringMatching(/^-?[0-9]{1,3}(\.[0-9]{1,3})?(V|mV|kohm|ohm)$/);
const word = fc.stringMatching(/^[a-z]{1,6}(-[a-z0-9]{1,6})?$/);
const value: fc.Arbitrary<AnswerValue> = fc.oneof(
  fc.oneof(word, quantity).map((said) => ({ value: said })),
  fc
    .tuple(word, fc.array(quantity, { minLength: 1, maxLength: 12 }))
    .map(([said, readings]) => ({ value: said, readings })),
  fc.array(quantity, { minLength: 2, maxLength: 12 }).map((readings) => ({ value: readings[0] ?? '', readings })),
);

describe('the right side of an answer', () => {
  it('is read back as it was printed, whatever it holds', () => {
    fc.assert(
      fc.property(value, (said) => {
        expect(readAnswerValue(printAnswerValue(said))).toEqual(said);
      }),
    );
  });

  it.each([
    ['in', true],
    ['odd-one', true],
    ['3-of-8', true],
    ['4.71V', false],
    ['-5V', false],
    ['OL', false],
  ])('takes %s for a word: %s', (text, expected) => expect(isWord(text)).toBe(expected));

  it.each([
    ['3-of-8', { times: 3, tries: 8 }],
    ['0-of-5', { times: 0, tries: 5 }],
    ['9-of-8', undefined],
    ['0-of-0', undefined],
    ['4.71V', undefined],
  ])('reads how often: %s', (text, expected) => expect(readShare(text)).toEqual(expected));
});

describe('an answer in words', () => {
  const at = { tree: undefined, node: 'lamp', stage: undefined } as const;
  it.each([
    [{ ...at, value: 'in' }, 'In range'],
    [{ ...at, value: '3-of-8' }, '3 of 8 times'],
    [{ ...at, value: 'unseen' }, 'Not seen while testing'],
    [{ ...at, value: 'low', readings: ['4.74V'] }, 'Low (read 4.74\u00a0V)'],
    [{ ...at, value: '0.3ohm' }, '0.3\u00a0Ω'],
    [{ ...at, value: '4.9V', readings: ['4.9V', 'OL'] }, '2 readings'],
    [{ ...at, stage: 'amp-in', value: 'bad' }, 'Bad at amp in'],
  ])('%o reads “%s”', (answer, text) => expect(sayAnswer(answer)).toBe(text));
});
