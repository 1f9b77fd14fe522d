import * as v from 'valibot';
import { type PlacedKind, placedKinds, type Placement, placementLimits, turns } from './placement.ts';
import { readRecord } from './read-record.ts';

// What a placement may be, for files of units and for jobs alike: bounded, so that a hostile one is no more than an ugly drawing.

const words = (most: number) =>
  v.pipe(v.string('a text'), v.nonEmpty('some words'), v.maxLength(most, `at most ${most} characters`));
const within = (least: number, most: number, what = 'millimetres') =>
  v.pipe(
    v.number('a number'),
    v.finite('a finite number'),
    v.minValue(least, `${what}, at least ${least}`),
    v.maxValue(most, `${what}, at most ${most}`),
  );
const count = (least: number, what: string) =>
  v.pipe(within(least, placementLimits.pins, what), v.integer(`${what}, a whole number`));
const place = within(0, placementLimits.side[1]);
const length = within(2, 100);
const side = within(2, placementLimits.side[1]);
const slug = v.pipe(
  v.string('a slug'),
  v.regex(/^[a-z0-9]+(?:-[a-z0-9]+)*$/, 'small letters, digits and single hyphens'),
  v.maxLength(60, 'at most 60 characters'),
);

/** The schema of a part: its kind says what its size is. `more` are fields that all kinds have besides. */
export function makePartSchema<More extends v.ObjectEntries>(more: More) {
  const common = {
    ...more,
    x: place,
    y: place,
    turn: v.picklist(turns, 'a turn of 0, 90, 180 or 270'),
    print: v.optional(words(placementLimits.name)),
  };
  const sized = <Kind extends PlacedKind, Size extends v.TupleItems>(kind: Kind, ...size: Size) =>
    v.strictObject({ ...common, kind: v.literal(kind), size: v.strictTuple(size) });
  return v.variant(
    'kind',
    [
      sized('chip', v.pipe(count(4, 'pins'), v.multipleOf(2, 'an even number of pins'))),
      sized('legs', count(2, 'legs')),
      sized('plug', count(1, 'contacts'), v.picklist([1, 2], 'one or two rows'), within(1, 12)),
      sized('can', length),
      sized('two', length),
      sized('box', side, side),
    ],
    `one of ${placedKinds.join(', ')}`,
  );
}

export const boardSize = within(...placementLimits.side);
export const boardName = words(placementLimits.boardName);
export const edgeName = words(placementLimits.name);

/** What a reader drew. */
export const placementSchema = v.strictObject({
  boards: v.pipe(
    v.array(
      v.strictObject({
        name: boardName,
        width: boardSize,
        height: boardSize,
        edges: v.strictTuple([edgeName, edgeName]),
        parts: v.pipe(
          v.array(makePartSchema({ name: words(placementLimits.name) })),
          v.maxLength(placementLimits.parts, `at most ${placementLimits.parts} parts`),
        ),
      }),
      'a list of boards',
    ),
    v.minLength(1, 'at least one board'),
    v.maxLength(placementLimits.boards, `at most ${placementLimits.boards} boards`),
  ),
  points: v.pipe(
    v.record(
      slug,
      v.pipe(
        v.array(
          v.union([
            v.strictObject({
              part: words(placementLimits.name),
              pins: v.pipe(v.array(count(1, 'pins')), v.maxLength(placementLimits.pins)),
            }),
            v.strictObject({ board: boardName, x: place, y: place }),
          ]),
        ),
        v.minLength(1, 'at least one place'),
        v.maxLength(placementLimits.spots, `at most ${placementLimits.spots} places`),
      ),
    ),
    v.maxEntries(placementLimits.points, `at most ${placementLimits.points} points`),
  ),
});

/** A placement that was kept as JSON, hostile until read; undefined for anything that is none. */
export function readPlacement(text: string | undefined): Placement | undefined {
  const value = text === undefined ? undefined : readRecord(text);
  const result = v.safeParse(placementSchema, value, { abortEarly: true });
  return result.success ? result.output : undefined;
}

/** A placement as a job holds it. */
export type DrawnPlacement = v.InferOutput<typeof placementSchema>;

/** A drawing as a job can hold it, or what was expected where it cannot. */
export function checkPlacement(drawn: Placement): DrawnPlacement | string {
  const result = v.safeParse(placementSchema, drawn, { abortEarly: true });
  return result.success ? result.output : result.issues[0].message;
}
