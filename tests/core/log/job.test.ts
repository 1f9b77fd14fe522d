import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type EventDraft, type LogEvent, stampEvents } from '#core/log/event.ts';
import { mergeHistories } from '#core/log/history.ts';
import { linkOfJob } from '#core/log/job-in-tree.ts';
import { findLastStanding, findLastUndo, findUndosOf, replayEvents, replayJobs } from '#core/log/job.ts';
import { arbitraryHistory } from '../../arbitraries/log-event.ts';
import { makeEvent } from './make-event.ts';

const answer = (node: string, value: string): EventDraft => ({ kind: 'answer', tree: 'psu-dead', node, value });

/** Writes drafts one after the other, a second apart, as one tab does. */
function write(drafts: readonly EventDraft[], history: readonly LogEvent[] = []): readonly LogEvent[] {
  const events = [...history];
  for (const [counter, draft] of drafts.entries())
    events.push(
      ...stampEvents(events, 'j', [draft], { now: 1_000_000 + 1000 * counter, device: 'tab', counter: events.length }),
    );
  return events;
}

describe('replaying a history', () => {
  it('does not depend on the order of the list', () => {
    fc.assert(
      fc.property(
        arbitraryHistory.chain((history) =>
          fc.tuple(fc.constant(history), fc.shuffledSubarray([...history], { minLength: history.length })),
        ),
        ([history, shuffled]) => {
          expect(replayJobs(shuffled)).toEqual(replayJobs(history));
        },
      ),
    );
  });

  it('keeps every event in a timeline', () => {
    fc.assert(
      fc.property(arbitraryHistory, (history) => {
        const shown = replayJobs(history).flatMap(({ timeline }) => timeline.map(({ event }) => event.id));
        expect(shown.toSorted()).toEqual(history.map(({ id }) => id).sort());
      }),
    );
  });

  it('takes the last answer to a question, in the order of answering', () => {
    const job = replayEvents('j', write([answer('fuse', 'low'), answer('lamp', 'yes'), answer('fuse', 'in')]));
    expect(job.answers.map(({ node, value }) => `${node}=${value}`)).toEqual(['lamp=yes', 'fuse=in']);
  });

  it('keeps what two tabs changed in different fields of the unit, and an empty field takes a text away', () => {
    const job = replayEvents('j', [
      makeEvent(1, { kind: 'unit', maker: 'Quillon', model: '44' }),
      makeEvent(2, { kind: 'unit', serial: '0042' }),
      makeEvent(3, { kind: 'unit', model: '' }),
    ]);
    expect(job.unit).toMatchObject({ maker: 'Quillon', model: undefined, serial: '0042' });
  });

  it('follows a part from wanted to fitted under one name', () => {
    const history = [
      makeEvent(1, { kind: 'part', name: '1000 µF 16 V', status: 'wanted' }),
      makeEvent(2, { kind: 'part', part: 'e1', status: 'ordered' }),
      makeEvent(3, { kind: 'part', part: 'e1', status: 'tested-good' }),
    ];
    expect(replayEvents('j', history).parts).toEqual([{ id: 'e1', name: '1000 µF 16 V', status: 'tested-good' }]);
  });

  it('knows waiting, taken up again and closed', () => {
    const waiting = write([{ kind: 'waiting', what: 'a fuse' }]);
    expect(replayEvents('j', waiting).state).toEqual({ kind: 'waiting', what: 'a fuse' });
    const resumed = write([{ kind: 'waiting', what: 'a fuse' }, { kind: 'resumed' }]);
    expect(replayEvents('j', resumed).state).toEqual({ kind: 'open' });
    const closed = write([{ kind: 'closed', how: 'cured' }]);
    expect(replayEvents('j', closed).state).toMatchObject({ kind: 'closed', how: 'cured' });
  });

  it('prints the fragment of a tree: unit, answers, and repairs that did not cure', () => {
    const job = replayEvents('j', [
      makeEvent(1, { kind: 'unit', slug: 'quillon-44' }),
      makeEvent(2, answer('fuse', 'low')),
      makeEvent(3, { kind: 'answer', tree: 'video-none', node: 'sync', value: 'none' }),
      makeEvent(4, { kind: 'repair', tree: 'psu-dead', cause: 'fuse-open', tested: 'yes' }),
      makeEvent(5, { kind: 'result', repair: 'e4', result: 'same' }),
    ]);
    expect(linkOfJob(job, 'psu-dead')).toEqual({
      unit: 'quillon-44',
      instrument: undefined,
      did: ['fuse-open'],
      ask: [],
      answers: [{ tree: undefined, node: 'fuse', stage: undefined, value: 'low' }],
    });
  });
});

describe('a history of 2,000 repairs, each with its result', () => {
  it('is replayed by looking at each result a few times, not once for each repair', () => {
    let looks = 0;
    const repairs = Array.from({ length: 2_000 }, (_, number): LogEvent[] => {
      const head = { job: 'j', device: 'tab', at: new Date(1_700_000_000_000 + number).toISOString() };
      return [
        { ...head, id: `a${number}`, kind: 'repair', tree: 'psu-dead', cause: 'fuse-open', tested: 'yes' },
        {
          ...head,
          id: `b${number}`,
          kind: 'result',
          result: 'same',
          get repair() {
            looks += 1;
            return `a${number}`;
          },
        },
      ];
    }).flat();
    const job = replayEvents('j', mergeHistories(repairs, []));
    expect(job.repairs).toHaveLength(2_000);
    expect(job.repairs.every(({ result }) => result?.result === 'same')).toBe(true);
    expect(looks).toBeLessThan(10 * 2_000);
  });
});

describe('undo', () => {
  it('takes back the last thing done, again and again, and redo brings it back', () => {
    let history = write([{ kind: 'opened' }, { kind: 'note', text: 'one' }, { kind: 'note', text: 'two' }]);
    const texts = (): readonly string[] => replayEvents('j', history).notes.map(({ text }) => text);
    const undo = (): void => {
      const of = findLastStanding(replayEvents('j', history))?.id;
      if (of !== undefined) history = write([{ kind: 'undo', of }], history);
    };
    undo();
    expect(texts()).toEqual(['one']);
    undo();
    expect(texts()).toEqual([]);
    undo();
    expect(history.filter(({ kind }) => kind === 'undo')).toHaveLength(2);
    const back = findLastUndo(replayEvents('j', history));
    history = write([{ kind: 'undo', of: back?.id ?? '' }], history);
    expect(texts()).toEqual(['one']);
    expect(history).toHaveLength(6);
  });

  it('restores one event among several that were undone, be it undone twice', () => {
    const notes = ['one', 'two', 'three'].map((text) => makeEvent(0, { kind: 'note', text }));
    const history = [
      ...notes.map((event, index) => ({ ...event, id: `n${index}`, at: `2026-01-01T00:00:0${index}.000Z` })),
      makeEvent(10, { kind: 'undo', of: 'n2' }),
      makeEvent(11, { kind: 'undo', of: 'n1' }),
      makeEvent(12, { kind: 'undo', of: 'n1' }),
    ];
    const undos = findUndosOf(replayEvents('j', history), 'n1').map(({ id }) => id);
    const back = undos.map((of, index) => makeEvent(20 + index, { kind: 'undo', of }));
    const texts = replayEvents('j', [...history, ...back]).notes.map(({ text }) => text);

    expect(undos).toEqual(['e11', 'e12']);
    expect(texts).toEqual(['one', 'two']);
  });

  it('brings the earlier answer to a question back', () => {
    const history = write([answer('fuse', 'low'), answer('fuse', 'in')]);
    const undone = write([{ kind: 'undo', of: history[1]?.id ?? '' }], history);
    expect(replayEvents('j', undone).answers.map(({ value }) => value)).toEqual(['low']);
  });

  it('cannot take back the opening, an event of another job, or run in a circle', () => {
    const history = [
      makeEvent(0, { kind: 'opened' }),
      makeEvent(1, { kind: 'undo', of: 'e0' }),
      makeEvent(2, { kind: 'note', text: 'mine' }),
      makeEvent(3, { kind: 'undo', of: 'e2' }, 'other'),
      makeEvent(4, { kind: 'undo', of: 'e5' }),
      makeEvent(5, { kind: 'undo', of: 'e4' }),
    ];
    const job = replayEvents('j', history);
    expect(job.timeline[0]?.isRevoked).toBe(false);
    expect(job.notes).toHaveLength(1);
    expect(job.timeline.filter(({ isRevoked }) => isRevoked).map(({ event }) => event.id)).toEqual(['e4']);
  });
});

describe('stamping', () => {
  it('never dates an event before the last one of its job, even where the clock was set back', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 0, max: 4e12 }), { minLength: 1, maxLength: 20 }), (clock) => {
        const history: LogEvent[] = [];
        for (const [counter, now] of clock.entries())
          history.push(...stampEvents(history, 'j', [{ kind: 'resumed' }], { now, device: 'tab', counter }));
        expect(replayEvents('j', history).timeline.map(({ event }) => event.id)).toEqual(history.map(({ id }) => id));
        expect(new Set(history.map(({ id }) => id)).size).toBe(history.length);
      }),
    );
  });
});
