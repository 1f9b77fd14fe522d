import { describe, expect, it } from 'vitest';
import { nameState } from '#core/bench-log/name-job.ts';
import { findDisturbance, proposeShowing, sayProposal } from '#core/bench-log/propose-proof.ts';
import { replayEvents } from '#core/bench-log/replay-events.ts';
import { linkOfJob } from '#core/bench-log/link-of-job.ts';
import { makeEvent } from './make-event.ts';

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
      'Closed: cured by disturbance, the cause is not proved',
    );
    const proof = makeEvent(4, { kind: 'proof', showing: { how: 'always' }, done: 1, isClean: true });
    expect(nameState(replayEvents('j', [repair, disturbed, proof, closed]))).toBe(
      'Closed: cured by disturbance, the cause is not proved; it ran as long as the proof asks',
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
