import * as commonmark from 'commonmark';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { replayEvents } from '#core/log/job.ts';
import { writeJobMarkdown } from '#core/log/write-job-markdown.ts';
import { makeEvent } from './make-event.ts';

/** The text and the kinds of nodes that the reference implementation of CommonMark sees. */
function readWith(markdown: string): { readonly text: string; readonly kinds: ReadonlySet<string> } {
  const walker = new commonmark.Parser().parse(markdown).walker();
  const kinds = new Set<string>();
  let text = '';
  for (let step = walker.next(); step !== null; step = walker.next()) {
    if (!step.entering) continue;
    kinds.add(step.node.type);
    text += step.node.literal ?? '';
  }
  return { text, kinds };
}

describe('a job as Markdown', () => {
  const job = replayEvents('j', [
    makeEvent(0, { kind: 'opened', symptom: '# no *sound*' }),
    makeEvent(1, { kind: 'unit', maker: 'Quillon', model: '44', serial: '<b>0042</b>' }),
    makeEvent(2, { kind: 'answer', tree: 'psu-dead', node: 'fuse', value: '4.71V', question: 'Is the fuse whole?' }),
    makeEvent(3, { kind: 'note', text: 'taken back' }),
    makeEvent(4, { kind: 'undo', of: 'e3' }),
    makeEvent(5, { kind: 'repair', tree: 'psu-dead', cause: 'fuse-open', part: '[T 1 A](x)', tested: 'yes' }),
    makeEvent(6, {
      kind: 'result',
      repair: 'e5',
      result: 'cured-by-disturbance',
      acts: ['reseated', 'flexed'],
      touched: 'plug *J4*',
    }),
    makeEvent(7, { kind: 'answer', tree: 'psu-dead', node: 'rail', value: '4.71V', verdict: 'low' }),
  ]);
  const { text, kinds } = readWith(writeJobMarkdown(job));

  it('holds unit, symptom, readings with their time, and repairs', () => {
    for (const part of [
      'Quillon 44',
      '# no *sound*',
      '<b>0042</b>',
      '2026-01-31 12:02',
      'Is the fuse whole?',
      '4.71 V',
      '[T 1 A](x)',
      'works after a disturbance, the cause is not proved; reseated, flexed: plug *J4*',
      '4.71 V; low',
    ]) {
      expect(text).toContain(part);
    }
  });

  it('leaves out what was taken back, and holds neither links nor HTML', () => {
    expect(text).not.toContain('taken back');
    expect([...kinds].filter((kind) => ['link', 'image', 'html_inline', 'html_block', 'code'].includes(kind))).toEqual(
      [],
    );
  });

  it('says whole texts, and nothing in them becomes more than text', () => {
    const whole = 'a*b '.repeat(1000).trim();
    const kept = replayEvents('j', [makeEvent(0, { kind: 'note', text: whole })]);
    expect(readWith(writeJobMarkdown(kept)).text).toContain(whole);
    const plain = replayEvents('j', [
      makeEvent(0, { kind: 'note', text: 'x' }),
      makeEvent(1, { kind: 'part', name: 'x', status: 'wanted' }),
    ]);
    const kindsOfPlain = readWith(writeJobMarkdown(plain)).kinds;
    fc.assert(
      fc.property(
        fc.oneof(
          fc.string({ minLength: 1 }),
          fc.string({ minLength: 1, unit: fc.constantFrom(...'*_`[]()<>#+-.!&\\ ab1~|\n') }),
        ),
        (text) => {
          const job = replayEvents('j', [
            makeEvent(0, { kind: 'note', text }),
            makeEvent(1, { kind: 'part', name: text, status: 'wanted' }),
          ]);
          const more = [...readWith(writeJobMarkdown(job)).kinds].filter((kind) => !kindsOfPlain.has(kind));
          expect(more).toEqual([]);
        },
      ),
    );
  });
});
