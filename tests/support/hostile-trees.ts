import { readFileSync } from 'node:fs';

/** A file that means harm, and the rule that must answer it. */
export interface HostileTree {
  readonly name: string;
  readonly text: string;
  readonly rule: string;
}

/** The tree that the hostile text stands in: nothing is said of it as it is shipped. */
export const hostFile = 'content/trees/power/psu-5v-low.mdx';
export const hostText: string = readFileSync(hostFile, 'utf8');

/** Leaves a trace wherever it is evaluated: in Node, in a page, in a worker. */
const run = '(globalThis.hostileRan = (globalThis.hostileRan ?? 0) + 1)';
const firstWords = 'Unplug it, case closed.';

function replace(from: string, to: string): string {
  const place = hostText.indexOf(from);
  if (place < 0) throw new Error(`"${from}" does not stand in ${hostFile}.`);
  return hostText.slice(0, place) + to + hostText.slice(place + from.length);
}

/** The host with `words` in the prose of its first check. */
const say = (words: string): string => replace(firstWords, words);
/** The host with `element` on lines of its own in its first check. */
const put = (element: string): string => replace(firstWords, `${firstWords}\n\n${element}\n\nMore words.`);
const front = (field: string): string => replace('hazards:', `${field}\nhazards:`);

const inProse: readonly (readonly [name: string, words: string, rule: string])[] = [
  ['an expression', `Read {${run}} volts.`, 'no-code'],
  ['an expression that calls itself', `Read {(() => { ${run}; while (true) {} })()} volts.`, 'no-code'],
  ['an expression after a comment', `Read {/* volts */ ${run}} volts.`, 'no-code'],
  ['an expression in a template', `Read {\`\${${run}}\`} volts.`, 'no-code'],
  ['an import() in an expression', `Read {import('data:text/javascript,globalThis.hostileRan=1')} volts.`, 'no-code'],
  ['a spread of the global object', `Read {...globalThis} volts.`, 'no-code'],
  ['a brace that never closes', 'Read { volts.', 'no-code'],
  ['a link to javascript:', `Read [this](javascript:${encodeURIComponent(run)}).`, 'link-address'],
  ['a link to JaVaScRiPt: with a tab', `Read [this](<java\tscript:${run}>).`, 'link-address'],
  ['a link whose colon is an entity', `Read [this](javascript&#58;alert&#40;1&#41;).`, 'link-address'],
  ['a link whose letters are entities', `Read [this](&#x6A;avascript:alert`.concat('`1`).'), 'link-address'],
  ['a link to data:', 'Read [this](data:text/html;base64,PHNjcmlwdD5hbGVydCgxKTwvc2NyaXB0Pg==).', 'link-address'],
  ['a link to vbscript:', 'Read [this](vbscript:msgbox).', 'link-address'],
  ['a link to another origin', 'Read [this](https://evil.invalid/).', 'link-address'],
  ['a link without a scheme', 'Read [this](//evil.invalid/).', 'link-address'],
  ['a link with a backslash', 'Read [this](/\\evil.invalid/).', 'link-address'],
  ['a picture', 'Read ![this](https://evil.invalid/pixel.png).', 'prose-only'],
  ['a picture of data:', 'Read ![this](data:image/svg+xml,%3Csvg%20onload=%22alert(1)%22%3E).', 'prose-only'],
  ['an element in a sentence', 'Read <b>this</b> now.', 'element-inside-text'],
  ['a handler in a sentence', `Read <img src="x" onerror="${run.replaceAll('"', "'")}" /> now.`, 'element-inside-text'],
  ['a comment of HTML', '<!-- --><script>globalThis.hostileRan = 1</script>', 'syntax'],
  ['a reference that is defined to run', 'Read [this][that].\n\n[that]: javascript:alert(1)\n\nRead.', 'prose-only'],
];

const asElement: readonly (readonly [name: string, element: string, rule: string])[] = [
  ['a script', `<script>\n\nglobalThis.hostileRan = 1\n\n</script>`, 'unknown-element'],
  ['a script from elsewhere', '<script src="https://evil.invalid/x.js"></script>', 'unknown-element'],
  ['a frame', '<iframe src="javascript:parent.hostileRan=1"></iframe>', 'unknown-element'],
  [
    'a frame with a document',
    '<iframe srcdoc="&lt;script&gt;parent.hostileRan=1&lt;/script&gt;" />',
    'unknown-element',
  ],
  [
    'a drawing that loads',
    '<svg onload="globalThis.hostileRan = 1"><animate onbegin="alert(1)" /></svg>',
    'unknown-element',
  ],
  ['a style', '<style>\n\n* display: none\n\n</style>', 'unknown-element'],
  ['a form', '<form action="https://evil.invalid/"><button>Go</button></form>', 'unknown-element'],
  ['an object', '<object data="data:text/html,<script>alert(1)</script>" />', 'unknown-element'],
  ['a base', '<base href="https://evil.invalid/" />', 'unknown-element'],
  ['a refresh', '<meta http-equiv="refresh" content="0;url=javascript:alert(1)" />', 'unknown-element'],
  ['a component of the site', '<FocusedNode id="rail-bare" />', 'unknown-element'],
  ['a member of an element', '<globalThis.process.exit />', 'unknown-element'],
  ['a name with a colon', '<xlink:href />', 'unknown-element'],
  [
    'a handler on an element of ours',
    '<Caution use="mains" onClick="globalThis.hostileRan = 1" />',
    'unknown-attribute',
  ],
  [
    'HTML set on an element of ours',
    `<Caution use="mains" set:html="<script>alert(1)</script>" />`,
    'unknown-attribute',
  ],
  ['inner HTML on an element of ours', `<Caution use="mains" dangerouslySetInnerHTML="x" />`, 'unknown-attribute'],
  ['an expression as an attribute', `<Caution use={${run}} />`, 'no-code'],
  ['a spread as attributes', `<Caution {...${run}} />`, 'no-code'],
  ['an import', `import evil from 'data:text/javascript,globalThis.hostileRan=1'`, 'no-code'],
  ['an export', `export const volts = ${run}`, 'no-code'],
  ['a template of the page', '{% raw %}{{ constructor.constructor("globalThis.hostileRan = 1")() }}', 'no-code'],
  ['a fence of code', '```js\nglobalThis.hostileRan = 1\n```', 'prose-only'],
  ['the prototype as an element', '<__proto__ />', 'unknown-element'],
  ['the constructor as an element', '<constructor />', 'unknown-element'],
  ['the prototype as a caution', '<Caution use="__proto__" />', 'id-shape'],
  ['the constructor as a caution', '<Caution use="constructor" />', 'id-reserved'],
  ['the prototype as an attribute', '<Caution use="mains" __proto__="x" />', 'unknown-attribute'],
];

const many = (count: number, make: (index: number) => string): string =>
  Array.from({ length: count }, (_, index) => make(index)).join('');
const node = (index: number): string =>
  `\n<HandOver id="end-${index}" title="End ${index}" because="licensed">\n\n  Stop here.\n</HandOver>\n`;

const asWhole: readonly (readonly [name: string, text: string, rule: string])[] = [
  ['the prototype as a node', replace('id="supply-kind"', 'id="__proto__"'), 'id-shape'],
  ['the constructor as a node', replace('id="rail-bare"', 'id="constructor"'), 'id-reserved'],
  ['the prototype in shows', replace('shows="', 'shows="__proto__=in '), 'shows-shape'],
  ['the prototype as a field', front('__proto__: { polluted: true }'), 'unknown-field'],
  ['the constructor as a field', front('constructor: { prototype: { polluted: true } }'), 'unknown-field'],
  ['a tag of YAML that makes a function', front('signs: !!js/function "function () { return 1 }"'), 'field-value'],
  [
    'aliases that unfold',
    front(
      `a: &a [x]\n${many(12, (index) => `b${index}: &b${index} [${many(9, () => `*${index === 0 ? 'a' : `b${index - 1}`},`)}]\n`)}`,
    ),
    'yaml-syntax',
  ],
  ['front matter nested deep', front(`was: ${'['.repeat(300)}${']'.repeat(300)}`), 'too-large'],
  ['front matter nested deeper', front(`was:\n\n${many(40, () => `${'['.repeat(200)}\n\n`)}`), 'too-large'],
  ['two thousand fields', front(many(2_000, (index) => `f${index}: 1\n`)), 'unknown-field'],
  ['nothing at all', '', 'front-matter'],
  ['zeros and a mark of the other order', `\u0000\u202e\ufeff${'\u0000'.repeat(1_000)}`, 'hidden-character'],
  [
    'half a pair of surrogates',
    say('Read \ud800 now.').replace('title: 5 V rail too low', `title: "${'\udfff'.repeat(80)}"`),
    'hidden-character',
  ],
  ['a megabyte', hostText + 'a'.repeat(1_000_000), 'too-large'],
  ['ten thousand nodes', hostText + many(10_000, node), 'too-large'],
  ['a thousand nodes', hostText + many(1_000, node), 'too-large'],
  ['elements nested deep', say(`${'<Confirm>\n'.repeat(4_000)}`), 'too-large'],
  ['elements nested deep behind a false end', say(`\n\n${'<Confirm a="/>">\n\n'.repeat(4_000)}`), 'too-large'],
  [
    'elements nested deep and closed',
    say(`\n\n${'<Confirm a="/>">\n\n'.repeat(2_000)}${'</Confirm>\n\n'.repeat(2_000)}`),
    'too-large',
  ],
  ['quotes nested deep', say(`\n\n${'> '.repeat(2_000)}a`), 'too-large'],
  ['lists nested deep', say(`\n\n${many(300, (index) => `${' '.repeat(2 * index)}- a\n`)}`), 'too-large'],
  ['lists nested in one line', say(`\n\n${'- '.repeat(2_000)}a`), 'too-large'],
  ['brackets without end', say('['.repeat(4_900)), 'too-large'],
  [
    'brackets in every stretch',
    say(`[this](javascript:1)\n\n${many(380, () => `${'['.repeat(190)}\n\n`)}`),
    'too-large',
  ],
  [
    'as many brackets as are read',
    say(`[this](javascript:1)\n\n${many(90, () => `${'['.repeat(190)}\n\n`)}`),
    'link-address',
  ],
  [
    'as much emphasis as is read',
    say(`[this](javascript:1)\n\n${many(80, () => `${'*a _b '.repeat(95)}\n\n`)}`),
    'link-address',
  ],
  ['links within links', say('[a](b'.repeat(900)), 'too-large'],
  ['emphasis without end', say('*a **a '.repeat(690)), 'too-large'],
  [
    'emphasis in every stretch',
    say(`[this](javascript:1)\n\n${many(240, () => `${'*a _b '.repeat(95)}\n\n`)}`),
    'too-large',
  ],
  ['ticks of every length', say(many(400, (index) => `${'`'.repeat(index % 60)} `)), 'too-large'],
  ['braces without end', say(many(1_000, () => '{ } } ')), 'too-large'],
  ['closing braces over many lines', say(`\n\n{(\n\n${'}\n\n'.repeat(100)}`), 'no-code'],
  ['an export over many lines', say(`\n\nexport const a = \`\n\n${'a\n\n'.repeat(2_000)}`), 'no-code'],
  ['entities without end', say('&'.repeat(4_900)), 'too-large'],
  ['letters that a pattern chokes on', say(`${`${'a'.repeat(100)} `.repeat(40)}!`), 'sentence-length'],
  [
    'blanks that a pattern chokes on',
    say(`a${' '.repeat(3_000)}b! ${'\t'.repeat(900)}[c](javascript:1)`),
    'link-address',
  ],
  [
    'words of forbidden advice without end',
    say(`${'bypass lift foil touch alcohol screwdriver short '.repeat(80)}.`),
    'forbidden-advice',
  ],
  [
    'outcomes without end',
    replace(
      '<Outcome when="iron"',
      `${many(1_500, (index) => `<Outcome when="w-${index}" to="nowhere-${index}" />\n\n`)}<Outcome when="iron"`,
    ),
    'too-large',
  ],
  ['shows without end', replace('shows="', `shows="${many(400, (index) => `n-${index}=in `)}`), 'shows-known'],
  ['a circle', replace('to="rail-bare"', 'to="supply-kind"'), 'no-cycle'],
];

/** Everything a stranger might paste or send: each is answered by its rule, runs nothing, and is read within a second. */
export const hostileTrees: readonly HostileTree[] = [
  ...inProse.map(([name, words, rule]) => ({ name, text: say(words), rule })),
  ...asElement.map(([name, element, rule]) => ({ name, text: put(element), rule })),
  ...asWhole.map(([name, text, rule]) => ({ name, text, rule })),
];
