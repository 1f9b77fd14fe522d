import { describe, expect, it } from 'vitest';
import type { Answer } from '#core/answer/answer.ts';
import type { BenchTree } from '#core/answer/bench-tree.ts';
import { findFirstStage, type PathState, readPathState } from '#core/answer/path-state.ts';
import type { SignalPath } from '#core/model/fault-tree.ts';
import { makeCause, makeCheck, makePath, makeTree } from '../../arbitraries/make-tree.ts';

const faults = ['fault-1', 'fault-2', 'fault-3', 'fault-4', 'beyond'];
const made = makePath('line', { one: 'fault-1', two: 'fault-2', three: 'fault-3', four: 'fault-4' }, 'beyond');
/** Stages called after their place. */
const path: SignalPath = {
  ...made,
  stages: made.stages.map((stage, index, all) => ({
    ...stage,
    id: stage.title,
    from: index === 0 ? [] : [all[index - 1]?.title ?? ''],
  })),
};

function read(said: Readonly<Record<string, string>>, on: SignalPath = path): PathState {
  const tree = makeTree([on, ...faults.map((id) => makeCause(id))]);
  const bench: BenchTree = { tree, references: { targets: new Map(), instrumentClasses: new Map() }, limits: {} };
  const answers = Object.entries(said).map(([stage, value]): Answer => ({
    tree: undefined,
    node: 'line',
    stage,
    value,
  }));
  return readPathState(on, answers, bench);
}

const stretches = ({ stages }: PathState): readonly string[] => stages.map(({ stretch }) => stretch);

describe('a signal path with some stages read', () => {
  it('untouched: the fault may lie anywhere, and the middle is read first (the half split)', () => {
    const state = read({});

    expect(stretches(state)).toEqual(['suspect', 'suspect', 'suspect', 'suspect']);
    // Five equal possibilities, the one beyond the end among them: two against three is the most even split.
    expect(['two', 'three']).toContain(findFirstStage(path, makeTree([path, ...faults.map((id) => makeCause(id))])));
  });

  it('a good stage clears all before it, a bad one leaves nothing after it', () => {
    expect(stretches(read({ two: 'good' }))).toEqual(['cleared', 'cleared', 'suspect', 'suspect']);
    expect(stretches(read({ three: 'bad' }))).toEqual(['suspect', 'suspect', 'suspect', 'after']);
    expect(stretches(read({ one: 'good', three: 'bad' }))).toEqual(['cleared', 'suspect', 'suspect', 'after']);
  });

  it('bracketed between two neighbours, it names the fault', () => {
    expect(read({ two: 'good', three: 'bad' })).toMatchObject({ found: 'fault-3' });
    expect(read({ one: 'bad' })).toMatchObject({ found: 'fault-1' });
  });

  it('good to the end leads on', () => {
    expect(read({ one: 'good', two: 'good', three: 'good', four: 'good' }).found).toBe('beyond');
  });

  it('a band in range counts as good, any other as bad, not seen as neither', () => {
    expect(stretches(read({ two: 'in' }))).toEqual(['cleared', 'cleared', 'suspect', 'suspect']);
    expect(stretches(read({ two: 'low' }))).toEqual(['suspect', 'suspect', 'after', 'after']);
    expect(stretches(read({ two: 'unseen' }))).toEqual(['suspect', 'suspect', 'suspect', 'suspect']);
  });

  it('a good stage after a bad one is a contradiction that names both', () => {
    const { contradiction, found } = read({ one: 'bad', three: 'good' });

    expect(contradiction).toMatch(/one.*bad.*three.*good/i);
    expect(found).toBeUndefined();
  });

  it('takes what an answer elsewhere says of a stage, as if it had been read', () => {
    const check = makeCheck('knob', { follows: 'line', stays: 'line' });
    const [follows, stays] = check.outcomes;
    if (follows === undefined || stays === undefined) throw new Error('outcomes');
    const knob = {
      ...check,
      outcomes: [
        { ...follows, saysBefore: 'line/three' },
        { ...stays, saysAfter: 'line/three' },
      ],
    };
    const tree = makeTree([knob, path, ...faults.map((id) => makeCause(id))]);
    const bench: BenchTree = { tree, references: { targets: new Map(), instrumentClasses: new Map() }, limits: {} };
    const answer = (node: string, value: string, stage?: string): Answer => ({ tree: undefined, node, stage, value });

    expect(stretches(readPathState(path, [answer('knob', 'follows')], bench))).toEqual([
      ...['suspect', 'suspect', 'suspect', 'after'],
    ]);
    expect(stretches(readPathState(path, [answer('knob', 'stays')], bench))).toEqual([
      ...['cleared', 'cleared', 'cleared', 'suspect'],
    ]);
    expect(readPathState(path, [answer('knob', 'follows'), answer('line', 'good', 'two')], bench).found).toBe(
      'fault-3',
    );
  });

  it('follows branches: a good joint clears both arms', () => {
    const [one, two, three, four] = path.stages;
    if (one === undefined || two === undefined || three === undefined || four === undefined) throw new Error('stages');
    const joined = {
      ...path,
      stages: [
        { ...one, from: [] },
        { ...two, from: [] },
        { ...three, from: ['one', 'two'] },
        { ...four, from: ['three'] },
      ],
    };

    expect(stretches(read({ three: 'good' }, joined))).toEqual(['cleared', 'cleared', 'cleared', 'suspect']);
    expect(stretches(read({ three: 'bad', one: 'good' }, joined))).toEqual(['cleared', 'suspect', 'suspect', 'after']);
  });
});
