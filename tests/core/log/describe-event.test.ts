import { describe, expect, it } from 'vitest';
import { describeEvent, sayEventAnswer } from '#core/log/describe-event.ts';

const answer = { tree: 'psu-5v-low', node: 'load-current', stage: undefined } as const;

describe('an event of the log', () => {
  it.each([
    ['none', 'No more than expected', 'No more than expected'],
    ['low,4.74V', 'Nothing there or Low', 'Nothing there or Low (read 4.74\u00a0V)'],
    // Written without the tree's data.
    ['hum', undefined, 'Hum'],
    ['0.3ohm', undefined, '0.3\u00a0Ω'],
  ])('says the answer %s with the button %s', (value, said, words) => {
    expect(sayEventAnswer({ ...answer, value, ...(said === undefined ? {} : { said }) })).toBe(words);
  });

  it.each([
    ['good', 'Good', 'Good'],
    ['bad,47mV', 'First bad here', 'First bad here (read 47\u00a0mV)'],
    ['47mV', '47 mVpp', '47 mVpp'],
  ])('says %s at a stage in the words of its page: the question names the stage', (value, said, words) => {
    expect(sayEventAnswer({ ...answer, node: 'to-speaker', stage: 'pot-end', value, said })).toBe(words);
  });

  it('tells a unit by its title where the page knows it', () => {
    const unit = {
      kind: 'unit',
      id: 'e1',
      job: 'j',
      at: '2026-01-31T12:00:00.000Z',
      device: 'd',
      slug: 'quillon-44',
    } as const;
    expect(describeEvent(unit, () => 'Quillon 44 synthesizer').detail).toBe('Quillon 44 synthesizer');
  });
});
