import { Parser } from 'commonmark';
import fc from 'fast-check';
import { loadLibrary } from '#build/library.ts';
import { buildIndex } from '#build/search-index.ts';
import { compileContent } from '#compiler/compile-content.ts';
import { writeNetlist } from '#core/circuit/netlist.ts';
import { findChanges } from '#core/link/changes.ts';
import { parseCarried, parseLinkState, printLinkState } from '#core/link/fragment.ts';
import { makeTreeMap } from '#core/link/make-tree-map.ts';
import { namesOf } from '#core/link/tree-map.ts';
import { readJobBrief } from '#core/log/job-brief.ts';
import { printJobFile, readJobFile } from '#core/log/job-file.ts';
import { replayJobs } from '#core/log/job.ts';
import { writeJobMarkdown } from '#core/log/write-job-markdown.ts';
import type { FaultTree } from '#core/model/fault-tree.ts';
import type { Library } from '#core/model/library.ts';
import { holdsAnswers } from '#core/offline/holds-answers.ts';
import { drawPart } from '#core/page/draw-part.ts';
import { drawPicture } from '#core/page/draw-picture.ts';
import { type Child, printHtml } from '#core/page/markup.ts';
import { renderProse } from '#core/page/render-prose.ts';
import { renderStep } from '#core/page/render-step.ts';
import { type ExpectedReading, parseReading } from '#core/quantity/parse-reading.ts';
import { printLinkReading, printReading } from '#core/quantity/reading.ts';
import { findUnit } from '#core/quantity/unit.ts';
import { parseAccuracy } from '#core/reading/instrument.ts';
import { judgeEntry, readEntry } from '#core/reading/judge-reading.ts';
import { readMarking } from '#core/reading/marking.ts';
import { findTrees } from '#core/search/find-trees.ts';
import { openSearch } from '#core/search/open-search.ts';
import { circuitFile, makeContent, partFile, pictureFile, sampleFile, unitFile } from '../compiler/make-content.ts';
import { damagedFiles } from '../core/log/damaged-files.ts';
import { hostileFiles } from '../support/hostile-files.ts';
import { arbitraryHistory } from './log-event.ts';

/**
 * One kind of text that strangers may hand to the program: how it is made, and what must hold of whatever is made of it. `npm test` and
 * `npm run bench` read this same table. `judge` throws where the program does; else it says what went wrong, or nothing:
 * `injected`, something came out that was to stay words; `lost`, something sound was not kept, or what was refused was not told.
 */
export interface HostileKind {
  readonly name: string;
  /** Texts that are always tried. */
  readonly corpus: readonly string[];
  readonly made: fc.Arbitrary<string>;
  readonly judge: (text: string) => 'injected' | 'lost' | undefined;
  /** A case costs so many of those that cost least: it is tried that much more seldom. */
  readonly cost: number;
}

/** What means harm to some reader: markup, code, signs of our own grammars, unseen and torn characters, numbers without end, length. */
const harms: readonly string[] = [
  '<script>globalThis.hostileRan=1</script>',
  '<img src=x onerror=alert(1)>',
  '"><svg onload="globalThis.hostileRan=1">',
  '{globalThis.hostileRan=1}',
  '[x](javascript:alert(1))',
  'javascript:alert(1)',
  "';alert(1)//",
  `$\{1}`,
  '<!--',
  ']]>',
  '-->',
  '&lt;b&gt;',
  '&#x6A;',
  '__proto__',
  'constructor',
  'hasOwnProperty',
  'toString',
  '\0',
  '\r',
  '\u001B[2J',
  '\u200B',
  '\u202E',
  '\u2028',
  '\uD800',
  '\uDC00',
  '\uFFFD',
  'שלום',
  '🔥',
  'e\u0301'.repeat(50),
  '%00',
  '%E0%A4%A',
  '%3Cb%3E',
  '\n---\n',
  '\n\n',
  ': ',
  '- ',
  '[[',
  '{{',
  '"',
  "'",
  '`',
  '\\',
  '=',
  '&',
  ',',
  '/',
  '#',
  '*',
  '|',
  'NaN',
  'Infinity',
  '1e999',
  '-0',
  '9'.repeat(400),
  '0.'.repeat(200),
  'a'.repeat(6_000),
  ' '.repeat(4_000),
  '<'.repeat(500),
  '['.repeat(2_000),
  '*a_'.repeat(400),
  '- '.repeat(300),
];

/** Sound texts with one to four slips or harms in them; now and then nothing but a harm, or any text at all. */
function spoil(sound: fc.Arbitrary<string>): fc.Arbitrary<string> {
  const slip = fc.record({
    at: fc.double({ min: 0, max: 1, noNaN: true }),
    over: fc.oneof({ weight: 3, arbitrary: fc.constant(0) }, fc.integer({ min: 1, max: 40 })),
    with: fc.oneof(
      { weight: 4, arbitrary: fc.constantFrom(...harms) },
      { weight: 2, arbitrary: fc.string({ unit: 'binary', maxLength: 8 }) },
      { weight: 1, arbitrary: fc.constant('') },
    ),
  });
  const spoilt = fc.tuple(sound, fc.array(slip, { minLength: 1, maxLength: 4 })).map(([text, slips]) =>
    slips.reduce((before, { at, over, with: harm }) => {
      const place = Math.floor(at * before.length);
      return before.slice(0, place) + harm + before.slice(place + over);
    }, text),
  );
  return fc.oneof(
    { weight: 8, arbitrary: spoilt },
    { weight: 1, arbitrary: fc.constantFrom(...harms) },
    { weight: 1, arbitrary: fc.string({ unit: 'binary', maxLength: 300 }) },
  );
}

/** What harm leaves in this program where it comes through; elsewhere nothing. */
function hasRun(): boolean {
  return Reflect.get(globalThis, 'hostileRan') !== undefined || Reflect.get({}, 'polluted') !== undefined;
}

/** Whether HTML or SVG that our own code wrote holds an element, a handler or an address that no page of ours has. */
export function hasHarm(...drawn: readonly Child[]): boolean {
  // The one script that a step holds, by its own words.
  const html = printHtml(...drawn).replaceAll('<script src="/gate.js"></script>', '');
  return (
    /<(?:script|img|iframe|object|embed|style|base|meta|form)[\s/>]/iu.test(html) ||
    /<[a-z][^<>]{0,5000}\s(?:on[a-z]+|style)="/iu.test(html) ||
    /(?:href|src)="(?!\/(?!\/)|#)/iu.test(html)
  );
}

const library: Library = loadLibrary();
const psu: FaultTree | undefined = library.trees.get('psu-5v-low');
if (psu === undefined) throw new Error('The tree of a low 5 V rail is gone.');
const map = makeTreeMap(
  psu,
  [...library.trees.keys()],
  [...library.units].map(([slug, { title }]) => ({ slug, title })),
  [...library.trees.values()],
);
const names = namesOf(map);
const inLinks = /^[a-zA-Z0-9.,/=&-]*$/u;

const words = (...choices: readonly string[]): fc.Arbitrary<string> => fc.constantFrom(...choices);
const pairs = fc.oneof(
  fc
    .tuple(
      words(...map.nodes.map(({ id }) => id)),
      words('in', 'low', 'none', '4.71V', '3-of-8', 'unseen', 'low,4.74V', 'iron'),
    )
    .map(([node, value]) => `${node}=${value}`),
  words(
    'unit=bracken',
    'with=dmm-3-5-digit',
    'did=reservoir-dry',
    'did=reservoir-dry/worse',
    'ask=trough,rail-bare',
    'psu-ripple/hum-kind=steady',
  ),
);

const fragments: HostileKind = {
  name: 'fragments',
  corpus: harms,
  made: spoil(fc.array(pairs, { maxLength: 12 }).map((all) => all.join('&'))),
  judge: (text) => {
    const { state, problems } = parseLinkState(`#supply-kind=iron&${text}`, names);
    const printed = printLinkState(state);
    const told = [...problems, ...findChanges(text, map, state)];
    holdsAnswers(`#${text}`);
    parseCarried(text);
    if (!inLinks.test(printed) || told.join('').length > 3000 || hasRun()) return 'injected';
    const again = parseLinkState(printed, names);
    const isKept = text.includes('supply-kind') || state.answers.some(({ node }) => node === 'supply-kind');
    return isKept && JSON.stringify(again.state) === JSON.stringify(state) && again.problems.length === 0
      ? undefined
      : 'lost';
  },
  cost: 1,
};

const fields: readonly ExpectedReading[] = [
  { quantity: 'voltage-dc', unit: 'V' },
  { quantity: 'voltage-ac', unit: 'V rms' },
  { quantity: 'voltage-pp', unit: 'mVpp' },
  { quantity: 'resistance', unit: 'kΩ' },
  { quantity: 'capacitance', unit: 'F' },
  { quantity: 'frequency', unit: 'MHz' },
  { quantity: 'temperature', unit: '°C' },
  { quantity: 'ratio', unit: '%' },
];
const rail = library.targets.get('rail-5v');
const figures = fc
  .tuple(
    words('', '-', '−', '+', ' '),
    fc.stringMatching(/^\d{0,4}[.,kKmRv]?\d{0,5}$/),
    words('', ' V', 'mV', 'kΩ', 'ohm', 'µF', ' MHz', '%', 'e-3', 'OL', '°C'),
  )
  .map((parts) => parts.join(''));

const readings: HostileKind = {
  name: 'readings',
  corpus: [
    ...harms,
    'OL',
    'open',
    '4k7',
    '3v3',
    '∞',
    '1e15',
    '1e-18',
    '1e16',
    '0x10',
    '１２',
    '²',
    '½',
    '4.7.1',
    "1'000",
  ],
  made: spoil(figures),
  judge: (text) => {
    readMarking(text);
    parseAccuracy(text);
    if (rail !== undefined) {
      for (const instrument of [undefined, ...library.instrumentClasses.values()])
        judgeEntry(readEntry([text], rail), rail, instrument);
    }
    for (const field of fields) {
      const parsed = parseReading(text, field);
      if (parsed.kind === 'problem') {
        const { message } = parsed.problem;
        if (message.length > 300) return 'injected';
        if (message === '') return 'lost';
        continue;
      }
      const { reading } = parsed;
      const printed = printLinkReading(reading);
      if (!inLinks.test(printed) || /[<>"]/u.test(printReading(reading))) return 'injected';
      const again = parseReading(printed, { quantity: field.quantity, unit: findUnit(field.unit)?.base ?? field.unit });
      if (again.kind === 'problem' || JSON.stringify(again.reading) !== JSON.stringify(reading)) return 'lost';
    }
    return hasRun() ? 'injected' : undefined;
  },
  cost: 1,
};

const search = openSearch(buildIndex(library));
const symptoms = [...library.trees.values()].flatMap((tree) => tree.symptoms);

const searches: HostileKind = {
  name: 'search text',
  corpus: [
    ...harms,
    'and '.repeat(3000),
    '5v 12v -5v '.repeat(300),
    'no no no not without '.repeat(100),
    'dead'.repeat(3000),
  ],
  made: spoil(fc.array(words(...symptoms), { minLength: 1, maxLength: 3 }).map((all) => all.join(' '))),
  judge: (text) => {
    const answer = findTrees(search, text, { isTyping: text.length % 2 === 0 });
    if (answer.results.some(({ tree, carry }) => !library.trees.has(tree) || !inLinks.test(carry)) || hasRun())
      return 'injected';
    // The same words get the same answer, whatever was asked between them.
    findTrees(search, 'no picture');
    const again = findTrees(search, text, { isTyping: text.length % 2 === 0 });
    return JSON.stringify(again) === JSON.stringify(answer) ? undefined : 'lost';
  },
  cost: 10,
};

const made = '2026-01-31T12:00:00.000Z';
const photo = { id: 'p', job: 'j', data: btoa('\u00FF\u00D8\u00FF\u00E0\u00FF\u00D9') };

const jobs: HostileKind = {
  name: 'job files',
  corpus: [
    ...harms,
    ...damagedFiles.flatMap(({ content }) =>
      typeof content === 'string' ? [content] : [new TextDecoder().decode(content)],
    ),
  ],
  made: spoil(
    arbitraryHistory
      .filter(({ length }) => length > 0)
      // As a hand or another program would write it, and with harm where it is sound JSON.
      .chain((events) => {
        const text = printJobFile({ events, photos: [photo] }, made);
        return fc.oneof(
          fc.constant(text),
          words(...harms).map((harm) =>
            JSON.stringify({
              ...JSON.parse(text),
              events: events.map((event) => ('text' in event ? { ...event, text: harm } : event)),
            }),
          ),
        );
      }),
  ),
  judge: (text) => {
    readJobBrief(text);
    const read = readJobFile(text);
    if (read.kind === 'refused') {
      if (read.message.length > 300 || hasRun()) return 'injected';
      return read.message.includes('Nothing was imported') ? undefined : 'lost';
    }
    const again = readJobFile(printJobFile(read.file, made));
    if (again.kind === 'refused' || JSON.stringify(again.file) !== JSON.stringify(read.file)) return 'lost';
    const posts = replayJobs(read.file.events).map((job) => writeJobMarkdown(job));
    return posts.some(hasForeignMarkdown) || hasRun() ? 'injected' : undefined;
  },
  cost: 5,
};

/** Whether a reader of CommonMark that is not ours finds HTML, a picture or an address that was typed. */
export function hasForeignMarkdown(post: string): boolean {
  const walker = new Parser().parse(post).walker();
  for (let step = walker.next(); step !== null; step = walker.next()) {
    if (['html_inline', 'html_block', 'image', 'link'].includes(step.node.type)) return true;
  }
  return false;
}

const sample = makeContent();
const textOf = (file: string): string => sample.find((one) => one.file === file)?.text ?? '';

/** Files of one kind: refused with an error that is told, or taken and then drawn without harm. */
function files(name: string, file: string, draw: (taken: Library) => readonly Child[] | undefined): HostileKind {
  return {
    name,
    corpus: [...harms, ...hostileFiles.flatMap((hostile) => (hostile.file === file ? [hostile.text] : []))],
    made: spoil(fc.constant(textOf(file))),
    judge: (text) => {
      const { library: taken, problems } = compileContent(
        sample.map((one) => (one.file === file ? { file, text } : one)),
      );
      const isTold = problems.every(
        ({ message, help }) => /^\S/u.test(message) && /^\S/u.test(help) && message.length < 1000,
      );
      const drawn = draw(taken);
      if ((drawn !== undefined && hasHarm(...drawn)) || hasRun() || !isTold) return 'injected';
      return drawn !== undefined || problems.some((problem) => problem.file === file && problem.severity === 'error')
        ? undefined
        : 'lost';
    },
    cost: 100,
  };
}

/** Every kind of text that comes from strangers. */
export const hostileKinds: readonly HostileKind[] = [
  fragments,
  searches,
  readings,
  jobs,
  files('units', unitFile, ({ units }) => {
    const unit = units.get('demo-unit');
    return unit && [unit.title, ...renderProse(unit.prose, '/')];
  }),
  files('parts', partFile, ({ parts }) => {
    const part = parts.get('regulator');
    return part && [part.title, drawPart(part, 'component')];
  }),
  files('netlists', circuitFile, ({ circuits }) => {
    const circuit = circuits.get('sample-supply');
    return circuit && [circuit.title, writeNetlist(circuit, 'fuse-open', 1)];
  }),
  files('figures', pictureFile, ({ pictures }) => {
    const picture = pictures.get('waves');
    return picture && [drawPicture(picture, 300, true)];
  }),
  files('trees', sampleFile, (taken) => {
    const tree = taken.trees.get('sample-tree');
    return tree?.nodes.map((node) =>
      renderStep(node, {
        tree,
        references: taken,
        titleOf: (slug) => taken.trees.get(slug)?.title,
        base: '/',
        use: 'page',
      }),
    );
  }),
];
