import {
  type Edit,
  addressFile,
  circuitFile,
  makeContent,
  otherFile,
  pictureFile,
  sampleFile,
  targetFile,
  unitFile,
} from '../compiler/make-content.ts';

/** A file of the sample content that means harm, and the rule that must answer it. */
export interface HostileFile {
  readonly name: string;
  readonly file: string;
  readonly text: string;
  readonly rule: string;
}

const cautionFile = 'content/cautions/mains.mdx';
const pointsFile = 'content/points.yaml';
const kinds = {
  tree: sampleFile,
  target: targetFile,
  caution: cautionFile,
  unit: unitFile,
  table: pointsFile,
} as const;
type Kind = keyof typeof kinds;
const kindNames = ['tree', 'target', 'caution', 'unit', 'table'] as const;
const proseKinds = ['tree', 'target', 'caution', 'unit'] as const;

/** A sentence of the body of each kind of file, and words of its front matter or, in a table, of a value. */
const bodies: Readonly<Record<Kind, string>> = {
  tree: 'Read the rail at the farthest chip.',
  target: 'Read it at the farthest chip.',
  caution: 'More of it.',
  unit: 'An invented unit.',
  table: 'The right leg.',
};
const fronts: Readonly<Record<Kind, string>> = {
  tree: 'The five volt rail reads low or nothing.',
  target: 'At the chip with the load on.',
  caution: 'Mind it.',
  unit: 'A unit made for a test.',
  table: 'The last pin of all.',
};

/** The text of one file of the sample after an edit, which must bite. */
function edit(kind: Kind, from: string, to: string): string {
  const { [kind]: file } = kinds;
  return makeContent([{ file, from, to } satisfies Edit]).find((candidate) => candidate.file === file)?.text ?? '';
}

/**
 * Every spelling of module code that some reader takes as code where another may not: a name, and the line. `source` is what the line
 * imports, `run` an expression.
 */
export function spellCode(source: string, run: string): readonly (readonly [name: string, line: string])[] {
  const from = JSON.stringify(source);
  return [
    ['empty braces', `import{}from${from}`],
    ['a tab', `import\t${from}`],
    ['a tab and ordinary words', 'import\ttax is due'],
    ['export, a tab and ordinary words', 'export\ttax is due'],
    ['no blank before the quote', `import${from}`],
    ['a blank', `import ${from}`],
    ['a comment in braces', `import{/* c */}from${from}`],
    ['a comment for a blank', `import/* c */${from}`],
    ['a comment between names', `import/**/x/**/from${from}`],
    ['a no-break space', `import\u00A0${from}`],
    ['a name', `import x from ${from}`],
    ['a name and braces', `import x,{}from${from}`],
    ['everything by a name', `import*as x from${from}`],
    ['a deferred one', `import defer * as x from ${from}`],
    ['a call', `import(${from})`],
    ['a call with a comment', `import/**/(${from})`],
    ['a property', 'import.meta.env'],
    ['a property apart', 'import . meta'],
    ['the word alone, the rest below', `import\n${from}`],
    ['a name, the rest below', `import x\nfrom${from}`],
    ['a brace, the rest below', `import{\n}from${from}`],
    ['single quotes', `import '${source}'`],
    ['export of nothing', 'export{}'],
    ['export of nothing from', `export{}from${from}`],
    ['export of everything', `export*from${from}`],
    ['export of everything by a name', `export * as x from ${from}`],
    ['export of a constant', `export const x=${run}`],
    ['export of a variable', `export var x=${run}`],
    ['export as default', `export default ${run}`],
    ['export of a function', 'export async function x() {}'],
    ['export of a class', `export class X { static x = ${run} }`],
    ['export of a decorated class', `export @(${run}) class X {}`],
    ['export alone', 'export'],
    ['export with a comment', `export/**/const x=${run}`],
    ['behind blanks', `   import ${from}`],
    ['in a list', `- import ${from}`],
    ['in a numbered list', `1. import ${from}`],
    ['in a quote', `> import ${from}`],
    ['in a quote in a list', `- > export{}from${from}`],
    ['behind a tag', `<b>import ${from}</b>`],
    ['behind a comment', `{/* c */}import ${from}`],
    ['in quotation marks', `"import x from ${from}"`],
  ];
}

/** A line as a paragraph of its own; in a table, below a value. */
function putLine(kind: Kind, line: string): string {
  if (kind === 'table') return `${makeContent().find(({ file }) => file === pointsFile)?.text ?? ''}${line}\n`;
  return edit(kind, bodies[kind], `${bodies[kind]}\n\n${line}\n\nRead on.`);
}

/** Every spelling in every kind of file. */
export function spellEverywhere(source: string, run: string): readonly HostileFile[] {
  return spellCode(source, run).flatMap(([name, line]) =>
    kindNames.map((kind) => ({
      name: `code in a ${kind}: ${name}`,
      file: kinds[kind],
      text: putLine(kind, line),
      rule: 'no-code',
    })),
  );
}

/** Where a harmful character goes in each kind of file: its words, and its front matter. */
function inWords(kind: Kind, change: (words: string) => string): readonly HostileFile[] {
  const make = (where: string, words: string): HostileFile => ({
    name: `in the ${where} of a ${kind}`,
    file: kinds[kind],
    text: edit(kind, words, change(words)),
    rule: '',
  });
  return kind === 'table'
    ? [make('values', bodies[kind])]
    : [make('words', bodies[kind]), make('front matter', fronts[kind])];
}

const hidden: readonly (readonly [name: string, character: string])[] = [
  ['NUL', '\0'],
  ['a bell', '\u0007'],
  ['an escape', '\u001B[2J'],
  ['a bare carriage return', '\r'],
  ['delete', '\u007F'],
  ['next line', '\u0085'],
  ['a control of the second set', '\u009B'],
  ['a soft hyphen', '\u00AD'],
  ['a grapheme joiner', '\u034F'],
  ['an Arabic letter mark', '\u061C'],
  ['a Mongolian separator', '\u180E'],
  ['a zero-width space', '\u200B'],
  ['a zero-width joiner', '\u200D'],
  ['a right-to-left mark', '\u200F'],
  ['a line separator', '\u2028'],
  ['a paragraph separator', '\u2029'],
  ['a right-to-left override', '\u202E'],
  ['a word joiner', '\u2060'],
  ['an isolate', '\u2066'],
  ['a Hangul filler', '\u3164'],
  ['a variation selector', '\uFE0F'],
  ['a byte order mark inside', '\uFEFF'],
  ['a letter for private use', '\uE000'],
  ['a tag', '\u{E0041}'],
  ['half a pair', '\uD800'],
  ['what is not UTF-8', '\uFFFD'],
  ['an em space', '\u2003'],
];

const foreignWords: readonly (readonly [name: string, word: string])[] = [
  ['Cyrillic', 'byp\u0430ss'],
  ['Cyrillic throughout', '\u044C\u0443\u0440\u0430\u0455\u0455'],
  ['Greek', 'by\u03C1ass'],
  ['Armenian', 't\u0585uch'],
  ['Cherokee', '\u13B7ift'],
  ['full width', '\uFF42ypass'],
  ['mathematical letters', '\u{1D41B}ypass'],
  ['a letter in a circle', '\u24D1ypass'],
  ['a combining stroke', 'b\u0335ypass'],
  ['a dotless letter', 'l\u0131ft'],
  ['a letter of phonetics', 'brid\u0261e'],
  ['a hyphen that does not break', 'cut\u2011out'],
  ['another digit', 'pin \u0661'],
  ['micro for a letter', '\u00B5nplug'],
];

/** Where to put what spelling `index` of a list says, so that the list covers all kinds of file. */
function spread(
  list: readonly (readonly [name: string, words: string])[],
  rule: string,
  change: (words: string, harm: string) => string,
): readonly HostileFile[] {
  return list.flatMap(([name, harm], index) =>
    ['tree' as const, kindNames[1 + (index % 4)] ?? 'target'].flatMap((kind) =>
      inWords(kind, (words) => change(words, harm)).map((file) => ({ ...file, name: `${name} ${file.name}`, rule })),
    ),
  );
}

/** What only decoding shows. */
const decoded: readonly (readonly [name: string, kind: Kind, from: string, to: string, rule: string])[] = [
  ...(['&#8203;', '&#x202E;', '&shy;', '&zwj;', '&#173;'] as const).map(
    (entity) =>
      [`${entity} in words`, 'tree', bodies.tree, `By${entity}pass ${bodies.tree}`, 'hidden-character'] as const,
  ),
  ['an entity for a Cyrillic letter', 'target', bodies.target, `Byp&#x430;ss ${bodies.target}`, 'other-script'],
  ['an entity in a title', 'tree', 'Any dark spot?', 'Any d&#1072;rk spot?', 'other-script'],
  ['an entity in a button', 'tree', 'says="Healthy"', 'says="Heal&#8203;thy"', 'hidden-character'],
  ['an escape in front matter', 'tree', fronts.tree, '"The \\u202E rail"', 'hidden-character'],
  ['an escape for a letter', 'unit', fronts.unit, '"Byp\\u0430ss"', 'other-script'],
  ['an escape in a table', 'table', fronts.table, '"The \\x1B pin"', 'hidden-character'],
  ['an escape in a key', 'unit', '  chip-supply:', '  "chip\\u200B-supply":', 'hidden-character'],
];

const braces = ['{}', '{ }', '{\u00A0}', '{\u2028}', '{\t}', '{//}', '{/* a */ }{}', '{/* a */\u00A0/* b */}'];
const linkForms: readonly (readonly [words: string, rule: string])[] = [
  ['[x](/nope/)', 'known-links'],
  ['[x](/targets/nope/)', 'known-links'],
  ['[x](/targets/rail-5v)', 'link-address'],
  ['[x](</targets/nope/>)', 'link-address'],
  ['[x](</targets/rail-5v/>)', 'link-address'],
  ['[x](\n/targets/nope/)', 'link-address'],
  ['[x\ny](/targets/nope/)', 'known-links'],
  ['[x](/tar&#103;ets/rail-5v/)', 'link-address'],
  ['[x](/tar\\gets/rail-5v/)', 'link-address'],
  ['[x](/targets/rail-5v\\/)', 'link-address'],
  ['[x](/targets/%72ail-5v/)', 'link-address'],
  ['[x](/targets/../log/)', 'link-address'],
  ['[x](/..//evil.invalid)', 'link-address'],
  ['[x](/./log/)', 'link-address'],
  ['[x](//evil.invalid/)', 'link-address'],
  ['[x](/targets//rail-5v/)', 'link-address'],
  ['[x](/targets/rail-5v/?a=b)', 'link-address'],
  ['[x](/targets/rail-5v/ "words")', 'link-address'],
  ['[x](targets/rail-5v/)', 'link-address'],
  ['[x](#rail)', 'link-address'],
  ['[x]()', 'link-address'],
  ['*[x](/targets/nope/#a=in)*', 'known-links'],
  ['[x][y]\n\n[y]: /targets/rail-5v/\n\nRead', 'prose-only'],
  ['x\n\n[y]: /targets/rail-5v/\n\nRead', 'prose-only'],
  ['![x](/targets/rail-5v/)', 'prose-only'],
  ['x\n\n[^y]: \nexport \\\n\nRead', 'prose-only'],
  ['x\n\n| pin | volts |\n| --- | :-: |\n| 1 | 5 |\n\nRead', 'prose-only'],
];

const ownFields = ['constructor', 'prototype', '__proto__'];
const fields: readonly HostileFile[] = ownFields.flatMap((name) => {
  const make = (where: string, kind: Kind, from: string, to: string, rule: string): HostileFile => ({
    name: `the field ${name} ${where}`,
    file: kinds[kind],
    text: edit(kind, from, to),
    rule,
  });
  const field = `${name}: { polluted: true }\n`;
  return [
    make('in a tree', 'tree', 'block: power', `${field}block: power`, 'unknown-field'),
    make(
      'in the signs of a tree',
      'tree',
      "{ any-light: 'no' }",
      `{ any-light: 'no', ${name}: 'no' }`,
      'unknown-field',
    ),
    make('in a target', 'target', 'unit: V', `${field}unit: V`, 'unknown-field'),
    make(
      'in the variants of a target',
      'target',
      'unit: V',
      `unit: V\nvariants: { ${name}: { low: 1 } }`,
      'unknown-field',
    ),
    make('in a caution', 'caution', 'source:', `${field}source:`, 'unknown-field'),
    make('in a unit', 'unit', 'mains:', `${field}mains:`, 'unknown-field'),
    make('in the points of a unit', 'unit', '  chip-supply:', `  ${name}: x\n  chip-supply:`, 'unknown-field'),
    make('in a table', 'table', 'chip-supply:', `${name}: { title: A, find: B }\nchip-supply:`, 'unknown-field'),
    make('in a row of a table', 'table', 'find: The last', `${name}: {}, find: The last`, 'unknown-field'),
    make('as an attribute', 'tree', 'says="Healthy"', `${name}="x"`, 'unknown-attribute'),
    make('as an id', 'tree', 'id="supply-path"', `id="${name}"`, name === '__proto__' ? 'id-shape' : 'id-reserved'),
    make('as an outcome', 'tree', 'when="dark"', `when="${name}"`, 'word-shape'),
    make('in shows', 'tree', 'shows="lamp=no', `shows="${name}=in lamp=no`, 'shows-shape'),
  ];
});

const many = (count: number, make: (index: number) => string): string =>
  Array.from({ length: count }, (_, index) => make(index)).join('');
const sizes: readonly HostileFile[] = (
  [
    [
      'outcomes',
      'tree',
      '<Outcome when="dark"',
      `${many(16, (n) => `<Outcome when="w${n}" to="inside" />\n`)}<Outcome when="dark"`,
    ],
    [
      'stages',
      'tree',
      '<Stage id="chip"',
      `${many(16, (n) => `<Stage id="s${n}" title="S" minutes="1" fault="fuse-open" />\n`)}<Stage id="chip"`,
    ],
    [
      'nodes',
      'tree',
      '<HandOver',
      `${many(120, (n) => `<HandOver id="h${n}" title="H" because="licensed">Stop.</HandOver>\n\n`)}<HandOver`,
    ],
    ['entries of a list', 'tree', '[static, mains]', `[${many(61, (n) => `h${n}, `)}mains]`],
    ['characters in a target', 'target', bodies.target, 'Read it now.\n\n'.repeat(20_000)],
    ['characters in a caution', 'caution', bodies.caution, 'Read it now.\n\n'.repeat(20_000)],
    ['characters in a unit', 'unit', bodies.unit, 'Read it now.\n\n'.repeat(20_000)],
    ['characters in a table', 'table', 'chip-supply:', `${'# more\n'.repeat(40_000)}chip-supply:`],
    ['characters in a line', 'tree', '<HandOver', `${'import/*>'.repeat(600)}\n\n<HandOver`],
    ['characters in a line of a table', 'table', 'chip-supply:', `# ${'\u200B'.repeat(6_000)}\nchip-supply:`],
    ['entries in a table', 'table', 'find: The last pin of all.', `find: [${'a, '.repeat(2_001)}b]`],
  ] as const
).map(([what, kind, from, to]) => ({
  name: `too many ${what}`,
  file: kinds[kind],
  text: edit(kind, from, to),
  rule: 'too-large',
}));

/** A line of YAML that begins where one reader sees a carriage return end a comment and the other does not. */
const smuggled: readonly HostileFile[] = kindNames.map((kind) => ({
  name: `a field behind a carriage return in a comment of a ${kind}`,
  file: kinds[kind],
  text: edit(kind, fronts[kind], `${fronts[kind]} # ok\rlayout: "data:text/javascript,1"`),
  rule: 'hidden-character',
}));

const body = (kind: Kind, name: string, words: string, rule: string): HostileFile => ({
  name: `${name} in a ${kind}`,
  file: kinds[kind],
  text: edit(kind, bodies[kind], `${bodies[kind]} ${words} now.`),
  rule,
});

/** What a picture could do to its reader, or to who draws it: markup, numbers without end, more than can be drawn. */
const pictures: readonly (readonly [name: string, from: string, to: string, rule: string])[] = [
  ['a field that no picture has', 'seen: supply', 'seen: supply\nstyle: red', 'unknown-field'],
  ['a path in place of a shape', '- ripple: {', '- path: {', 'unknown-field'],
  ['a prototype', 'seen: supply', 'seen: supply\n__proto__: { a: 1 }', 'unknown-field'],
  ['a number without end', 'top: 10.7', 'top: .inf', 'field-value'],
  ['no number', 'trough: 9.3', 'trough: .nan', 'field-value'],
  ['words for a number', 'top: 10.7', 'top: \'10.7\\" onload=\\"x\'', 'field-value'],
  ['a rate that draws for ever', 'hertz: 100', 'hertz: 1000000000', 'field-value'],
  [
    'a period near nothing',
    '- ripple: { top: 10.7, trough: 9.3, hertz: 100, mains: 50 }',
    '- lines: { period: 1e-9, points: [[0, 1]] }',
    'field-value',
  ],
  [
    'time that runs back',
    '- ripple: { top: 10.7, trough: 9.3, hertz: 100, mains: 50 }',
    '- lines: { points: [[0, 1], [0.02, 2], [0.01, 3]] }',
    'field-value',
  ],
  ['two kinds at once', 'trace:', 'lamps: { high: dim, low: dim, pulse: dim }\ntrace:', 'front-matter'],
  ['five shapes', '    - ripple:', `${many(4, () => '    - noise: { amplitude: 1 }\n')}    - ripple:`, 'field-value'],
  ['an address for a tree', 'sample-tree/rail', "'javascript:alert(1)'", 'field-value'],
  ['a trough above the top', 'trough: 9.3', 'trough: 99', 'field-value'],
];

/** What a drawing could do to its reader, or to who lays it out: other fields, names of every object, more than can be drawn. */
const drawings: readonly (readonly [name: string, from: string, to: string, rule: string])[] = [
  ['a field that no drawing has', '  ground: 12,6', '  ground: 12,6\n  style: red', 'unknown-field'],
  ['a prototype among the parts', '    RLOAD: 12,2', '    __proto__: 12,2', 'unknown-field'],
  ['a symbol that every object has', 'RFUSE: fuse 3,2', 'RFUSE: constructor 3,2', 'drawing'],
  ['a point that every object has', '    chip-supply: 10,2 up', '    valueof: 10,2 up', 'drawing'],
  ['a place without end', 'chip: 7,2 12,2', 'chip: 7,2 999999999,2', 'drawing'],
  ['a place below nothing', 'chip: 7,2 12,2', 'chip: 7,2 -1,2', 'drawing'],
  ['a place in numbers of another kind', 'chip: 7,2 12,2', 'chip: 7,2 1e1,2', 'drawing'],
  ['a path in place of a wire', 'chip: 7,2 12,2', 'chip: M7 2h9', 'drawing'],
  ['markup for a direction', 'chip-supply: 10,2 up', "chip-supply: '10,2 <svg/onload=x>'", 'drawing'],
  ['brackets that do not close', 'RFUSE: fuse 3,2,', `RFUSE: fuse 3,2 ${'('.repeat(60)},`, 'drawing'],
  ['a list for a part', 'RFUSE: fuse 3,2, fuse', 'RFUSE: [3, 2]', 'field-value'],
  ['words without end', 'RFUSE: fuse 3,2, fuse', `RFUSE: fuse 3,2, ${'fuse '.repeat(60)}`, 'field-value'],
  [
    'wires without end',
    '    rail: 2,2 3,2',
    many(50, (n) => `    r${n}: ${'2,2 3,2 / '.repeat(9)}2,2 3,2\n`).trimEnd(),
    'drawing',
  ],
];

/** Files of every kind that mean harm; each is answered by its rule and by nothing that runs. */
export const hostileFiles: readonly HostileFile[] = [
  ...spellEverywhere('data:text/javascript,globalThis.hostileRan=1', '(globalThis.hostileRan = 1)'),
  ...spread(hidden, 'hidden-character', (words, harm) => words.replace(' ', ` a${harm}b `)),
  ...spread(foreignWords, 'other-script', (words, harm) => words.replace(' ', ` ${harm} `)),
  ...smuggled,
  ...decoded.map(([name, kind, from, to, rule]) => ({ name, file: kinds[kind], text: edit(kind, from, to), rule })),
  ...braces.flatMap((text, index) =>
    ['tree' as const, proseKinds[1 + (index % 3)] ?? 'target'].map((kind) =>
      body(kind, `the braces ${JSON.stringify(text)}`, text, /\u2028/.test(text) ? 'hidden-character' : 'no-code'),
    ),
  ),
  ...linkForms.flatMap(([words, rule], index) =>
    ['tree' as const, proseKinds[1 + (index % 3)] ?? 'target'].map((kind) =>
      body(kind, `the link ${JSON.stringify(words)}`, words, rule),
    ),
  ),
  ...pictures.map(([name, from, to, rule]) => ({
    name: `${name} in a picture`,
    file: pictureFile,
    text: makeContent([{ file: pictureFile, from, to }]).find(({ file }) => file === pictureFile)?.text ?? '',
    rule,
  })),
  ...drawings.map(([name, from, to, rule]) => ({
    name: `${name} in a drawing`,
    file: circuitFile,
    text: makeContent([{ file: circuitFile, from, to }]).find(({ file }) => file === circuitFile)?.text ?? '',
    rule,
  })),
  ...fields,
  ...sizes,
  {
    name: 'an address with a control character',
    file: addressFile,
    text: '/\n/trees/\u001B[2Jx/\n',
    rule: 'hidden-character',
  },
  {
    name: 'symptoms without end',
    file: otherFile,
    text:
      makeContent([
        { file: otherFile, from: '  - supply whistles', to: many(25, (n) => `  - it whistles ${n} times\n`).trimEnd() },
      ]).find(({ file }) => file === otherFile)?.text ?? '',
    rule: 'field-value',
  },
];
