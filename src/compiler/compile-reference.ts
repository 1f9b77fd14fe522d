import type * as v from 'valibot';
import type { Caution, Unit } from '#core/model/library.ts';
import { type Part, partPackages, type Pin } from '#core/model/part.ts';
import { across, type Picture, type Shape } from '#core/model/picture.ts';
import type { Board } from '#core/model/placement.ts';
import type { Prose } from '#core/model/prose.ts';
import type { Band, Target } from '#core/model/target.ts';
import { readBody } from './element.ts';
import { parseMdx } from './parse-mdx.ts';
import type { ReadContext } from './problem.ts';
import { splitWords } from './read-attributes.ts';
import { readProse } from './read-nodes.ts';
import { readFrontMatter, readYaml } from './read-yaml.ts';
import { cautionSchema, partSchema, pictureSchema, targetSchema, unitSchema } from './schemas.ts';

const noElements: ReadonlySet<string> = new Set();

/** Front matter and prose of a target, caution or unit file, which hold no elements. */
function compileReference<Schema extends v.GenericSchema>(
  text: string,
  schema: Schema,
  context: ReadContext,
): { readonly front: v.InferOutput<Schema>; readonly prose: Prose } | undefined {
  const parsed = parseMdx(text, context);
  if (parsed === undefined) return undefined;
  const body = readBody(parsed.body, noElements, context.report);
  const front = readFrontMatter(parsed.frontMatter, schema, context);
  return front === undefined ? undefined : { front, prose: readProse(body, 'body', context) };
}

/** Compiles one part file. Undefined where anything was wrong. */
export function compilePart(text: string, slug: string, context: ReadContext): Part | undefined {
  const front = readYaml(text, { firstLine: 1, key: 'front' }, partSchema, context);
  if (front === undefined) return undefined;
  // Numbers come in their order, as objects keep them; a jack's letters in the order of the file.
  const pins = Object.entries(front.pins).map(([number, { name, kind, status, doubt }]) => ({
    number,
    name,
    kind,
    status,
    doubt,
  }));
  const { pins: most } = partPackages[front.package];
  const isOutOfPlace = ({ number }: Pin, place: number): boolean => /^\d/.test(number) && number !== String(place + 1);
  if (most !== undefined && (pins.length !== most || pins.some(isOutOfPlace))) {
    context.report({
      rule: 'front-matter',
      position: context.positions.find('front/pins'),
      message: `Unexpected ${pins.length} pins, expected 1 to ${most} of a ${front.package}.`,
      help: 'Give every pin of the package once; one that does nothing is `[not connected, not-connected]`.',
    });
    return undefined;
  }
  const mistaken = Object.entries(front.mistaken).map(([part, says]) => ({ part, says }));
  return { slug, ...front, symbol: front.symbol, pins, mistaken };
}

type PictureFront = v.InferOutput<typeof pictureSchema>;

/** The most rounds of a repeated shape on one graticule: more would be a band, and a file that is slow to draw. */
const mostRounds = 60;

/** Compiles one picture. Undefined where anything was wrong. */
export function compilePicture(text: string, slug: string, context: ReadContext): Picture | undefined {
  const front = readYaml(text, { firstLine: 1, key: 'front' }, pictureSchema, context);
  if (front === undefined) return undefined;
  const { trace, screen, lamps, ...about } = front;
  const kinds = [trace, screen, lamps].filter((kind) => kind !== undefined).length;
  if (kinds !== 1) {
    context.report({
      rule: 'front-matter',
      position: context.positions.find('front'),
      message: `Unexpected ${kinds} of \`trace\`, \`screen\` and \`lamps\`, expected exactly one.`,
      help: 'A picture shows one thing; make a second file for another.',
    });
    return undefined;
  }
  if (screen !== undefined) return { slug, ...about, shown: { kind: 'screen', ...screen } };
  if (lamps !== undefined) return { slug, ...about, shown: { kind: 'lamps', ...lamps } };
  if (trace === undefined || !checkShapes(trace, context)) return undefined;
  const shapes = trace.shapes.flatMap(makeShape);
  return { slug, ...about, shown: { kind: 'trace', ...trace, shapes } };
}

type TraceFront = NonNullable<PictureFront['trace']>;

function makeShape({
  lines,
  sine,
  square,
  ripple,
  charge,
  bits,
  noise,
}: TraceFront['shapes'][number]): readonly Shape[] {
  if (lines !== undefined) return [{ kind: 'lines', ...lines, period: lines.period }];
  if (sine !== undefined) return [{ kind: 'sine', ...sine, top: sine.top, foot: sine.foot }];
  if (square !== undefined) return [{ kind: 'square', ...square }];
  if (ripple !== undefined) return [{ kind: 'ripple', ...ripple }];
  if (charge !== undefined) return [{ kind: 'charge', ...charge }];
  if (bits !== undefined) return [{ kind: 'bits', ...bits }];
  return noise === undefined ? [] : [{ kind: 'noise', ...noise }];
}

function checkShapes({ shapes, time }: TraceFront, { positions, report }: ReadContext): boolean {
  let isSound = true;
  const say = (key: string, message: string, help: string): void => {
    isSound = false;
    report({ rule: 'field-value', position: positions.find(`front/trace/shapes/${key}`), message, help });
  };
  for (const [index, { lines, sine, square, ripple }] of shapes.entries()) {
    const hertz = sine?.hertz ?? square?.hertz ?? ripple?.hertz ?? (lines?.period === undefined ? 0 : 1 / lines.period);
    const rounds = hertz * across * time;
    if (rounds > mostRounds)
      say(
        String(index),
        `Unexpected ${Math.round(rounds)} rounds on ten divisions, expected at most ${mostRounds}.`,
        'Take a shorter time per division, or a lower rate.',
      );
    const points = lines?.points ?? [];
    const back = points.findIndex(([at], place) => at < (points[place - 1]?.[0] ?? 0));
    if (back >= 0)
      say(
        `${index}/lines/points/${back}`,
        'Unexpected point earlier than the one before it.',
        'Put the points in the order of their time.',
      );
    if (
      ripple !== undefined &&
      (ripple.trough >= ripple.top || ripple.mains > ripple.hertz || ripple.hertz > 2 * ripple.mains)
    )
      say(
        `${index}/ripple`,
        'Unexpected ripple, expected a trough below the top, and once or twice the mains in hertz.',
        'Correct the number that is wrong.',
      );
  }
  return isSound;
}

/** Compiles one caution file. Undefined where anything was wrong. */
export function compileCaution(text: string, slug: string, context: ReadContext): Caution | undefined {
  const read = compileReference(text, cautionSchema, context);
  if (read === undefined) return undefined;
  const words = read.front.text.split(/\s+/).length;
  if (words > 60) {
    context.report({
      rule: 'caution-length',
      position: context.positions.find('front/text'),
      message: `Unexpected ${words} words in \`text\`, expected at most 60.`,
      help: 'It must be read at a glance; move the rest into the body.',
    });
    return undefined;
  }
  const { 'open-live': openLive, asks, ...front } = read.front;
  return { slug, ...front, openLive, asks, prose: read.prose };
}

/** Compiles one unit file. Undefined where anything was wrong. */
export function compileUnit(text: string, slug: string, context: ReadContext): Unit | undefined {
  const read = compileReference(text, unitSchema, context);
  if (read === undefined) return undefined;
  const {
    invented,
    tube,
    'supply-kind': supplyKind,
    'stores-charge': storesCharge,
    supply,
    targets,
    placement,
    ...front
  } = read.front;
  return {
    slug,
    ...front,
    isInvented: invented === 'yes',
    supplyKind,
    hasTube: tube === 'yes',
    storesCharge: storesCharge === 'yes',
    supplyVolts: supply,
    placement: placement && {
      boards: placement.boards.map(readBoard),
      points: placement.points,
      elsewhere: placement.elsewhere,
      offBoard: placement['off-board'],
    },
    targets: Object.fromEntries(
      Object.entries(targets).map(([name, { low, nominal, high }]) => [name, { low, nominal, high }]),
    ),
    prose: read.prose,
  };
}

type BoardFront = NonNullable<v.InferOutput<typeof unitSchema>['placement']>['boards'][number];

function readBoard({ size: [width, height], parts, ...board }: BoardFront): Board {
  return { ...board, width, height, parts: Object.entries(parts).map(([name, part]) => ({ name, ...part })) };
}

type Front = v.InferOutput<typeof targetSchema>;

/** Compiles one target file. Undefined where anything was wrong. */
export function compileTarget(text: string, slug: string, context: ReadContext): Target | undefined {
  const read = compileReference(text, targetSchema, context);
  if (read === undefined) return undefined;
  const { front, prose } = read;
  if (!checkOrder(front, context)) return undefined;
  return {
    slug,
    title: front.title,
    quantity: front.quantity,
    unit: front.unit,
    nominal: front.nominal,
    bands: makeBands(front),
    words: front.compare === 'magnitude' ? [...front.words, 'reversed'] : front.words,
    compare: front.compare,
    sign: front.sign,
    conditions: front.conditions,
    instruments: splitWords(front.instrument),
    source: front.source,
    status: front.status,
    variants: Object.fromEntries(
      Object.entries(front.variants).map(([name, { low, nominal, high }]) => [name, { low, nominal, high }]),
    ),
    sourceResistanceOhms: front['source-resistance'],
    misreads: front.misreads.map(({ instrument, from, to, says }) => ({ instrument, from, to, says })),
    computed: front.computed,
    ownValues: front['own-values'],
    entered: front.entered.map(({ name, quantity, unit, marked, optional }) => ({
      name,
      quantity,
      unit,
      isMarked: marked,
      isOptional: optional,
    })),
    prose,
  };
}

/** Bands from the bottom up; neighbours share their edge. */
function makeBands({ bands, none, low, high }: Front): readonly Band[] {
  if (bands !== undefined) return bands.map(({ name, from, to }) => ({ name, from, to }));
  const made: Band[] = [];
  if (none !== undefined) made.push({ name: 'none', from: undefined, to: none });
  if (low !== undefined) made.push({ name: 'low', from: none, to: low });
  made.push({ name: 'in', from: low ?? none, to: high });
  if (high !== undefined) made.push({ name: 'high', from: high, to: undefined });
  return made;
}

function checkOrder(front: Front, { positions, report }: ReadContext): boolean {
  const { none, low, nominal, high, bands } = front;
  const say = (field: string, message: string, help: string): false => {
    report({ rule: 'limit-order', position: positions.find(`front/${field}`), message, help });
    return false;
  };
  if (bands !== undefined) return checkBands(front, say);
  if (none === undefined && low === undefined && high === undefined) {
    return say('unit', 'Unexpected target without a limit, expected `low`, `high` or `bands`.', 'Say what is healthy.');
  }
  const rising = [none, low, high].filter((limit) => limit !== undefined);
  if (rising.some((limit, index) => index > 0 && limit <= (rising[index - 1] ?? limit))) {
    return say(
      'low',
      'Unexpected limits out of order, expected none below low below high.',
      'Exchange them, or fix the number.',
    );
  }
  if (nominal !== undefined && ((low !== undefined && nominal < low) || (high !== undefined && nominal > high))) {
    return say(
      'nominal',
      `Unexpected nominal ${nominal} outside its limits, expected it between low and high.`,
      'Correct one of the three.',
    );
  }
  return true;
}

function checkBands(
  { bands = [], low, high, none }: Front,
  say: (field: string, message: string, help: string) => false,
): boolean {
  if (low !== undefined || high !== undefined || none !== undefined) {
    return say(
      'bands',
      'Unexpected `bands` beside low, high or none, expected one way to say it.',
      'Keep the bands alone.',
    );
  }
  const healthy = bands.filter(({ name }) => name === 'in').length;
  if (healthy !== 1)
    return say('bands', `Unexpected ${healthy} bands \`in\`, expected exactly one.`, 'Name the healthy band `in`.');
  for (const [index, band] of bands.entries()) {
    const next = bands[index + 1];
    if (next !== undefined && (band.to === undefined || band.to !== next.from)) {
      return say(
        `bands/${index}`,
        `Unexpected gap after band \`${band.name}\`, expected the next to begin where it ends.`,
        'Give both the same number.',
      );
    }
    if (band.from !== undefined && band.to !== undefined && band.from >= band.to) {
      return say(
        `bands/${index}`,
        `Unexpected band \`${band.name}\` that ends before it begins.`,
        'Exchange from and to.',
      );
    }
  }
  return true;
}
