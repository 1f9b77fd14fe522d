import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { compileContent } from '#compiler/compile-content.ts';
import { type Edit, makeContent, openRail } from './make-content.ts';

/** Where a sentence is tried in the sample tree: the words that give way to it, and what the sample then needs. */
const places: Readonly<Record<string, { readonly from: string; readonly more?: readonly Edit[] }>> = {
  'powered check': { from: 'Read the rail at the farthest chip.' },
  'open powered check': {
    from: 'Read the rail at the farthest chip.',
    more: [openRail],
  },
  'unplugged check': { from: 'Look at the board.' },
  confirm: { from: 'Read its output.' },
  repair: { from: 'Fit the new one.' },
  prove: { from: 'Read the rail again.' },
};

interface Row {
  readonly place: string;
  readonly rule: string;
  readonly danger: string;
  readonly twin: string;
}

const [, ...lines] = readFileSync(new URL('dangerous-sentences.tsv', import.meta.url), 'utf8')
  .trimEnd()
  .split('\n');
const rows = lines.map((line): Row => {
  const [place = '', rule = '', danger = '', twin = ''] = line.split('\t');
  return { place, rule, danger, twin };
});

/** Rules that look for other things than danger: a twin may lack a caution that its words compel. */
const aside = new Set(['compelled-cautions', 'sentence-length', 'record-first', 'new-part-tested']);

function rulesOf({ place, words }: { place: string; words: string }): readonly string[] {
  const { from, more = [] } = places[place] ?? { from: `no place ${place}` };
  const { problems } = compileContent(makeContent([...more, { from, to: words }]));
  return problems.map(({ rule }) => rule).filter((rule) => !aside.has(rule));
}

describe('dangerous sentences', () => {
  it('are at least sixty, in every place where a reader is told to do something', () => {
    expect(rows.length).toBeGreaterThanOrEqual(60);
    expect(new Set(rows.map(({ place }) => place))).toEqual(new Set(Object.keys(places)));
  });

  it.each(rows)('refuses in a $place: $danger', ({ place, rule, danger }) => {
    expect(rulesOf({ place, words: danger })).toContain(rule);
  });

  it.each(rows.filter(({ twin }) => twin !== ''))('lets pass in a $place: $twin', ({ place, twin }) => {
    expect(rulesOf({ place, words: twin })).toEqual([]);
  });
});
