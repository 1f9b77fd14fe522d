import { describe, expect, it } from 'vitest';
import { replayEvents } from '#core/log/job.ts';
import { linkOfJob } from '#core/log/job-in-tree.ts';
import { nameState } from '#core/log/name-job.ts';
import { findDisturbance, isProved, planProof, proposeShowing, sayProposal } from '#core/log/proof.ts';
import { makeEvent } from './make-event.ts';

// The rule of three: after n trials without a showing, 3/n bounds the rate at 95 % (Hanley and Lippman-Hand, JAMA 1983, from memory).
// Starts: the smallest n with (1 − p)^n at most 0.05, worked out beside each.
describe('the proof that a fault calls for', () => {
  it('is once in order where it was always there', () => {
    expect(planProof({ how: 'always' })).toMatchObject({ unit: 'time', needed: 1 });
  });

  it('is three times the mean hours between showings, to a quarter of a per cent', () => {
    const planned = planProof({ how: 'hours', meanHours: 2 });
    expect(planned?.unit).toBe('hours');
    expect(Math.abs((planned?.needed ?? 0) / 6 - 1)).toBeLessThan(0.0025);
    expect(planned?.text).toContain('Run 6 h');
  });

  it.each([
    [1, 2, 5], // 0.5^4 = 0.0625, 0.5^5 = 0.03125
    [1, 5, 14], // 0.8^13 = 0.0550, 0.8^14 = 0.0440
    [1, 10, 29], // 0.9^28 = 0.0523, 0.9^29 = 0.0471
    [3, 3, 1],
  ])('for %i of %i starts is %i clean starts', (seen, starts, needed) => {
    expect(planProof({ how: 'starts', seen, starts })).toMatchObject({ unit: 'starts', needed });
  });

  it('is not to be had where it showed more often than it was started', () => {
    expect(planProof({ how: 'starts', seen: 6, starts: 5 })).toBeUndefined();
  });
});

describe('a run', () => {
  it('proves the repair when it is long enough and clean', () => {
    expect(isProved({ how: 'starts', seen: 1, starts: 5 }, 14, true)).toBe(true);
    expect(isProved({ how: 'starts', seen: 1, starts: 5 }, 13, true)).toBe(false);
    expect(isProved({ how: 'starts', seen: 1, starts: 5 }, 14, false)).toBe(false);
    expect(isProved({ how: 'hours', meanHours: 2 }, 6, true)).toBe(true);
  });
});

const repair = makeEvent(1, { kind: 'repair', tree: 'rail', cause: 'plug', tested: 'no-part' });
const disturbed = makeEvent(2, {
  kind: 'result',
  repair: 'e1',
  result: 'cured-by-disturbance',
  acts: ['reseated'],
  touched: 'J4',
});

describe('a cure by disturbance', () => {
  it('is a result of its own, until a later word on the repair', () => {
    expect(findDisturbance(replayEvents('j', [repair, disturbed]))).toMatchObject({
      acts: ['reseated'],
      touched: 'J4',
    });
    const same = makeEvent(3, { kind: 'result', repair: 'e1', result: 'same' });
    expect(findDisturbance(replayEvents('j', [repair, disturbed, same]))).toBeUndefined();
    const cured = makeEvent(3, { kind: 'result', repair: 'e1', result: 'cured' });
    expect(findDisturbance(replayEvents('j', [repair, cured]))).toBeUndefined();
  });

  it('does not count as a repair without a cure', () => {
    expect(linkOfJob(replayEvents('j', [repair, disturbed]), 'rail').did).toEqual([]);
  });

  it('closes a job without a word of proof, whatever was run', () => {
    const closed = makeEvent(5, { kind: 'closed', how: 'cured-by-disturbance' });
    expect(nameState(replayEvents('j', [repair, disturbed, closed]))).toBe(
      'Closed: works after a disturbance, the cause is not proved',
    );
    const proof = makeEvent(4, { kind: 'proof', showing: { how: 'always' }, done: 1, isClean: true });
    expect(nameState(replayEvents('j', [repair, disturbed, proof, closed]))).toBe(
      'Closed: works after a disturbance, the cause is not proved; it ran as long as the proof asks',
    );
  });
});

describe('the proof proposed', () => {
  it('follows what was counted in a check: 1 of 5 starts', () => {
    const counted = makeEvent(0, { kind: 'answer', tree: 'rail', node: 'start', value: '1-of-5' });
    const job = replayEvents('j', [counted, repair, disturbed]);
    expect(proposeShowing(job)).toEqual({ how: 'starts', seen: 1, starts: 5 });
    // 0.8^13 = 0.0550, 0.8^14 = 0.0440
    expect(sayProposal(job)).toMatch(/^Before closing: 14 clean starts in a row/);
  });

  it('follows what was said last of how the fault showed, before any count', () => {
    const counted = makeEvent(0, { kind: 'answer', tree: 'rail', node: 'start', value: '1-of-5' });
    const said = makeEvent(3, { kind: 'proof', showing: { how: 'hours', meanHours: 2 }, done: 1, isClean: true });
    expect(sayProposal(replayEvents('j', [counted, repair, said]))).toMatch(
      /^Before closing: run 6 h without the fault/,
    );
  });

  it('asks where nobody counted; never seen in so many tries is no count', () => {
    expect(sayProposal(replayEvents('j', [repair]))).toMatch(/how many of how many starts/);
    const unseen = makeEvent(0, { kind: 'answer', tree: 'rail', node: 'start', value: '0-of-5' });
    expect(proposeShowing(replayEvents('j', [unseen]))).toBeUndefined();
  });
});
