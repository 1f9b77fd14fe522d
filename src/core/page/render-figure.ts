import type { Status } from '../model/target.ts';
import type { References } from '../model/library.ts';
import { type Chip, findPins, type Part, partPackages, partsOf, type PointPins } from '../model/part.ts';
import { type DrawnPart, drawPart, sayProbed } from './draw-part.ts';
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
}

export interface ChipSheet extends Pick<Chip, 'title' | 'ask' | 'tell'> {
  readonly parts: readonly string[];
}

/** The data file of the parts. */
export function makePartData({ parts, chips, sources }: References): PartData {
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
  };
}

function makePartSheet(
  { slug, title, aliases, package: body, pins, source }: Part,
  sources: References['sources'],
): PartSheet {
  return { slug, title, aliases, package: body, pins, status: sources.get(source)?.status ?? 'memory' };
}

/** What the leads of an instrument are called. */
export function nameLeads(instrument: string | undefined): readonly [read: string, ground: string] {
  return instrument === 'multimeter' ? ['Red lead', 'Black lead'] : ['Tip', 'Ground clip'];
}

/** The figure of a test point on a part: drawn from one side, with its leads and where its pins come from. */
export function renderFigure(
  part: PartSheet,
  at: PointPins,
  leads: readonly [read: string, ground: string],
  side: PointPins['side'] = at.side,
): readonly Markup[] {
  const found = findPins(part, at);
  if (found.read.length === 0)
    return [make('p', { class: 'no-pin' }, `The ${part.title} has no such pin. This step is not for it.`)];
  const probed = { ...found, leads };
  const drawing = drawPart(part, side, probed);
  const isElsewhere = at.ground.length > 0 && found.ground === undefined;
  const isDoubtful = part.status !== 'read' || found.read.some(({ doubt, status }) => doubt ?? status);
  return [
    ...(drawing === undefined
      ? [make('p', {}, `${sayProbed(probed)} ${partPackages[part.package].counted}`)]
      : [drawing]),
    make(
      'figcaption',
      {},
      `${isElsewhere ? `${leads[1]}: to the ground of the board. ` : ''}${part.title}, from the ${side} side${isDoubtful ? '; pins from memory, its data sheet decides' : ''}.`,
    ),
  ];
}

/**
 * The place of a test point's figure: drawn where the part is the same everywhere, else the question which chip the unit has, which
 * the page's script answers from the unit or its reader. Undefined where the point lies on no part.
 * @param isBrief for the parts of a cause and the stages of a path: a part that is the same everywhere is linked, not drawn
 */
export function renderFigurePlace(
  pins: PointPins | undefined,
  instrument: string | undefined,
  { references: { parts, chips, sources }, base, isBrief }: FigurePlace,
): Markup | undefined {
  if (pins === undefined) return undefined;
  const { chip: slug, part: fixed, read, all, never, ground, side } = pins;
  const leads = nameLeads(instrument);
  const part = fixed === undefined ? undefined : parts.get(fixed);
  const chip = slug === undefined ? undefined : chips.get(slug);
  if (part !== undefined)
    return isBrief
      ? make('p', {}, 'Pins: ', make('a', { href: addressOf({ kind: 'part', slug: part.slug }, base) }, part.title))
      : make('figure', { class: 'pins' }, renderFigure(makePartSheet(part, sources), pins, leads));
  if (chip === undefined) return undefined;
  const order: FigureOrder = { read, all, never, ground, side, leads };
  const ask = make(
    'a',
    { class: 'press plain small', href: addressOf({ kind: 'parts' }, base), 'data-choose': true },
    'See the pins',
  );
  return make(
    'figure',
    { class: 'pins', 'data-chip': chip.slug, 'data-at': JSON.stringify(order) },
    isBrief ? ask : make('p', {}, `${chip.ask} `, ask),
  );
}

export interface FigurePlace {
  readonly references: References;
  readonly base: string;
  readonly isBrief: boolean;
}

/** What the build writes into the place of a figure: how a point lies on any part, and what the leads are called. */
export interface FigureOrder extends Omit<PointPins, 'chip' | 'part'> {
  readonly leads: readonly [read: string, ground: string];
}
