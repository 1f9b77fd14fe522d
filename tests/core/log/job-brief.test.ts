import { describe, expect, it } from 'vitest';
import { readJobBrief, sayLimit } from '#core/log/job-brief.ts';
import type { EventDraft } from '#core/log/event.ts';
import { replayEvents } from '#core/log/job.ts';
import { makeJobBrief, nameJob } from '#core/log/name-job.ts';
import { makeEvent } from './make-event.ts';

describe('the limit of a job in hours', () => {
  it('is silent where there is none, and where what is planned fits', () => {
    expect(sayLimit({ limitHours: undefined, benchHours: 40 }, 500)).toBeUndefined();
    expect(sayLimit({ limitHours: 3, benchHours: 1 }, 120)).toBeUndefined();
  });

  it('says how many minutes are left where what is planned takes longer', () => {
    expect(sayLimit({ limitHours: 3, benchHours: 1.5 }, 91)).toMatch(/limit of 3 h, 90 minutes are left/u);
  });

  it('says that it is reached, whatever is planned', () => {
    expect(sayLimit({ limitHours: 2, benchHours: 2 })).toMatch(/limit of 2 h is reached/u);
    expect(sayLimit({ limitHours: 2, benchHours: 5 }, 1)).toMatch(/reached/u);
  });
});

const replay = (...drafts: readonly EventDraft[]) =>
  replayEvents(
    'j',
    drafts.map((draft, index) => makeEvent(index, draft)),
  );
const answer = { kind: 'answer', tree: 'audio-hum', treeTitle: 'Hum', node: 'knob', value: 'stays' } as const;

describe('the name of a job', () => {
  it.each([
    [
      'unit and complaint',
      [
        { kind: 'unit', description: 'Blue synthesizer' },
        { kind: 'intake', symptom: 'no sound' },
      ],
      'Blue synthesizer: no sound',
    ],
    ['the complaint alone', [{ kind: 'intake', symptom: 'no sound' }], 'no sound'],
    ['the first tree where nobody complained', [{ kind: 'unit', model: 'Blue' }, answer], 'Blue: Hum'],
    ['a known unit by its name', [{ kind: 'unit', slug: 'quillon-44' }, answer], 'Quillon 44: Hum'],
    ['the day', [{ kind: 'opened' }], 'Job of 2026-01-31'],
  ] as const)('is %s', (_, drafts, name) => {
    expect(nameJob(replay(...drafts))).toBe(name);
  });
});

describe('the brief of a job', () => {
  it('names each tree that the job has been in, for answers and for repairs', () => {
    const repair = { kind: 'repair', tree: 'psu-5v-low', cause: 'brick-wrong', tested: 'no-part' } as const;
    const brief = readJobBrief(JSON.stringify(makeJobBrief(replay(answer, repair, { ...answer, node: 'other' }))));
    expect(brief?.trees).toEqual(['audio-hum', 'psu-5v-low']);
  });

  it('holds for which unit mains voltage and long storage were asked before its plug went in', () => {
    const said = { kind: 'intake', plugged: 'quillon-44' } as const;
    const read = (...drafts: readonly EventDraft[]) => readJobBrief(JSON.stringify(makeJobBrief(replay(...drafts))));

    expect(read(answer)?.plugged).toBeUndefined();
    expect(read(said, { kind: 'intake', mains: 'outside' })?.plugged).toBe('quillon-44');
    expect(read(said, { kind: 'intake', plugged: '' })?.plugged).toBe('');
    expect(readJobBrief(JSON.stringify({ id: 'j', name: 'x', plugged: 7 }))?.plugged).toBeUndefined();
  });

  it('takes no tree from a damaged one', () => {
    const brief = { id: 'j', name: 'x', trees: ['audio-hum', 7, null], points: {}, unproved: {} };
    expect(readJobBrief(JSON.stringify(brief))?.trees).toEqual(['audio-hum']);
    expect(readJobBrief(JSON.stringify({ ...brief, trees: 'audio-hum' }))?.trees).toEqual([]);
  });
});
