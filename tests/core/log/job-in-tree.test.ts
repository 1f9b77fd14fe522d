import { describe, expect, it } from 'vitest';
import { carryReadings, measureMeanwhile } from '#core/log/job-in-tree.ts';
import type { LogEvent } from '#core/log/event.ts';
import { replayEvents } from '#core/log/job.ts';
import { makeCause, makeCheck, makeTree } from '../../arbitraries/make-tree.ts';
import { makeEvent } from './make-event.ts';

const rail = { target: 'rail-5v-at-chip', point: 'chip-supply' };
const bands = (to: string): Record<string, string> => ({ low: to, in: to, high: to });
// `rail` lies on the road to both causes; `swing` on that to `crystal-dead` alone; `noise` on none.
const clock = makeTree(
  [
    makeCheck('rail', { low: 'regulator-dead', in: 'swing', high: 'regulator-dead' }, { target: rail, power: 'on' }),
    makeCheck(
      'swing',
      { low: 'crystal-dead', in: 'noise', high: 'crystal-dead' },
      { target: { target: 'crystal-swing', point: undefined }, power: 'on' },
    ),
    makeCheck('noise', { yes: 'nothing-found', no: 'nothing-found' }),
    makeCause('regulator-dead'),
    makeCause('crystal-dead'),
    makeCause('nothing-found'),
  ],
  { slug: 'clock-dead' },
);
const reset = makeTree(
  [
    makeCheck('supply', bands('reset-dead'), { target: rail, power: 'on' }),
    makeCheck('supply-off', bands('reset-dead'), { target: rail, power: 'off' }),
    makeCheck('beat', bands('reset-dead'), { target: { target: 'crystal-swing', point: 'pin-2' }, power: 'on' }),
    makeCause('reset-dead'),
  ],
  { slug: 'reset-stuck' },
);
const trees = new Map([clock, reset].map((tree) => [tree.slug, tree] as const));
const read = (minute: number, node: string, value: string): LogEvent =>
  makeEvent(minute, { kind: 'answer', tree: 'clock-dead', node, value });
const repair = (minute: number, cause: string, tree = 'clock-dead'): LogEvent =>
  makeEvent(minute, { kind: 'repair', tree, cause, tested: 'no-part' });
const carried = (...events: readonly LogEvent[]): readonly string[] =>
  carryReadings(replayEvents('j', events), trees, reset).map(({ node, value }) => `${node}=${value}`);

describe('readings carried into another tree', () => {
  it('are those of the same target at the same point with the same power', () => {
    expect(carried(read(1, 'rail', '5.02V'), read(2, 'swing', 'low'))).toEqual(['supply=5.02V']);
  });

  it('are dropped where a repair since then can have changed them', () => {
    expect(carried(read(1, 'rail', '4.1V'), repair(2, 'regulator-dead'))).toEqual([]);
    expect(carried(read(1, 'rail', '4.1V'), repair(2, 'crystal-dead'))).toEqual([]);
    expect(carried(read(1, 'rail', '4.1V'), repair(2, 'unknown-part', 'another-tree'))).toEqual([]);
  });

  it('stay where the repair came first', () => {
    expect(carried(repair(1, 'regulator-dead'), read(2, 'rail', '5.02V'))).toEqual(['supply=5.02V']);
  });
});

describe('what can be measured while a part is on its way', () => {
  it('is what is open, unpowered first, and leaves nothing behind', () => {
    const { unpowered, powered } = measureMeanwhile(reset, new Set(['supply']));
    expect(unpowered.map(({ id }) => id)).toEqual(['supply-off']);
    expect(powered.map(({ id }) => id)).toEqual(['beat']);
  });
});
