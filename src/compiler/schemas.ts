import * as v from 'valibot';
import { formulaNames, ownValuesNames } from '#core/model/target.ts';
import type { FittedPart } from '#core/model/circuit.ts';
import { supplyKinds } from '#core/model/supply.ts';
import { severities } from '#core/model/library.ts';
import { colourNames } from '#core/model/site.ts';
import { lampStates, seenAt } from '#core/model/picture.ts';
import { boardName, boardSize, edgeName, makePartSchema } from '#core/model/placement-schema.ts';
import { placementLimits } from '#core/model/placement.ts';
import { partFamilies, partPackages, pinKinds } from '#core/model/part.ts';
import { parseValue } from '#core/circuit/netlist.ts';
import { limits } from './find-excess.ts';
import { idPattern } from './read-attributes.ts';
import { naming } from './read-yaml.ts';

const text = (maxLength: number): v.GenericSchema<string, string> =>
  v.pipe(v.string(), v.trim(), v.nonEmpty('some words'), v.maxLength(maxLength, `at most ${maxLength} characters`));
const slug: v.GenericSchema<string, string> = v.pipe(
  v.string(),
  v.regex(idPattern, 'small letters, digits and single hyphens'),
  v.maxLength(40, 'at most 40 characters'),
);
const slugs = v.optional(v.array(slug), []);
const cautions = v.optional(v.array(naming('caution', slug)), []);
const source = naming('source', slug);
const yesNo = v.picklist(['yes', 'no'], '`yes` or `no` in quotes');
const status = v.picklist(['read', 'memory', 'practice', 'computed'], '`read`, `memory`, `practice` or `computed`');
const number = v.pipe(v.number(), v.finite());
const keysOf = <Key extends string>(table: Readonly<Record<Key, unknown>>): Key[] =>
  Object.keys(table).filter((key): key is Key => key in table);
const limitsOf = v.strictObject({
  low: v.optional(number),
  nominal: v.optional(number),
  high: v.optional(number),
});

/** A day of the calendar, as RFC 3339 writes it. */
function isDay(day: string): boolean {
  const time = Date.parse(`${day}T00:00:00Z`);
  return !Number.isNaN(time) && new Date(time).toISOString().slice(0, 10) === day;
}

export const treeSchema = v.strictObject({
  title: text(60),
  block: naming('block', slug),
  summary: text(200),
  symptoms: v.pipe(
    v.array(text(80)),
    v.minLength(1, 'a list of phrases'),
    v.maxLength(limits.symptoms, `at most ${limits.symptoms} phrases`),
  ),
  hazards: v.optional(v.array(naming('hazard', slug)), []),
  signs: v.optional(v.record(naming('sign', slug), yesNo), {}),
  order: v.optional(v.picklist(['as-written'], '`as-written`')),
  since: v.optional(v.pipe(v.string(), v.check(isDay, 'a day as `2026-11-30`'))),
  was: slugs,
  circuits: v.optional(v.pipe(v.array(naming('circuit', slug)), v.maxLength(4, 'at most 4 circuits')), []),
});

export const targetSchema = v.strictObject({
  title: text(50),
  quantity: slug,
  unit: text(10),
  low: v.optional(number),
  nominal: v.optional(number),
  high: v.optional(number),
  none: v.optional(number),
  bands: v.optional(v.array(v.strictObject({ name: slug, from: v.optional(number), to: v.optional(number) }))),
  words: slugs,
  compare: v.optional(v.picklist(['value', 'magnitude']), 'value'),
  sign: v.optional(v.picklist(['positive', 'negative']), 'positive'),
  conditions: text(200),
  instrument: naming('instrument', text(80)),
  source,
  status,
  variants: v.optional(v.record(slug, limitsOf), {}),
  'source-resistance': v.optional(number),
  misreads: v.optional(
    v.array(
      v.strictObject({
        instrument: naming('instrument', slug),
        from: v.optional(number),
        to: v.optional(number),
        says: text(200),
      }),
    ),
    [],
  ),
  computed: v.optional(v.picklist(formulaNames)),
  'own-values': v.optional(v.array(v.picklist(ownValuesNames)), []),
  entered: v.optional(
    v.pipe(
      v.array(
        v.strictObject({
          name: text(40),
          quantity: slug,
          unit: text(10),
          marked: v.optional(v.boolean(), false),
          optional: v.optional(v.boolean(), false),
        }),
      ),
      v.maxLength(5, 'at most 5 figures'),
    ),
    [],
  ),
});

const cautionLine = v.pipe(
  text(90),
  v.check((line) => line.split(/\s+/).length <= 12, 'at most 12 words'),
);
export const cautionSchema = v.strictObject({
  title: text(60),
  severity: v.picklist(severities, '`danger`, `warning`, `caution` or `notice`'),
  line: cautionLine,
  'open-live': v.optional(cautionLine),
  asks: v.optional(text(120)),
  text: text(500),
  actions: v.optional(v.array(text(200)), []),
  source,
  status,
});

/** One part of a board, as `[chip, 16, 230, 20, 90, 74LS157]`: kind, size, place of its centre, turn, print. */
const placedPart = v.pipe(
  v.array(v.unknown()),
  v.minLength(4, 'kind, size and place, as `[chip, 16, 230, 20]`'),
  v.maxLength(6, 'kind, size, place, turn and print'),
  v.transform(([kind, written, x, y, turn = 0, print]): unknown => {
    const [first, second, third] = [written].flat();
    const size = kind === 'plug' ? [first, second ?? 1, third ?? 2.54] : [written].flat();
    return { kind, size, x, y, turn, ...(print === undefined ? {} : { print: String(print) }) };
  }),
  makePartSchema({}),
);
const placedName = v.pipe(
  v.string(),
  v.regex(/^[A-Za-z][A-Za-z0-9 /-]*$/, 'a designator such as IC5'),
  v.maxLength(placementLimits.name, `at most ${placementLimits.name} characters`),
);
/** Parts with their pins, as `IC5.30-33 C60`. */
const spots = v.pipe(
  v.string(),
  v.regex(
    /^(?:[A-Za-z][\w/-]*(?:\.\d{1,2}(?:[,-]\d{1,2})*)?(?: (?!$)|$))+$/,
    'parts and their pins, as `IC5.30-33 C60`',
  ),
  v.transform((written) =>
    written.split(' ').map((spot) => {
      const [part = '', pins = ''] = spot.split('.');
      return { part, pins: pins === '' ? [] : pins.split(',').flatMap(readRange) };
    }),
  ),
  v.maxLength(placementLimits.spots, `at most ${placementLimits.spots} parts`),
);
function readRange(range: string): readonly number[] {
  const [from = 0, to = from] = range.split('-').map(Number);
  return Array.from({ length: Math.abs(to - from) + 1 }, (_, index) => Math.min(from, to) + index);
}
const placementOfUnit = v.strictObject({
  boards: v.pipe(
    v.array(
      v.strictObject({
        name: boardName,
        size: v.strictTuple([boardSize, boardSize]),
        edges: v.optional(v.strictTuple([edgeName, edgeName]), ['rear', 'front']),
        seen: v.optional(edgeName),
        parts: v.record(placedName, placedPart),
      }),
    ),
    v.minLength(1, 'at least one board'),
    v.maxLength(placementLimits.boards, `at most ${placementLimits.boards} boards`),
  ),
  points: v.record(naming('point', slug), spots),
  elsewhere: v.optional(v.array(naming('point', slug)), []),
  'off-board': v.optional(v.array(placedName), []),
});

/** A part of a unit in the place of an element: `R12, 4.7 kΩ`, `IC7`, or `none`. */
const fittedPart = v.pipe(
  v.string(),
  v.regex(/^[A-Za-z][A-Za-z0-9]*(?:, \S(?:.*\S)?)?$/, 'a part and its value, as `R12, 4.7 kΩ`, or `none`'),
  v.maxLength(24, 'at most 24 characters'),
  v.transform((written): FittedPart => {
    const [name = '', value] = written.split(', ', 2);
    return written === 'none' ? written : { name, value };
  }),
);

export const unitSchema = v.strictObject({
  title: text(50),
  summary: text(200),
  invented: v.optional(yesNo, 'no'),
  mains: v.picklist(['outside', 'inside-covered', 'inside-bare', 'unknown']),
  'supply-kind': v.optional(v.picklist([...supplyKinds, 'unknown']), 'unknown'),
  tube: yesNo,
  'stores-charge': yesNo,
  supply: v.optional(number),
  variants: slugs,
  points: v.record(naming('point', slug), text(160)),
  chips: v.optional(v.record(naming('chip', slug), naming('part', slug)), {}),
  targets: v.optional(v.record(naming('target', slug), limitsOf), {}),
  placement: v.optional(placementOfUnit),
  circuits: v.optional(v.record(naming('circuit', slug), v.record(v.string(), fittedPart)), {}),
  differs: v.optional(v.record(naming('tree', slug), text(400)), {}),
});

const pinKind = v.picklist(pinKinds, `one of ${pinKinds.join(', ')}`);
const pinOf = v.strictObject({
  name: text(60),
  kind: pinKind,
  status: v.optional(status),
  doubt: v.optional(text(120)),
});
const pin = v.pipe(
  v.array(v.nullable(v.string())),
  v.minLength(2, 'a name and a kind'),
  v.maxLength(4, 'name, kind, status and doubt'),
  v.transform(([name, kind, from, doubt]): unknown => ({
    name,
    kind,
    ...(typeof from === 'string' ? { status: from } : {}),
    ...(typeof doubt === 'string' ? { doubt } : {}),
  })),
  pinOf,
);
export const partSchema = v.strictObject({
  title: text(60),
  family: v.picklist(keysOf(partFamilies), `one of ${Object.keys(partFamilies).join(', ')}`),
  aliases: v.optional(v.array(text(24)), []),
  package: v.picklist(keysOf(partPackages), `one of ${Object.keys(partPackages).join(', ')}`),
  source,
  symbol: v.optional(text(40)),
  pins: v.record(v.pipe(v.string(), v.regex(/^(?:[1-9]\d?|[TRS]N?|[+−a-c])$/, 'the number of a pin')), pin),
  mistaken: v.optional(v.record(naming('part', slug), text(160)), {}),
});

const within = (least: number, most: number): v.GenericSchema<number, number> =>
  v.pipe(
    number,
    v.minValue(least, `a number from ${least} to ${most}`),
    v.maxValue(most, `a number from ${least} to ${most}`),
  );
const volts = within(-1000, 1000);
const seconds = within(0, 100);
const hertz = within(0.01, 1e9);
const edge = v.optional(seconds, 0);
/** One shape of a trace, by its kind; `trace` of a picture holds a list of them. */
const shape = v.pipe(
  v.strictObject({
    lines: v.optional(
      v.strictObject({
        points: v.pipe(v.array(v.strictTuple([seconds, volts])), v.minLength(1, 'at least one point')),
        period: v.optional(within(1e-9, 100)),
      }),
    ),
    sine: v.optional(
      v.strictObject({
        mean: volts,
        amplitude: volts,
        hertz,
        top: v.optional(volts),
        foot: v.optional(volts),
        gap: v.optional(within(0, 1000), 0),
      }),
    ),
    square: v.optional(v.strictObject({ low: volts, high: volts, hertz, duty: within(0.01, 0.99), edge })),
    ripple: v.optional(v.strictObject({ top: within(0.001, 1000), trough: within(0, 1000), hertz, mains: hertz })),
    charge: v.optional(v.strictObject({ from: volts, to: volts, tau: within(1e-9, 100), begins: seconds })),
    bits: v.optional(
      v.strictObject({
        low: volts,
        high: volts,
        seconds: within(1e-9, 100),
        levels: v.pipe(v.string(), v.regex(/^[01]{1,64}$/, 'up to 64 digits, 0 or 1, in quotes')),
        edge,
      }),
    ),
    noise: v.optional(v.strictObject({ amplitude: volts })),
  }),
  v.check((kinds) => Object.keys(kinds).length === 1, 'one kind of shape'),
);
const lamp = v.picklist(lampStates, "`'on'`, dim, blinks or `'off'`");
export const pictureSchema = v.strictObject({
  title: text(50),
  says: text(160),
  seen: v.picklist(keysOf(seenAt), `one of ${Object.keys(seenAt).join(', ')}`),
  leads: v.pipe(
    v.array(v.pipe(v.string(), v.regex(/^[a-z0-9-]{1,40}(?:\/[a-z0-9-]{1,24})?$/, 'a tree, or `tree/node`'))),
    v.minLength(1, 'at least one'),
    v.maxLength(4, 'at most 4'),
  ),
  trace: v.optional(
    v.strictObject({
      volts: within(0.001, 100),
      time: within(1e-9, 10),
      coupling: v.picklist(['dc', 'ac'], 'dc or ac'),
      zero: within(-20, 20),
      shapes: v.pipe(v.array(shape), v.minLength(1, 'at least one shape'), v.maxLength(4, 'at most 4 shapes')),
    }),
  ),
  screen: v.optional(
    v.strictObject({
      rows: v.pipe(
        v.array(v.pipe(v.string(), v.regex(/^[#+.]{1,32}$/, 'up to 32 cells, each # + or .'))),
        v.minLength(1, 'at least one row'),
        v.maxLength(24, 'at most 24 rows'),
      ),
      shifts: v.optional(v.pipe(v.array(v.pipe(within(-32, 32), v.integer())), v.maxLength(24, 'at most 24')), []),
      rolled: v.optional(v.pipe(within(0, 23), v.integer()), 0),
      border: v.optional(v.boolean(), false),
      noise: v.optional(within(0, 1), 0),
    }),
  ),
  lamps: v.optional(v.strictObject({ high: lamp, low: lamp, pulse: lamp })),
});
/** What happens to a part of a circuit: `open`, `short`, a share of its value `10..50 %`, or a value `1k..2k`, `0`. */
const change = v.pipe(
  v.union([v.string(), v.number()]),
  v.transform((written): unknown => {
    const text = String(written).trim();
    if (text === 'open' || text === 'short') return { kind: text };
    const [, from = '', to = from, percent] = /^([^\s.]*(?:\.\d+[a-z]*)?)(?:\.\.(\S+))?(\s*%)?$/i.exec(text) ?? [];
    const scale = percent === undefined ? 1 : 0.01;
    return {
      kind: percent === undefined ? 'value' : 'share',
      from: parseValue(from) * scale,
      to: parseValue(to) * scale,
    };
  }),
  v.variant(
    'kind',
    [
      v.strictObject({ kind: v.picklist(['open', 'short']) }),
      v.strictObject({ kind: v.picklist(['share', 'value']), from: number, to: number }),
    ],
    '`open`, `short`, a share such as `10..50 %`, or a value such as `1k..2k`',
  ),
);
const partName = v.pipe(v.string(), v.regex(/^[a-z]\w{0,20}$/i, 'the name of a part or a parameter'));
const ways = v.record(partName, change);
const node = v.pipe(
  v.union([v.string(), v.number()]),
  v.transform(String),
  v.regex(/^\w{1,20}$/, 'a node of the netlist'),
);
const drawingSchema = v.strictObject({
  parts: v.record(text(80), text(160)),
  wires: v.optional(v.record(text(20), text(800)), {}),
  ground: v.optional(text(400)),
  points: v.optional(v.record(slug, text(80)), {}),
  'not-drawn': v.optional(v.array(partName), []),
});
export const circuitSchema = v.strictObject({
  title: text(60),
  summary: text(300),
  source,
  status,
  models: slugs,
  points: v.record(naming('point', slug), v.tuple([node, node])),
  evidence: v.optional(v.array(naming('point', slug))),
  drawing: v.optional(drawingSchema),
  tolerances: v.optional(v.record(partName, change), {}),
  faults: v.record(
    slug,
    v.pipe(
      v.strictObject({
        title: text(60),
        also: slugs,
        changes: v.union([ways, v.pipe(v.array(ways), v.minLength(1), v.maxLength(8, 'at most 8 ways'))]),
      }),
      v.transform(({ changes, ...rest }) => ({ ...rest, ways: [changes].flat() })),
    ),
  ),
});
export const circuitModelSchema = v.strictObject({ title: text(60), source, status });

/** It goes into titles, pictures and posts: letters that the shipped font can draw, no marks that another format would obey. */
const siteName = v.pipe(
  text(30),
  v.regex(/^[A-Za-z0-9][A-Za-z0-9 .'&-]*$/, "letters without accents, digits, blanks, and . ' & -"),
);
const colour = v.pipe(v.string(), v.regex(/^#[0-9a-f]{6}$/, 'a colour as `#1d1b16` in quotes'));
const ownColours = v.optional(v.strictObject(v.entriesFromList(colourNames, v.optional(colour))), {});
export const siteSchema = v.strictObject({
  name: siteName,
  summary: text(200),
  colours: v.optional(v.strictObject({ light: ownColours, dark: ownColours }), {}),
});

export const blocksSchema = v.record(slug, v.strictObject({ title: text(40), summary: text(160) }));
const pinNames = v.optional(v.array(text(60)), []);
const pointPins = v.strictObject({
  chip: v.optional(naming('chip', slug)),
  part: v.optional(naming('part', slug)),
  read: pinNames,
  all: pinNames,
  joins: v.optional(v.array(v.array(text(60))), []),
  never: v.optional(pinKind),
  ground: pinNames,
  side: v.optional(v.picklist(['component', 'solder']), 'component'),
});
export const pointsSchema = v.record(
  slug,
  v.strictObject({ title: text(40), find: text(300), pins: v.optional(pointPins) }),
);
export const chipsSchema = v.record(
  slug,
  v.strictObject({
    title: text(40),
    ask: text(60),
    tell: text(200),
    families: v.optional(v.array(v.picklist(keysOf(partFamilies))), []),
    parts: v.optional(v.array(naming('part', slug)), []),
  }),
);
export const setupsSchema = v.record(
  slug,
  v.strictObject({
    title: text(60),
    minutes: number,
    cautions,
    ends: v.optional(v.picklist(['power-on'])),
    text: text(300),
  }),
);
export const hazardsSchema = v.record(
  slug,
  v.strictObject({ title: text(60), cautions, setup: v.optional(naming('setup', slug)) }),
);
const positive = v.pipe(v.number(), v.finite(), v.gtValue(0, 'a number above 0'));
const notNegative = v.pipe(v.number(), v.finite(), v.minValue(0, '0 or more'));
const accuracyRange = v.strictObject({
  to: positive,
  percent: v.pipe(notNegative, v.maxValue(50, 'at most 50')),
  counts: notNegative,
  resolution: positive,
  'input-resistance': v.optional(positive),
});
const instrumentClass = v.strictObject({
  title: text(60),
  family: slug,
  status,
  'input-resistance': v.optional(positive),
  'input-capacitance': v.optional(positive),
  'ohms-per-volt': v.optional(positive),
  thresholds: v.optional(v.strictObject({ unit: text(10), low: number, high: number, source })),
  quantities: v.record(
    slug,
    v.strictObject({ unit: text(10), ranges: v.pipe(v.array(accuracyRange), v.minLength(1, 'at least one range')) }),
  ),
});
export const instrumentsSchema = v.strictObject({
  families: v.record(
    slug,
    v.strictObject({ title: text(40), reliability: v.pipe(v.number(), v.minValue(0.5), v.maxValue(1)) }),
  ),
  classes: v.record(slug, instrumentClass),
});
export const signsSchema = v.record(slug, v.strictObject({ question: text(100), yes: text(60), no: text(60) }));
export const sourcesSchema = v.record(slug, v.strictObject({ title: text(120), detail: text(300), status }));

const word = v.pipe(
  v.union([v.string(), v.number()]),
  v.transform((value) => String(value).trim()),
  v.nonEmpty('a word'),
  v.maxLength(60, 'at most 60 characters'),
);
const words = v.optional(v.array(word), []);
const aspect = v.pipe(v.string(), v.regex(/^[a-z0-9-]+( (named|gone|fine|[a-z0-9-]+))*$/, 'names of concepts'));
export const thesaurusSchema = v.strictObject({
  concepts: v.record(
    slug,
    v.strictObject({
      words,
      gone: words,
      fine: words,
      near: slugs,
      together: v.optional(v.array(aspect), []),
      ours: v.optional(v.boolean(), false),
      trouble: v.optional(v.boolean(), false),
    }),
  ),
  absence: v.strictObject({ before: words, after: words }),
  fine: words,
  circumstance: words,
  boundary: words,
  ordinary: words,
  trade: words,
  amounts: v.array(
    v.strictObject({
      quantity: v.picklist(['voltage', 'resistance', 'frequency', 'time', 'speed', 'current', 'amplitude']),
      from: number,
      to: number,
      means: slugs,
      absent: v.optional(v.boolean(), false),
      healthy: v.optional(v.boolean(), false),
      target: slugs,
    }),
  ),
  signs: v.record(slug, v.strictObject({ yes: v.optional(v.array(aspect), []), no: v.optional(v.array(aspect), []) })),
});
export const nextDoorSchema = v.record(
  slug,
  v.strictObject({
    title: text(60),
    words,
    hints: words,
    concepts: slugs,
    says: text(400),
    lethal: v.optional(v.boolean(), false),
    apart: v.optional(v.boolean(), false),
    caution: v.optional(naming('caution', slug)),
  }),
);
