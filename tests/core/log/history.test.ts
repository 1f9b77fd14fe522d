import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { LogEvent } from '#core/log/event.ts';
import { findNewEvents, mergeHistories, spell } from '#core/log/history.ts';
import { replayJobs } from '#core/log/job.ts';
import { arbitraryHistory } from '../../arbitraries/log-event.ts';
import { makeEvent } from './make-event.ts';

const contents = (history: readonly LogEvent[]): readonly string[] =>
  history.map((event) => spell({ ...event, id: event.id.replace(/~[0-9a-z]+$/, '') })).sort();

describe('merging two histories', () => {
  it('is commutative', () => {
    fc.assert(
      fc.property(arbitraryHistory, arbitraryHistory, (one, other) => {
        expect(mergeHistories(one, other)).toEqual(mergeHistories(other, one));
      }),
    );
  });

  it('is associative', () => {
    fc.assert(
      fc.property(arbitraryHistory, arbitraryHistory, arbitraryHistory, (one, two, three) => {
        expect(mergeHistories(mergeHistories(one, two), three)).toEqual(
          mergeHistories(one, mergeHistories(two, three)),
        );
      }),
    );
  });

  it('is idempotent', () => {
    fc.assert(
      fc.property(arbitraryHistory, arbitraryHistory, (one, other) => {
        const merged = mergeHistories(one, other);
        expect(mergeHistories(merged, one)).toEqual(merged);
        expect(mergeHistories(merged, merged)).toEqual(merged);
      }),
    );
  });

  it('loses nothing: the content of every event of either is there, even where both gave one id to two events', () => {
    fc.assert(
      fc.property(arbitraryHistory, arbitraryHistory, (one, other) => {
        const both = new Set([...contents(one), ...contents(other)]);
        expect(contents(mergeHistories(one, other))).toEqual([...both].sort());
      }),
    );
  });

  it('gives every event an id of its own', () => {
    fc.assert(
      fc.property(arbitraryHistory, arbitraryHistory, (one, other) => {
        const merged = mergeHistories(one, other);
        expect(new Set(merged.map(({ id }) => id)).size).toBe(merged.length);
      }),
    );
  });

  it('brings two tabs that wrote apart to the same job', () => {
    const opened = makeEvent(0, { kind: 'opened', symptom: 'no sound' });
    const left = [opened, makeEvent(1, { kind: 'note', text: 'left' })];
    const right = [opened, makeEvent(2, { kind: 'note', text: 'right' })];

    const [job] = replayJobs(mergeHistories(left, right));
    expect(job?.notes.map(({ text }) => text)).toEqual(['left', 'right']);
  });
});

describe('what an import adds', () => {
  it('touches no event of the log’s own, and adds what is foreign once', () => {
    fc.assert(
      fc.property(arbitraryHistory, arbitraryHistory, (own, foreign) => {
        const added = findNewEvents(own, foreign);
        const ids = new Set(own.map(({ id }) => id));
        expect(added.filter(({ id }) => ids.has(id))).toEqual([]);
        expect(new Set(contents([...own, ...added]))).toEqual(new Set([...contents(own), ...contents(foreign)]));
        expect(findNewEvents([...own, ...added], foreign)).toEqual([]);
      }),
    );
  });
});
