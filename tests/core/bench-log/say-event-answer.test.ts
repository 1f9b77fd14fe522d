import { describe, expect, it } from 'vitest';
import { eventSchema } from '#core/bench-log/event.ts';
import { describeEvent } from '#core/bench-log/describe-event.ts';
import { quoteButton, sayEventAnswer } from '#core/bench-log/say-event-answer.ts';
import * as v from 'valibot';

const answer = { tree: 'psu-5v-low', node: 'load-current', stage: undefined } as const;

describe('an answer of the log', () => {
  it.each([
    ['none', '“No more than expected”', 'No more than expected', ''],
    ['none', '“No more than expected”; read earlier in this job', 'No more than expected', 'read earlier in this job'],
    [
      'low,4.74V',
      '“Nothing there or Low”; decided by hand',
      'Nothing there or Low (read 4.74\u00a0V)',
      'decided by hand',
    ],
    // Written by an earlier version, or without the tree's data.
    ['hum', undefined, 'Hum', ''],
    ['0.3ohm', 'high', '0.3\u00a0Ω', 'high'],
    ['hum', '“”; “x', 'Hum', '“”; “x'],
  ])('%s with the verdict %s', (value, verdict, said, rest) => {
    expect(sayEventAnswer({ ...answer, value, ...(verdict === undefined ? {} : { verdict }) })).toEqual({
      said,
      verdict: rest,
    });
  });

  it('stands in the event’s own field, as it was published, whatever the words are', () => {
    const verdict = quoteButton('a “quoted” word');
    expect(sayEventAnswer({ ...answer, value: 'none', verdict }).said).toBe("a “quoted' word");
    const event = { kind: 'answer', id: 'e1', job: 'j', at: '2026-01-31T12:00:00.000Z', device: 'd', ...answer };
    const { stage, ...stored } = { ...event, value: 'none', verdict };
    expect(stage).toBeUndefined();
    expect(v.safeParse(eventSchema, stored).success).toBe(true);
  });

  it('a unit is told by its title where the page knows it', () => {
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
