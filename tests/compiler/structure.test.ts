import { say } from '../support/say.ts';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { compileContent } from '#compiler/compile-content.ts';
import { compileTree } from '#compiler/compile-tree.ts';
import { inspectText } from '#compiler/inspect-text.ts';
import { printProblem } from '#compiler/reporters.ts';
import { makeContent, printSample, sampleFile, targetFile } from './make-content.ts';

const railWords = 'Read the rail at the farthest chip.';
const longExpression = "{(globalThis.process.getBuiltinModule('node:fs').writeFileSync('/tmp/x', 'ran'), 'x')}";

/** What is said of the sample tree, the first lines only, after words of the check `rail` (line 28) were replaced. */
function sayAfter(words: string): readonly string[] {
  return printSample([{ from: railWords, to: words }]).map((text) => text.split('\n')[0] ?? '');
}

function rulesAfter(from: string, to: string): readonly string[] {
  return compileContent(makeContent([{ from, to }])).problems.map(({ rule }) => rule);
}

describe('the syntax layer', () => {
  it('explains a `<` before a digit', () => {
    expect(printSample([{ from: railWords, to: 'Below <5 V it stops.' }])).toContain(
      `${sampleFile}:28:8 error Unexpected \`<\` before a digit, expected words.\n  Write \`below 5 …\` or \`&lt;5 …\`. [syntax]`,
    );
  });

  it.each([
    ['an expression in a sentence', 'Read {1 + 1} volts.', '30:6'],
    ['an expression on a line of its own', '{process.exit(1)}', '30:1'],
    ['an expression that writes a file', longExpression, '30:1'],
    ['an expression that begins with a comment', '{/* one */ process.exit(1)}', '30:1'],
    ['an expression hidden between two comments', '{/* */ process.exit(1) /* */}', '30:1'],
  ])('refuses %s', (_what, words, place) => {
    expect(sayAfter(`Read.\n\n${words}`)).toEqual([`${sampleFile}:${place} error Unexpected \`{\`, expected text.`]);
  });

  it.each([
    ['import', "import fs from 'node:fs'"],
    ['export', 'export const volts = 5'],
  ])('refuses %s', (what, words) => {
    expect(sayAfter(`Read the rail.\n\n${words}\n\nRead again.`)).toEqual([
      `${sampleFile}:30:1 error Unexpected line that begins like code (\`${what}\`), expected text.`,
    ]);
  });

  it('lets comments stand', () => {
    expect(sayAfter(`${railWords}\n\n{/* a comment */}`)).toEqual([]);
  });

  it('says where an element was left open', () => {
    const [first = '', ...rest] = printSample([
      { from: '<Confirm>\n\nRead it out', to: '<Confirm\n\nRead it out' },
    ]).filter((text) => text.startsWith(sampleFile));

    expect(first).toMatch(/^content\/trees\/power\/sample-tree\.mdx:\d+:\d+ error Unexpected /);
    expect(first).toMatch(/\[syntax\]$/);
    expect(rest).toEqual([]);
  });

  it.each([
    [
      'an element that is never closed, at the place where it was opened',
      '</Check>\n\n<Check id="rail"',
      '\n\n<Check id="rail"',
      '14:1 error Unexpected `<Check>` that is never closed, expected `</Check>` further down.',
    ],
    [
      'an element closed under another name',
      '<Check id="inside"',
      '<check id="inside"',
      '44:1 error Unexpected `</Check>`, expected `</check>` for the `<check>` of line 37.',
    ],
    ['a curly quote', 'to="rail"', 'to=“rail”', '18:24 error Unexpected “, expected a straight quote.'],
    [
      'a comment of HTML',
      railWords,
      '<!-- note --> Read.',
      '28:2 error Unexpected `<!`, expected text or an element.\n  A comment is written {/* like this */}. [syntax]',
    ],
    [
      'a second colon in a line of front matter',
      'summary: The five volt rail reads low or nothing.',
      'summary: Rail: low or nothing.',
      '4:10 error Unexpected a second colon in one line, expected one `field: value` a line.',
    ],
  ])('explains %s', (_what, from, to, message) => {
    const said = printSample([{ from, to }]).filter((text) => text.startsWith(sampleFile));

    expect(said).toHaveLength(1);
    expect(said[0]).toContain(`${sampleFile}:${message}`);
  });

  it('refuses an attribute without quotes at its place', () => {
    // `<Outcome when="yes" to=` is 23 characters long.
    const said = printSample([{ from: 'to="rail"', to: 'to=rail' }]).filter((text) => text.startsWith(sampleFile));

    expect(said).toHaveLength(1);
    expect(said[0]).toMatch(/^content\/trees\/power\/sample-tree\.mdx:18:24 error Unexpected /);
    expect(said[0]).toMatch(/quote every attribute\. \[syntax\]$/);
  });
});

describe('the structure layer', () => {
  it.each([
    [
      'an unknown element',
      '<script>alert(1)</script>',
      '28:1',
      'Unexpected element `<script>`, expected one of the elements of a tree.',
    ],
    ['raw HTML', '<b>Read</b>', '28:1', 'Unexpected element `<b>`, expected one of the elements of a tree.'],
    [
      'an element in a sentence',
      'Read <Caution use="mains" /> it.',
      '28:6',
      'Unexpected `<Caution>` in the middle of a sentence, expected it on lines of its own.',
    ],
    ['a heading', '# Read', '28:1', 'Unexpected heading, expected paragraphs, lists, emphasis or links.'],
    ['a picture', 'See ![x](/x.png) here.', '28:5', 'Unexpected image, expected paragraphs, lists, emphasis or links.'],
  ])('refuses %s', (_what, words, place, message) => {
    expect(sayAfter(words)).toContain(`${sampleFile}:${place} error ${message}`);
  });

  it.each([
    'javascript:alert(1)',
    'JaVaScRiPt:alert(1)',
    'data:text/html,x',
    '//host.example/x',
    'https://host.example/',
    '/\\host.example',
    'relative/page/',
    '?query',
    'mailto:a@host.example',
  ])('refuses a link to %s', (address) => {
    expect(rulesAfter(railWords, `See [this](<${address}>) first.`)).toEqual(['link-address']);
    expect(rulesAfter(railWords, `See **[this](<${address}>)** first.`)).toEqual(['link-address']);
  });

  it('lets a link to a page of the site stand', () => {
    expect(rulesAfter(railWords, 'See [this](/targets/rail-5v/#why) first.')).toEqual([]);
  });

  it.each([
    ['as a spread', 'to="rail" {...{}} />', '18:31'],
    ['as a value', 'to={"rail"} />', '18:21'],
  ])('refuses code among attributes, written %s', (_what, to, place) => {
    expect(printSample([{ from: 'to="rail" />', to }]).join('\n')).toContain(
      `${sampleFile}:${place} error Unexpected \`{\` in an element, expected an attribute in quotes.\n  Content is data: write name="value". [no-code]`,
    );
  });

  it('refuses an attribute without a value, written twice, unknown, or missing', () => {
    expect(rulesAfter('to="rail" />', 'to="rail" says />')).toContain('attribute-value');
    expect(rulesAfter('to="rail" />', 'to="rail" to="inside" />')).toContain('attribute-twice');
    expect(rulesAfter('to="rail" />', 'to="rail" onclick="x" />')).toContain('unknown-attribute');
    expect(rulesAfter('when="yes" to="rail"', 'when="yes"')).toContain('missing-attribute');
  });

  it('points from a second node of one id to the first', () => {
    expect(printSample([{ from: '<Check id="inside"', to: '<Check id="rail"' }])).toContain(
      `${sampleFile}:37:8 error Unexpected second node \`rail\`, expected each id once in a tree.\n  Rename one of the two. [duplicate-id]\n  see ${sampleFile}:23:1 (the first one)`,
    );
  });

  it.each([
    'unit',
    'with',
    'did',
    'in',
    'symptom',
    'end',
    'ask',
    'not-listed',
    'rework',
    'unseen',
    'low',
    'high',
    'none',
    'reversed',
    'sometimes',
  ])('keeps the id %s for the address and the bands', (id) => {
    expect(sayAfter('Look.')).toEqual([]);
    expect(printSample([{ from: '<Cause id="socket-worn"', to: `<Cause id="${id}"` }])[0]).toMatch(
      new RegExp(`^content/trees/power/sample-tree\\.mdx:120:8 error Unexpected id \`${id}\`, expected a name`),
    );
  });

  it.each(['Socket', 'socket--worn', '-socket', 'socket_worn', 'söckel', 'a'.repeat(25)])('refuses the id %s', (id) => {
    expect(rulesAfter('<Cause id="socket-worn"', `<Cause id="${id}"`)).toContain('id-shape');
  });

  it.each(['__proto__', 'constructor', 'toString', 'hasOwnProperty'])(
    'takes %s for an unknown field and an unknown element',
    (name) => {
      expect(rulesAfter('was: [old-sample]', `${name}: { polluted: 'yes' }`).length).toBeGreaterThan(0);
      expect(rulesAfter(railWords, `<${name} />`)).toContain('unknown-element');
      expect(Object.hasOwn(Object.prototype, 'polluted')).toBe(false);
      expect(Reflect.get({}, 'polluted')).toBeUndefined();
    },
  );

  it('takes a one-line element for the same as one on lines of its own', () => {
    const oneLine = compileContent(makeContent()).library.trees;
    const spread = compileContent(
      makeContent([
        {
          from: '<Prove minutes="3">Put it back, use it for an hour and read again.</Prove>',
          to: '<Prove minutes="3">\n\nPut it back, use it for an hour and read again.\n\n</Prove>',
        },
      ]),
    ).library.trees;
    const cause = oneLine.get('sample-tree')?.nodes.find(({ id }) => id === 'fuse-open');

    expect(cause).toMatchObject({
      prove: { minutes: 3, prose: say('Put it back, use it for an hour and read again.'), targets: [] },
    });
    expect(spread).toEqual(oneLine);
  });

  it('refuses text and parts that stand outside a node', () => {
    expect(rulesAfter('<Check id="inside"', 'Some words.\n\n<Check id="inside"')).toContain('prose-outside-node');
    expect(rulesAfter('<Check id="inside"', '<Prove minutes="1">Read.</Prove>\n\n<Check id="inside"')).toContain(
      'element-place',
    );
  });

  it('collects every problem of the layer, in the order of the file', () => {
    const { problems } = compileContent(
      makeContent([
        { from: 'minutes="1" power="off"', to: 'minutes="one" power="off"' },
        { from: railWords, to: 'See [this](javascript:x).' },
        { from: 'because="licensed"', to: 'because="lazy"' },
      ]),
    );
    const ofTree = problems.filter(({ file }) => file === sampleFile);

    expect(ofTree.map(({ rule }) => rule)).toEqual(['number-shape', 'link-address', 'attribute-choice']);
    expect(ofTree.map(({ position }) => (position === 'unavailable' ? 0 : position.line))).toEqual([14, 28, 148]);
  });
});

describe('front matter', () => {
  it('is asked for where it is missing', () => {
    expect(compileTree('Words only.\n', sampleFile).problems.map(printProblem)[0]).toBe(
      `${sampleFile}:1:1 error Unexpected start of the file, expected front matter between two lines of \`---\`.\n  Begin with ---, the fields, then ---. [front-matter]`,
    );
  });

  it('reports broken YAML at its line', () => {
    const said = printSample([{ from: 'hazards: [static, mains]', to: 'hazards: [static, mains' }]).filter((text) =>
      text.includes('[yaml-syntax]'),
    );

    expect(said.length).toBeGreaterThan(0);
    expect(said[0]).toMatch(/^content\/trees\/power\/sample-tree\.mdx:(9|10):\d+ error Unexpected YAML: /);
  });

  it('reports a key that stands twice, a field nobody knows and one that is missing', () => {
    expect(rulesAfter('was: [old-sample]', 'title: Again')).toContain('yaml-syntax');
    expect(printSample([{ from: 'was: [old-sample]', to: 'wass: [old-sample]' }]).join('\n')).toContain(
      `${sampleFile}:11:1 error Unexpected field \`wass\``,
    );
    expect(rulesAfter('summary: The five volt rail reads low or nothing.\n', '')).toContain('missing-field');
  });

  it('reports every field that does not fit, not only the first', () => {
    expect(
      rulesAfter('block: power\nsummary: The five volt rail reads low or nothing.', 'block: Power\nsummary: 7').slice(
        0,
        2,
      ),
    ).toEqual(['field-value', 'field-value']);
  });

  it('does not unfold a bomb of aliases', () => {
    const levels = Array.from(
      { length: 9 },
      (_, level) =>
        `a${level}: &a${level} [${
          level === 0
            ? 'x'
            : Array(9)
                .fill(`*a${level - 1}`)
                .join(',')
        }]`,
    );

    expect(rulesAfter('was: [old-sample]', levels.join('\n'))).toEqual(['yaml-syntax']);
  });
});

describe('the limits of a target', () => {
  const rulesOfTarget = (from: string, to: string): readonly string[] =>
    compileContent(makeContent([{ file: targetFile, from, to }]))
      .problems.filter(({ file }) => file === targetFile)
      .map(({ rule }) => rule);

  it('rise from none over low to high, with the nominal between', () => {
    expect(rulesOfTarget('low: 4.75', 'low: 5.5')).toEqual(['limit-order']);
    expect(rulesOfTarget('nominal: 5\n', 'nominal: 6\n')).toEqual(['limit-order']);
    expect(rulesOfTarget('none: 0.5', 'none: 4.75')).toEqual(['limit-order']);
    expect(rulesOfTarget('none: 0.5\n', '')).toEqual([]);
  });

  it('share their edges when bands are written, and exactly one is healthy', () => {
    const limits = 'none: 0.5\nlow: 4.75\nnominal: 5\nhigh: 5.25';

    expect(
      rulesOfTarget(limits, 'bands: [{ name: dead, to: 1 }, { name: in, from: 1, to: 2 }, { name: hot, from: 2 }]'),
    ).toEqual([]);
    expect(rulesOfTarget(limits, 'bands: [{ name: dead, to: 1 }, { name: in, from: 1.5 }]')).toEqual(['limit-order']);
    expect(rulesOfTarget(limits, 'bands: [{ name: dead, to: 1 }, { name: hot, from: 1 }]')).toEqual(['limit-order']);
    expect(rulesOfTarget(limits, 'low: 1\nbands: [{ name: in, from: 1 }]')).toEqual(['limit-order']);
  });
});

describe('any text at all', () => {
  it('is read without throwing, and every problem has words and a way out', () => {
    const piece = fc.constantFrom(
      ...[
        '<',
        '>',
        '{',
        '}',
        '/',
        '"',
        '---\n',
        '\n\n',
        '<Check ',
        'id="a"',
        '</Check>',
        '<Caution use="mains" />',
        '`',
        '[x](y)',
        '# ',
        '- ',
        '{...',
        'import x',
        'é',
        '\u0000',
      ],
    );
    fc.assert(
      fc.property(fc.array(fc.oneof(piece, fc.string()), { maxLength: 30 }), (pieces) => {
        for (const { message, help, file } of compileTree(pieces.join(''), sampleFile).problems) {
          expect(file).toBe(sampleFile);
          expect(message).not.toBe('');
          expect(help).not.toBe('');
        }
      }),
      { numRuns: 300 },
    );
  });
});

describe('a line that begins like code again and again', () => {
  it.each(['>export type/*', '>export type x/*', '>export as x/*', '>import x,/*', 'import/*>', '>import/*', '\u200B'])(
    'is answered in a moment, with twenty findings at most: %j',
    (piece) => {
      const text = piece.repeat(Math.ceil(190_000 / piece.length));
      // Of the processor, so that other programs do not count.
      const start = process.cpuUsage();
      const found = inspectText(text);

      expect(process.cpuUsage(start).user / 1000).toBeLessThan(3_000);
      expect(found).toHaveLength(20);
    },
  );
});
