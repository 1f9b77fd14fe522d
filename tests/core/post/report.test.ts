import bbobHtml from '@bbob/html';
import bbobPreset from '@bbob/preset-html5';
import { HtmlRenderer, Parser } from 'commonmark';
import fc from 'fast-check';
import { JSDOM } from 'jsdom';
import { describe, expect, it } from 'vitest';
import { loadLibrary } from '#build/library.ts';
import type { AssessedCause } from '#core/diagnosis/tree/assess-tree.ts';
import type { BenchTree } from '#core/answer/bench-tree.ts';
import { parseLinkState } from '#core/link/fragment.ts';
import { makeTreeMap } from '#core/link/make-tree-map.ts';
import { namesOf } from '#core/link/tree-map.ts';
import { cleanText, type PostFormat } from '#core/post/blocks.ts';
import { type DiagnosisReport, findStanding, makeReport, type ReportFrame, writePost } from '#core/post/report.ts';
import { makeCause, makeCheck, makePath, makeTree } from '../../arbitraries/make-tree.ts';
import { makeTarget } from '../../support/make-target.ts';

// Posts are rendered by parsers that are not ours: @bbob (BBCode) and commonmark (the reference implementation of CommonMark),
// then read as a browser would, by jsdom.
const link = 'https://halfsplit.example/trees/psu-5v-low/trough/#unit=quillon-44&rail-bare=4.71V&did=fuse,lead';
const plain: DiagnosisReport = {
  title: '5 V rail reads low',
  unit: 'Merrow bench supply',
  symptom: 'dim lamp',
  question: '',
  lines: [
    { title: '5 V at the farthest chip?', said: '4.71 V', target: '4.75 to 5.25 V', verdict: 'Low.' },
    { title: 'Does it hum?', said: 'Yes', target: undefined, verdict: undefined },
  ],
  end: { kind: 'open', titles: ['Reservoir dried out', 'Regulator tired'] },
  did: [],
  asked: [],
  cautions: [
    { severity: 'notice', title: 'Static', line: 'Touch bare metal first.' },
    { severity: 'danger', title: 'Mains inside', line: 'Parts of this unit can kill.' },
    { severity: 'caution', title: 'Hot parts', line: 'Let it cool.' },
  ],
  notes: '',
  site: 'Halfsplit',
  link,
};

const render: Readonly<Record<Exclude<PostFormat, 'plain'>, (post: string) => string>> = {
  bbcode: (post) => bbobHtml(post, bbobPreset()),
  commonmark: (post) => new HtmlRenderer().render(new Parser().parse(post)),
};
const markups = ['bbcode', 'commonmark'] as const;

function read(report: DiagnosisReport, format: (typeof markups)[number]): DocumentFragment {
  return JSDOM.fragment(render[format](writePost(report, format)));
}

/** Names of all elements, in order: what the post is built of. */
function skeletonOf(fragment: DocumentFragment): readonly string[] {
  return [...fragment.querySelectorAll('*')].map(({ localName }) => localName);
}

/** Text as a reader sees it, white space run together. */
function textOf(node: ParentNode & Node): string {
  return (node.textContent ?? '').replace(/\s+/gu, ' ').trim();
}

describe.each(markups)('a post in %s, rendered by a foreign parser', (format) => {
  it('says unit, symptom, each reading with target and verdict, what is open, cautions, and the link', () => {
    const fragment = read(plain, format);
    const items = [...fragment.querySelectorAll('li')].map(textOf);

    expect(textOf(fragment)).toContain('Unit: Merrow bench supply');
    expect(textOf(fragment)).toContain('Symptom: dim lamp');
    expect(items).toEqual([
      '5 V at the farthest chip? 4.71 V (healthy: 4.75 to 5.25 V) Low.',
      'Does it hum? Yes',
      'Reservoir dried out',
      'Regulator tired',
    ]);
    expect([...fragment.querySelectorAll('a')].map(({ href }) => href)).toEqual([link]);
    expect(textOf(fragment).endsWith(`The whole diagnosis, on Halfsplit: ${link}`)).toBe(true);
  });

  it('tells cautions in two lines: what can hurt a person first and with what to do, the rest by its titles', () => {
    const said = textOf(read(plain, format));

    expect(said).toContain('Before you go on: Danger: Parts of this unit can kill.');
    expect(said).toContain('Also: Hot parts; Static. Open the page of a step to read them in full.');
    expect(said).not.toMatch(/Touch bare metal|Let it cool/u);
    expect(textOf(read({ ...plain, cautions: [] }, format))).not.toMatch(/Before you go on|says all of it/u);
  });

  it.each([
    [{}, 'What would you check next?'],
    [{ lines: [] }, 'Where would you begin?'],
    [{ end: { kind: 'cause', title: 'Fuse open' } }, 'Does anything speak against this cause?'],
    [{ end: { kind: 'other', title: 'Hand it over' } }, 'What would you do next?'],
    [{ asked: ['Does it hum?'] }, 'Please do this check and post what you find.'],
    [{ asked: ['Does it hum?', 'Is it hot?'] }, 'Please do these 2 checks and post what you find.'],
    [{ question: 'Is 4.71 V good enough?' }, 'Is 4.71 V good enough?'],
  ] as const)('says in one sentence what is wanted: %j', (given, question) => {
    expect(textOf(read({ ...plain, ...given }, format))).toContain(`Question: ${question}`);
  });

  it('names the cause where there is one', () => {
    expect(textOf(read({ ...plain, end: { kind: 'cause', title: 'Fuse open' } }, format))).toContain(
      'Points to: Fuse open',
    );
  });

  it('names the checks that are asked for', () => {
    expect(textOf(read({ ...plain, asked: ['Does it hum?'] }, format))).toContain('Please check: Does it hum?');
  });
});

const hostile: readonly (readonly [name: string, text: string])[] = [
  ['a BBCode link', '[url=https://trap.example]click[/url]'],
  ['a BBCode picture', '[img]https://trap.example/x.png[/img]'],
  ['an open tag', '[b][size=200][list][*]x'],
  ['a closing tag', 'x[/list][/b]'],
  ['code', '[code]x[/code] `y` ```z'],
  ['an HTML picture', '<img src=x onerror=alert(1)>'],
  ['a script', '</p><script>alert(1)</script>'],
  ['an HTML comment', '<!-- gone --> <![CDATA[x]]> <?x?>'],
  ['a Markdown link', '[click](https://trap.example "x")'],
  ['a reference', '[x]: https://trap.example\n\n[x]'],
  ['a Markdown picture', '![x](https://trap.example/x.png)'],
  ['an autolink', '<https://trap.example> <a@trap.example>'],
  ['emphasis', '**x** _y_ ***z*** __w__ *'],
  ['a heading', '# x'],
  ['an underlined heading', 'x\n==='],
  ['a rule', '---'],
  ['a list', '- x\n1. y\n2) z\n+ w'],
  ['a number at the start', '1. x'],
  ['a quotation', '> x'],
  ['a fence', '~~~\nx\n~~~'],
  ['an indented block', '\n\n        x'],
  ['a table', '| a | b |\n|---|---|\n| 1 | 2 |'],
  ['an entity', '&lt;b&gt; &#60;b&#62; &amp;amp; &copy; a & b'],
  ['backslashes', '\\[x\\] \\\\ \\* \\'],
  ['new lines of all kinds', 'a\nb\r\nc\u2028d\u2029e\u0085f\vg'],
  ['text turned round', 'abc \u202Egnp.exe\u202C \u2066x\u2069 \u200Fy'],
  ['what cannot be seen', 'a\u200Bb\u00ADc\uFEFFd\u{E0041}e\u2060f'],
  ['half a letter', 'a\ud800b'],
  ['control signs', 'a\u0000b\u001b[31mc\u007f'],
];

/** Every place of a report where a person's own words, or words from elsewhere, may stand. */
function fill(text: string): DiagnosisReport {
  return {
    title: `T ${text}`,
    unit: text,
    symptom: text,
    question: text,
    site: 'Halfsplit',
    lines: [
      { title: text, said: `S ${text}`, target: `G ${text}`, verdict: `V ${text}` },
      { title: 'Next', said: 'Yes', target: undefined, verdict: undefined },
    ],
    end: { kind: 'open', titles: [`A ${text}`, `B ${text}`] },
    did: [`D ${text}`],
    asked: [`Q ${text}`],
    cautions: [
      { severity: 'danger', title: `C ${text}`, line: text },
      { severity: 'notice', title: `N ${text}`, line: text },
    ],
    notes: text,
    link,
  };
}

const harmless = 'nothing but words';

/** The text as BBCode must carry it: it knows no escapes. */
function shownIn(format: PostFormat, text: string): string {
  const line = cleanText(text, 1000);
  if (format !== 'bbcode') return line;
  const likes: Readonly<Record<string, string>> = { '[': '(', ']': ')', '<': '‹', '>': '›', '*': '∗' };
  return line.replace(/[[\]<>*]/gu, (sign) => likes[sign] ?? sign).replace(/&(?=#?\w+;)/gu, '＆');
}

function expectHarmless(text: string, format: (typeof markups)[number]): void {
  const fragment = read(fill(text), format);
  const shown = shownIn(format, text).replace(/\s+/gu, ' ').trim();

  expect(skeletonOf(fragment)).toEqual(skeletonOf(read(fill(harmless), format)));
  expect([...fragment.querySelectorAll('a')].map(({ href }) => href)).toEqual([link]);
  expect([...fragment.querySelectorAll('*')].flatMap((element) => element.getAttributeNames())).toEqual(
    [...read(fill(harmless), format).querySelectorAll('*')].flatMap((element) => element.getAttributeNames()),
  );
  expect(textOf(fragment)).toContain(`Unit: ${shown}`);
  expect(textOf(fragment)).toContain(`Notes: ${shown}`);
}

describe.each(markups)('hostile words in a post in %s', (format) => {
  it.each(hostile)('stay words: %s', (_name, text) => {
    expectHarmless(text, format);
  });

  it('stay words, whatever they are', () => {
    const pieces = fc.constantFrom(
      ...[
        '[',
        ']',
        '(',
        ')',
        '<',
        '>',
        '*',
        '_',
        '`',
        '~',
        '#',
        '-',
        '+',
        '1.',
        '|',
        '\\',
        '!',
        '&',
        ';',
        '"',
        "'",
        '=',
      ],
      ...[
        '[url]',
        '[/url]',
        '[img]',
        '[*]',
        '[/list]',
        '<b>',
        '</p>',
        '<!--',
        '-->',
        '](',
        '![',
        '://',
        'http',
        'www.',
      ],
      ...['@name', '\n', '\r\n', '\t', ' ', '\u202E', '\u2028', '\ud800', '&lt;', '&#60;', 'x', 'y', '🔥', '\u200d'],
    );
    const text = fc.oneof(
      fc.array(pieces, { minLength: 1, maxLength: 30 }).map((parts) => parts.join('')),
      fc.string({ unit: 'binary', maxLength: 200 }),
    );
    fc.assert(
      fc.property(
        text.filter((words) => cleanText(words, 1000) !== ''),
        (words) => expectHarmless(words, format),
      ),
      { numRuns: 400 },
    );
  });
});

describe.each(['bbcode', 'commonmark', 'plain'] as const)('every post in %s', (format) => {
  it.each(hostile)('holds no control or direction sign and no more lines than a plain one: %s', (_name, text) => {
    const post = writePost(fill(text), format);

    // Unicode 17, table of bidirectional formatting characters (UAX #9, section 2).
    expect(post).not.toMatch(/[\u061C\u200E\u200F\u202A-\u202E\u2066-\u2069\u200B\u00AD\uFEFF\u2028\u2029]/u);
    expect(post.replaceAll('\n', '')).not.toMatch(/\p{Cc}/u);
    expect(post.isWellFormed()).toBe(true);
    expect(post.split('\n')).toHaveLength(writePost(fill(harmless), format).split('\n').length);
  });

  it('shortens endless words', () => {
    expect(writePost(fill('x'.repeat(100_000)), format).length).toBeLessThan(20_000);
  });

  it.each([
    'javascript:alert(1)',
    'data:text/html,x',
    'https://x.example/[url]',
    'https://x.example/ y',
    'ftp://x/y',
    '',
  ])('leaves out an address that is none of ours: %s', (address) => {
    const post = writePost({ ...plain, link: address }, format);

    expect(post).not.toContain('[url]');
    expect(post).toBe(writePost({ ...plain, link: '' }, format));
  });
});

describe('words that units make links or calls of', () => {
  it.each([
    ['https://trap.example', 'https: //trap.example'],
    ['see www.trap.example', 'see www .trap.example'],
    ['@someone look', '@ someone look'],
    ['2 V @ 1 A', '2 V @ 1 A'],
  ])('are pulled apart: %s', (text, shown) => {
    expect(cleanText(text, 80)).toBe(shown);
  });
});

const rail = makeTarget({ slug: 'rail' });
const at = { target: 'rail', point: undefined };
const tree = makeTree([
  makeCheck('lamp', { yes: 'chip', no: 'fuse-open' }, { title: 'Does the lamp light?' }),
  makeCheck('chip', { 'none low': 'follow', in: 'worn', high: 'worn' }, { title: '5 V at the chip?', target: at }),
  makePath('follow', { 'input leg': 'fuse-open', 'output leg': 'regulator-open' }, 'worn', { title: 'Follow it' }),
  makeCause('fuse-open', { title: 'Fuse open' }),
  makeCause('regulator-open', { title: 'Regulator open' }),
  makeCause('worn', { title: 'Socket worn' }),
]);
const names = namesOf(makeTreeMap(tree, ['clock-dead'], []));

const bench: BenchTree = {
  tree,
  references: { targets: new Map([['rail', rail]]), instrumentClasses: loadLibrary().instrumentClasses },
  limits: {},
};
const frame: ReportFrame = {
  unit: '',
  symptom: '',
  question: '',
  notes: '',
  cautions: [],
  site: 'Halfsplit',
  link: '',
};

const causes: readonly AssessedCause[] = [
  { id: 'worn', title: 'Socket worn', probability: 0.7, words: 'most likely' },
  { id: 'not-listed', title: 'Something not listed here', probability: 0.2, words: 'likely' },
  { id: 'fuse-open', title: 'Fuse open', probability: 0.096, words: 'possible' },
  // Below one in two hundred: ruled out.
  { id: 'regulator-open', title: 'Regulator open', probability: 0.004, words: 'unlikely' },
];

function reportOf(fragment: string, node?: string, on: BenchTree = bench) {
  return makeReport({ bench: on, state: parseLinkState(fragment, names).state, node, causes }, frame);
}

// Verdicts follow from 4.75 to 5.25 V by hand: a multimeter of ±(0.5 % + 3 digits) or better is never 0.25 V off at 4 or 5 V.
describe('a line of a report', () => {
  it.each([
    ['chip=4.21V', { said: '4.21\u00a0V', target: '4.75 to 5.25\u00a0V', verdict: 'Low.' }],
    ['chip=5.00V', { said: '5.00\u00a0V', target: '4.75 to 5.25\u00a0V', verdict: 'In range.' }],
    [
      'chip=4.75V',
      { said: '4.75\u00a0V', target: '4.75 to 5.25\u00a0V', verdict: 'Too close to call: low or in range.' },
    ],
    ['chip=low', { said: 'Nothing there or Low', target: '4.75 to 5.25\u00a0V', verdict: undefined }],
    ['chip=47kohm', { said: '47kohm', target: '4.75 to 5.25\u00a0V', verdict: 'Does not fit this target.' }],
    ['lamp=yes', { said: 'Yes', target: undefined, verdict: undefined }],
    ['lamp=dim', { said: 'Dim', target: undefined, verdict: undefined }],
    ['follow/stage-1=bad', { title: 'Follow it: output leg', said: 'First bad here', verdict: undefined }],
    ['follow/gone=bad', { title: 'Follow it: gone', said: 'First bad here', verdict: undefined }],
    ['follow=good', { title: 'Follow it', said: 'Good' }],
    ['chip=low,4.74V', { said: 'Nothing there or Low (read 4.74\u00a0V)', verdict: undefined }],
    ['chip=4.9V,0.1V,5V', { said: '4.9\u00a0V, 0.1\u00a0V, 5\u00a0V', verdict: undefined }],
    ['chip=3-of-8', { said: '3 of 8 times' }],
    ['with=analogue-20k&chip=4.71V', { said: '4.71\u00a0V', verdict: 'Too close to call: low or in range.' }],
    ['clock-dead/the-beat=no', { title: 'clock dead: the beat', said: 'No' }],
  ])('%s', (fragment, expected) => {
    expect(reportOf(fragment).lines.at(-1)).toMatchObject(expected);
  });
});

describe('where a report says the diagnosis stands', () => {
  it('is the cause whose page it is', () => {
    expect(reportOf('lamp=no', 'fuse-open').end).toEqual({ kind: 'cause', title: 'Fuse open' });
  });

  it('is every cause that the engine has not ruled out, the likeliest first, and nothing that is no cause of the tree', () => {
    expect(reportOf('lamp=yes&chip=low', 'follow').end).toEqual({
      kind: 'open',
      titles: ['Socket worn', 'Fuse open'],
    });
  });

  it.each([
    ['', 'lamp'],
    ['lamp=yes', 'chip'],
    ['lamp=yes&chip=low', 'follow'],
    ['lamp=yes&chip=low&follow/stage-0=bad', 'fuse-open'],
    ['lamp=yes&chip=4.21V', 'follow'],
    ['lamp=yes&chip=4.75V', 'chip'],
    ['lamp=yes&chip=5.00V', 'worn'],
    ['lamp=yes&clock-dead/beat=no', 'chip'],
  ])('is found from the answers on the page of the tree: "%s"', (fragment, standing) => {
    expect(findStanding(bench, parseLinkState(fragment, names).state)).toBe(standing);
  });
});

describe('a report', () => {
  it('judges by the limits of the board on the bench', () => {
    const own: BenchTree = { ...bench, limits: { rail: { low: 4, nominal: 4.3, high: 4.5 } } };

    expect(reportOf('chip=4.21V', undefined, own).lines[0]).toMatchObject({
      target: '4 to 4.5\u00a0V',
      verdict: 'In range.',
    });
  });

  it('names repairs that did not cure and checks that are asked for by their titles', () => {
    expect(reportOf('did=fuse-open,worn&ask=lamp,follow')).toMatchObject({
      did: ['Fuse open', 'Socket worn'],
      asked: ['Does the lamp light?', 'Follow it'],
    });
  });

  it('calls an answer of another tree by that tree’s titles and words, and judges it by its limits', () => {
    const other: BenchTree = { ...bench, tree: { ...tree, slug: 'clock-dead', title: 'No clock' } };
    const { state } = parseLinkState('clock-dead/chip=4.21V&clock-dead/lamp=no', names);
    const { lines } = makeReport(
      { bench, others: new Map([['clock-dead', other]]), state, node: undefined, causes },
      frame,
    );

    expect(lines).toMatchObject([
      { title: '5 V at the chip? (No clock)', said: '4.21\u00a0V', target: '4.75 to 5.25\u00a0V', verdict: 'Low.' },
      { title: 'Does the lamp light? (No clock)', said: 'No' },
    ]);
  });

  it('asks only for what has no answer yet', () => {
    expect(reportOf('lamp=yes&ask=lamp,follow').asked).toEqual(['Follow it']);
    expect(reportOf('lamp=yes&ask=lamp').asked).toEqual([]);
  });

  it('says the words of the button that was pressed, never those of its first band', () => {
    const load = makeCheck('chip', { 'none low in': 'worn', high: 'fuse-open' }, { title: 'Load?', target: at });
    const outcomes = load.outcomes.map((outcome) =>
      outcome.when.length > 1 ? { ...outcome, says: 'No more than expected' } : outcome,
    );
    const own = makeTree([{ ...load, outcomes }, makeCause('worn', {}), makeCause('fuse-open', {})]);
    const on = { ...bench, tree: own };

    expect(reportOf('chip=none', undefined, on).lines[0]?.said).toBe('No more than expected');
    expect(reportOf('chip=high', undefined, on).lines[0]?.said).toBe('High');
    // Typed, not pressed.
    expect(reportOf('chip=5.00V', undefined, on).lines[0]).toMatchObject({ said: '5.00\u00a0V', verdict: 'In range.' });
  });
});
