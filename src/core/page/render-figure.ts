import type { Status } from '../model/target.ts';
import type { References, TestPoint } from '../model/library.ts';
import { type Chip, findPins, type Part, partPackages, partsOf, type PointPins } from '../model/part.ts';
import { drawPart } from './draw-part.ts';
import { type DrawnPart, nameLeads, sayProbed } from './leads.ts';
import { addressOf } from '../link/address.ts';
import { make, type Markup } from './markup.ts';

/** A part for the pages: what it takes to choose it and to draw it. */
export interface PartSheet extends DrawnPart, Pick<Part, 'slug' | 'aliases'> {
  readonly status: Status;
}

/** What a page fetches to draw the pins of a unit: every part, and the chips of a unit with the parts that each can be. */
export interface PartData {
  readonly parts: readonly PartSheet[];
  readonly chips: Readonly<Record<string, ChipSheet>>;
  /** How each test point lies on a part. */
  readonly points: Readonly<Record<string, PointPins>>;
}

export interface ChipSheet extends Pick<Chip, 'title' | 'ask' | 'tell'> {
  readonly parts: readonly string[];
}

/** The data file of the parts. */
export function makePartData({ parts, chips, points, sources }: References): PartData {
  return {
    parts: [...parts.values()].map((part) => makePartSheet(part, sources)),
    chips: Object.fromEntries(
      [...chips.values()].map((chip) => [
        chip.slug,
        {
          title: chip.title,
          ask: chip.ask,
          tell: chip.tell,
          parts: partsOf(chip, parts.values()).map(({ slug }) => slug),
        },
      ]),
    ),
    points: Object.fromEntries(
      [...points.values()].flatMap(({ slug, pins }) => (pins === undefined ? [] : [[slug, pins] as const])),
    ),
  };
}

function makePartSheet(
  { slug, title, aliases, package: body, pins, source }: Part,
  sources: References['sources'],
): PartSheet {
  return { slug, title, aliases, package: body, pins, status: sources.get(source)?.status ?? 'memory' };
}

/** The figure of a test point on a part: drawn from one side, with its leads and where its pins come from. */
export function renderFigure(
  part: PartSheet,
  at: PointPins,
  instrument: string | undefined,
  side: PointPins['side'] = at.side,
): readonly Markup[] {
  const found = findPins(part, at);
  if (found.read.length === 0)
    return [make('p', { class: 'no-pin' }, `The ${part.title} has no such pin. This step is not for it.`)];
  const leads = nameLeads(instrument);
  const probed = { ...found, leads };
  const drawing = drawPart(part, side, probed);
  const toBoard = at.ground.length > 0 && found.ground === undefined ? `${leads[1]}: to the ground of the board. ` : '';
  const isDoubtful = part.status === 'memory' || found.read.some(({ doubt, status }) => doubt ?? status);
  const basis =
    part.status === 'practice'
      ? found.read.map(({ doubt }) => (doubt === undefined ? '' : `; ${doubt}`)).join('')
      : isDoubtful
        ? '; pins from memory, its data sheet decides'
        : '';
  const view = side === 'solder' ? 'From the solder side, mirrored.' : partPackages[part.package].counted;
  return [
    drawing ?? make('p', {}, sayProbed(probed)),
    make('figcaption', {}, `${toBoard}${part.title}${basis}. ${view}`),
  ];
}

export interface FigurePlace {
  readonly references: References;
  readonly base: string;
  /** In a part of a cause or a stage of a path: a part that is the same everywhere is linked, not drawn. */
  readonly isBrief: boolean;
}

/**
 * The place of a test point's figure: drawn where the part is the same everywhere, else the question which chip the unit has, which
 * the page's script answers from the unit or its reader. Undefined where the point lies on no part.
 */
export function renderFigurePlace(
  point: TestPoint | undefined,
  instrument: string | undefined,
  { references: { parts, chips, sources }, base, isBrief }: FigurePlace,
): Markup | undefined {
  const pins = point?.pins;
  const part = parts.get(pins?.part ?? '');
  const chip = chips.get(pins?.chip ?? '');
  if (point === undefined || pins === undefined) return undefined;
  if (part !== undefined)
    return isBrief
      ? make('p', {}, 'Pins: ', make('a', { href: addressOf({ kind: 'part', slug: part.slug }, base) }, part.title))
      : make('figure', { class: 'pins' }, renderFigure(makePartSheet(part, sources), pins, instrument));
  if (chip === undefined) return undefined;
  const href = addressOf({ kind: 'parts' }, base);
  const ask = make('a', { class: 'press plain small', href, 'data-choose': true }, 'See the pins');
  return make(
    'figure',
    {
      class: 'pins',
      'data-chip': chip.slug,
      'data-on': point.slug,
      // A meter goes without saying: a page with several such places is short of room.
      'data-with': instrument === 'multimeter' ? undefined : (instrument ?? 'eyes'),
    },
    isBrief ? ask : make('p', {}, `${chip.ask} `, ask),
  );
}
