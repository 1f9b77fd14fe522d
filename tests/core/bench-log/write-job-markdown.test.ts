import * as commonmark from 'commonmark';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { escapeMarkdown, foldText } from '#core/bench-log/escape-markdown.ts';
import { replayEvents } from '#core/bench-log/replay-events.ts';
import { writeJobMarkdown } from '#core/bench-log/write-job-markdown.ts';
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

describe('a person’s text in Markdown', () => {
  it('reads back as itself and as nothing but text, by the reference implementation', () => {
    fc.assert(
      fc.property(
        fc.oneof(fc.string(), fc.string({ unit: fc.constantFrom(...'*_`[]()<>#+-.!&\\ ab1~|\n') })),
        (text) => {
          const read = readWith(`- x ${escapeMarkdown(text)}`);
          expect(read.text.trim()).toBe(`x ${foldText(text)}`.trim());
          expect(
            [...read.kinds].filter((kind) => !['document', 'list', 'item', 'paragraph', 'text'].includes(kind)),
          ).toEqual([]);
        },
      ),
    );
  });
});

describe('a job as Markdown', () => {
  const job = replayEvents('j', [
    makeEvent(0, { kind: 'opened', symptom: '# no *sound*' }),
    makeEvent(1, { kind: 'unit', maker: 'Orrin', model: '37', serial: '<b>0042</b>' }),
    makeEvent(2, { kind: 'answer', tree: 'psu-dead', node: 'fuse', value: '4.71V', question: 'Is the fuse whole?' }),
    makeEvent(3, { kind: 'note', text: 'taken back' }),
    makeEvent(4, { kind: 'undo', of: 'e3' }),
    makeEvent(5, { kind: 'repair', tree: 'psu-dead', cause: 'fuse-open', part: '[T 1 A](x)', tested: 'yes' }),
  ]);
  const { text, kinds } = readWith(writeJobMarkdown(job));

  it('holds unit, symptom, readings with their time, and repairs', () => {
    for (const part of [
      'Orrin 37',
      '# no *sound*',
      '<b>0042</b>',
      '2026-01-31 12:02',
      'Is the fuse whole?',
      '4.71V',
      '[T 1 A](x)',
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
});
