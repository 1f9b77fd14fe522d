import { listParagraphs } from '#core/model/prose.ts';
import { Parser } from 'commonmark';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { compileTree } from '#compiler/compile-tree.ts';
import {
  draftFromRepair,
  escapeProse,
  fileOfDraft,
  postAsBbcode,
  postAsMarkdown,
  readRepairSeed,
  type RepairSeed,
  slugOfDraft,
} from '#core/post/draft.ts';
import { hostileTrees } from '../../support/hostile-trees.ts';

const file = 'content/trees/power/repair.mdx';
const repair: RepairSeed = {
  title: 'Pilot lamp dim',
  symptom: 'The lamp glows and the display stays dark',
  steps: [
    { title: 'Is the brick warm?', said: 'cold' },
    { title: '5 V at the chip?', said: '3.9 V <5 V' },
  ],
  cause: 'Reservoir capacitor dried out',
  repair: 'Fitted a new one, 1000 µF {16 V}',
  proof: '5.02 V after 10 minutes',
};
/** What a person may write: ASCII with all its signs, letters of European names, Greek in units. It stays as it is, whatever it looks like. */
const legal = fc.oneof(
  fc.string({ unit: 'grapheme-ascii', maxLength: 200 }),
  fc
    .array(
      fc.oneof(
        fc.string({ unit: 'grapheme-ascii', minLength: 1, maxLength: 12 }),
        fc.string({ unit: fc.constantFrom(...'abzäöüßéèçñåøžœÄÉ'), minLength: 1, maxLength: 12 }),
        fc.constantFrom('kΩ', 'µF', 'ΔV', 'π', '±', '°C', '½', '²', '→', '…', '“', '”', '’', '🔧'),
      ),
      { maxLength: 20 },
    )
    .map((words) => words.join(' ')),
  fc
    .array(
      fc.constantFrom(
        'import ',
        'export ',
        '<b>',
        '{',
        '}',
        '</Check>',
        '[a](javascript:1)',
        '---',
        '\n',
        '#',
        '*',
        '1. ',
        '- ',
        '> ',
        '`',
        '&lt;',
        '\\',
        '"',
        '/>',
        '~~~',
        '| a |',
        '!',
        'www.evil.invalid',
      ),
      { maxLength: 12 },
    )
    .map((parts) => parts.join('')),
);
/** Letters of any script, marks that nobody sees, halves of characters: what no file may hold. */
const hostile = fc.oneof(
  fc.string({ unit: 'binary', maxLength: 200 }),
  fc.string({ unit: 'grapheme', maxLength: 200 }),
  fc
    .tuple(legal, fc.constantFrom('\u200b', '\u202e', '\u2028', '\ud800', 'а', 'ｉ'), legal)
    .map((parts) => parts.join('')),
);
const seedsOf = (words: fc.Arbitrary<string>): fc.Arbitrary<RepairSeed> =>
  fc.record({
    title: words,
    symptom: words,
    steps: fc.array(fc.record({ title: words, said: words }), { minLength: 1, maxLength: 4 }),
    cause: words,
    repair: words,
    proof: words,
  });

/**
 * The structure holds, or nothing is made of the draft but what is said of its words: too many marks in a row to be read at all
 * (`too-large`), or one of `mayBeSaid` besides.
 */
function expectSound(seed: RepairSeed, mayBeSaid: readonly string[] = []): void {
  const { tree, problems } = compileTree(draftFromRepair(seed, '2026-11-30'), file);
  expect(problems.filter(({ rule }) => ![...mayBeSaid, 'too-large'].includes(rule))).toEqual([]);
  if (problems.length > 0) return;
  expect(tree?.nodes.map(({ kind }) => kind)).toEqual([...seed.steps.map(() => 'check'), 'cause', 'hand-over']);
}

describe('a tree begun from a finished repair', () => {
  it('has its checks in their order, its cause, and a way out of each check for anything else', () => {
    const { tree, problems } = compileTree(draftFromRepair(repair, '2026-11-30'), file);

    expect(problems).toEqual([]);
    expect(tree?.title).toBe('Pilot lamp dim');
    expect(tree?.since).toBe('2026-11-30');
    expect(tree?.nodes.map(({ title }) => title)).toEqual([
      'Is the brick warm?',
      '5 V at the chip?',
      'Reservoir capacitor dried out',
      'Another fault than the one of this repair',
    ]);
    const [first, second, cause] = tree?.nodes ?? [];
    expect(first?.kind === 'check' && first.outcomes.map(({ to }) => to)).toEqual(['step-2', 'not-this']);
    expect(second?.kind === 'check' && second.outcomes[0]).toEqual({
      when: ['as-here'],
      to: 'found-cause',
      says: '3.9 V <5 V',
      without: [],
      supply: [],
    });
    expect(cause?.kind === 'cause' && listParagraphs(cause.repair?.prose ?? [])).toEqual([
      'Fitted a new one, 1000 µF {16 V}',
    ]);
  });

  it('stays words whatever the words are', () => {
    fc.assert(
      fc.property(seedsOf(legal), (seed) => expectSound(seed)),
      { numRuns: 200 },
    );
  });

  it.each(['> import x from "y"', '} export { a', '- "import { a }', '5) export default'])(
    'stays words where they begin like code behind signs: %s',
    (words) => {
      const said = { title: words, symptom: words, cause: words, repair: words, proof: words };
      expectSound({ ...said, steps: [{ title: words, said: words }] });
    },
  );

  it('is refused for its characters alone where they are foreign or not seen', () => {
    fc.assert(
      fc.property(seedsOf(hostile), (seed) => expectSound(seed, ['other-script', 'hidden-character'])),
      { numRuns: 100 },
    );
  });

  it('stays words where the words are a hostile file', () => {
    for (const { text } of hostileTrees) {
      const seed = readRepairSeed(
        JSON.stringify({ ...repair, title: text, cause: text, proof: text, steps: [{ title: text, said: text }] }),
      );
      if (seed === undefined) throw new Error('A repair of that shape is read.');
      expectSound(seed, ['other-script', 'hidden-character']);
    }
  });
});

describe('prose that was escaped', () => {
  it('is read as the same words', () => {
    fc.assert(
      fc.property(legal, (text) => {
        const words = text
          .toWellFormed()
          .replace(/[\s\p{Cc}\u2028\u2029\ufeff\ufffe\uffff]+/gu, ' ')
          .trim();
        const tree = `---\ntitle: T\nblock: power\nsummary: S\nsymptoms: [a, b, c]\n---\n\n<HandOver id="end-here" title="T" because="licensed">\n\n  ${escapeProse(text)}\n</HandOver>\n`;
        const compiled = compileTree(tree, file);
        fc.pre(words !== '');
        expect(compiled.problems).toEqual([]);
        expect(listParagraphs(compiled.tree?.nodes[0]?.prose ?? [])).toEqual([words]);
      }),
      { numRuns: 300 },
    );
  });
});

describe('a repair handed over by another page', () => {
  it('comes back as it was', () => {
    expect(readRepairSeed(JSON.stringify(repair))).toEqual(repair);
  });

  it.each([
    '',
    'null',
    '[]',
    '{}',
    '{"title":1}',
    '{"title":"a","symptom":"b","steps":{"length":9}}',
    '{"__proto__":{"title":"a"}}',
  ])('is refused where it is not of that shape: %s', (text) => {
    expect(readRepairSeed(text)).toBeUndefined();
  });

  it('is cut to what a tree can begin from', () => {
    const seed = readRepairSeed(
      JSON.stringify({
        title: 'a'.repeat(9_000),
        symptom: 'b',
        steps: Array.from({ length: 500 }, () => ({ title: 'c', said: 1 })),
      }),
    );

    expect(seed?.title).toHaveLength(1_000);
    expect(seed?.steps).toHaveLength(40);
    expect(seed?.proof).toBe('');
  });
});

describe('the place of a draft', () => {
  it('is the folder of its block', () => {
    expect(fileOfDraft('---\ntitle: T\nblock: power\n---\n', 'no-sound')).toBe('content/trees/power/no-sound.mdx');
    expect(fileOfDraft("---\r\nblock: 'cpu-bus'\r\n", 'no-sound')).toBe('content/trees/cpu-bus/no-sound.mdx');
  });

  it.each(['', 'block:', 'block: ../../etc', 'block: <script>'])(
    'is named as missing where there is no block: %s',
    (text) => {
      expect(fileOfDraft(text, 'no-sound')).toBe('content/trees/no-block-yet/no-sound.mdx');
    },
  );

  it.each([
    [' No-Sound ', 'no-sound'],
    ['../up', 'untitled'],
    ['a--b', 'untitled'],
    ['', 'untitled'],
    ['x'.repeat(41), 'untitled'],
  ])('takes %j as the name %s', (typed, slug) => {
    expect(slugOfDraft(typed)).toBe(slug);
  });
});

describe('a draft in a post', () => {
  it.each(['plain\n', 'a ``` fence\n', `${'`'.repeat(9)}\n`, 'no end of line'])(
    'is one block of code for a reader of Markdown, whatever ticks it holds: %j',
    (text) => {
      const walker = new Parser().parse(postAsMarkdown(text, 'content/trees/power/a.mdx')).walker();
      const blocks: (string | null)[] = [];
      for (let event = walker.next(); event !== null; event = walker.next()) {
        if (event.node.type === 'code_block') blocks.push(event.node.literal);
      }

      expect(blocks).toEqual([text.replace(/\n?$/u, '\n')]);
    },
  );

  it('is code in BBCode, and says that it cannot be where the text would end it', () => {
    expect(postAsBbcode('a\n', 'f.mdx')).toBe('f.mdx\n[code]\na\n[/code]\n');
    expect(postAsBbcode('a [/CODE] b', 'f.mdx')).toBeUndefined();
  });
});
