import type { Unit, UnitPlacement } from '#core/model/library.ts';
import { type Board, boardOf, boxOf, type PlacedPart, placeBody, type Spot } from '#core/model/placement.ts';
import { suggestName } from '../nearest-name.ts';
import type { Rule, RuleFinding } from './rule.ts';

/** What a finding in the file of a unit holds, but for the file. */
type Finding = Omit<RuleFinding, 'file'>;

/** The drawing of a unit's boards says the same as the words of its points. */
export const placementRules: readonly Rule[] = [
  {
    id: 'placement-fits',
    group: 'measurement',
    says: 'Parts of a board lie on it, apart from each other, and each name is given once in a unit.',
    why: 'A drawing in which parts lie upon each other sends the probe to the wrong one.',
    wrong: 'IC5: [chip, 40, 30, 20]',
    right: 'IC5: [chip, 40, 30, 60]',
    from: 'a unit',
    isOfWhole: true,
    *findInAll({ library }) {
      for (const { unit, placement, file } of placementsOf(library.units.values()))
        for (const finding of findMisfits(placement)) yield { file: file(unit), ...finding };
    },
  },
  {
    id: 'placement-agrees',
    group: 'measurement',
    says: 'Each test point of a unit is drawn or said to be elsewhere; what is lit is what its words name, pin by pin; every part that the words name is drawn or `off-board`.',
    why: 'A drawing that lights another pin than the words name puts the probe where it harms.',
    wrong: 'regulator-out: IC3.1',
    right: 'regulator-out: IC3.2',
    from: 'a unit',
    isOfWhole: true,
    *findInAll({ library }) {
      for (const { unit, placement, file } of placementsOf(library.units.values()))
        for (const finding of findDisagreements(unit, placement)) yield { file: file(unit), ...finding };
    },
  },
];

function* placementsOf(units: Iterable<Unit>): Iterable<{
  readonly unit: Unit;
  readonly placement: UnitPlacement;
  readonly file: (unit: Unit) => string;
}> {
  for (const unit of units)
    if (unit.placement !== undefined)
      yield { unit, placement: unit.placement, file: ({ slug }) => `content/units/${slug}.mdx` };
}

function* findMisfits({ boards }: UnitPlacement): Iterable<Finding> {
  const named = new Set<string>();
  for (const [index, board] of boards.entries()) {
    for (const [place, part] of board.parts.entries()) {
      const key = `front/placement/boards/${index}/parts/${part.name}`;
      if (named.has(part.name))
        yield {
          key,
          message: `Unexpected \`${part.name}\` again, expected each name once in a unit.`,
          help: 'Give one of the two the name that is printed beside it.',
        };
      named.add(part.name);
      if (isOverEdge(board, part))
        yield {
          key,
          message: `Unexpected \`${part.name}\` over the edge, expected it within ${board.width} by ${board.height} mm.`,
          help: 'Move its centre, or correct the size of the board.',
        };
      const other = board.parts.slice(0, place).find((before) => doOverlap(part, before));
      if (other !== undefined)
        yield {
          key,
          message: `Unexpected \`${part.name}\` upon \`${other.name}\`, expected parts apart from each other.`,
          help: 'Move one of them, or correct its size or turn.',
        };
    }
  }
}

function isOverEdge({ width, height }: Board, part: PlacedPart): boolean {
  const { left, top, right, foot } = boxOf(part);
  return left < 0 || top < 0 || right > width || foot > height;
}

function doOverlap(one: PlacedPart, other: PlacedPart): boolean {
  const [a, b] = [boxOf(one), boxOf(other)];
  return a.left < b.right && b.left < a.right && a.top < b.foot && b.top < a.foot;
}

function* findDisagreements(unit: Unit, placement: UnitPlacement): Iterable<Finding> {
  const { points, elsewhere, offBoard, boards } = placement;
  const parts = boards.flatMap((board) => board.parts);
  const names = parts.map(({ name }) => name);
  for (const [point, words] of Object.entries(unit.points)) {
    const spots = points[point];
    const isElsewhere = elsewhere.includes(point);
    if ((spots === undefined) === !isElsewhere)
      yield {
        key: `front/points/${point}`,
        message: `Unexpected point ${spots === undefined ? 'without a place' : 'both drawn and elsewhere'}, expected \`${point}\` under \`points\` or \`elsewhere\` of the placement.`,
        help: 'Say which part and pin it is, as `IC5.8`, or name it under `elsewhere` where it is on no board.',
      };
    for (const name of designatorsIn(words)) {
      if (names.includes(name) || offBoard.includes(name)) continue;
      yield {
        key: `front/points/${point}`,
        message: `Unexpected \`${name}\`, expected a part that the placement has.`,
        help: `Place it on its board, or name it under \`off-board\`.${suggestName(name, names)}`,
      };
    }
  }
  for (const [point, spots] of Object.entries(points)) {
    const key = `front/placement/points/${point}`;
    const words = unit.points[point];
    if (words === undefined) {
      yield {
        key,
        message: `Unexpected \`${point}\`, expected a point that this unit has words for.`,
        help: 'Write under `points` where it is, or take it away here.',
      };
      continue;
    }
    for (const spot of spots) yield* findWrongSpot(spot, words, placement, key);
  }
}

function* findWrongSpot(spot: Spot, words: string, placement: UnitPlacement, key: string): Iterable<Finding> {
  if (!('part' in spot)) return;
  const part = boardOf(placement, spot)?.parts.find(({ name }) => name === spot.part);
  if (part === undefined) {
    const names = placement.boards.flatMap(({ parts }) => parts.map(({ name }) => name));
    yield {
      key,
      message: `Unexpected \`${spot.part}\`, expected a part of the placement.`,
      help: `Name one that is drawn.${suggestName(spot.part, names)}`,
    };
    return;
  }
  if (!isNamed(part, words))
    yield {
      key,
      message: `Unexpected \`${part.name}\`, expected a part that the words of this point name.`,
      help: 'Light the part that the words are about, or correct the words.',
    };
  const legs = placeBody(part).legs.map(({ number }) => number);
  for (const pin of spot.pins) {
    const isWrong = !legs.includes(pin) || !isPinTold(part, pin, words);
    if (isWrong)
      yield {
        key,
        message: `Unexpected pin ${pin} of \`${part.name}\`, expected ${legs.includes(pin) ? 'a pin that the words of this point name' : `one of its ${legs.length}`}.`,
        help: 'Light the pin that the words are about, or correct the words.',
      };
  }
}

/** Names of parts as boards print them; fuses that are told by their current, `T5 A`, are none. */
function designatorsIn(words: string): readonly string[] {
  return [...words.matchAll(/\b(?:IC|BR|BT|CN|DS|FS|LK|LS|RL|RN|RP|VR|[CDJLQRSTX])\d{1,3}\b(?! m?A\b)/g)].map(
    ([name]) => name,
  );
}

/** By its name, in a range as `IC31 to IC38`, or by what is printed on it. */
function isNamed({ name, print }: PlacedPart, words: string): boolean {
  const said = words.toLowerCase();
  if (said.split(/\W+/).includes(name.toLowerCase())) return true;
  if (print !== undefined && said.includes(print.toLowerCase())) return true;
  const [, letters = '', number = ''] = /^([A-Z]+)(\d+)$/.exec(name) ?? [];
  return [...words.matchAll(/\b([A-Z]+)(\d+) to \1(\d+)\b/g)].some(
    ([, of, from, to]) => of === letters && Number(number) >= Number(from) && Number(number) <= Number(to),
  );
}

/** Pins by their numbers, `30 to 33` too; legs as a bench tells them. What has no such words is not compared. */
function isPinTold({ kind, size: [count = 0] }: PlacedPart, pin: number, words: string): boolean {
  const [, leg] = /\b(left|middle|right|minus) leg\b/.exec(words) ?? [];
  if (kind === 'legs' && count === 3 && leg !== undefined) return ['left', 'middle', 'right'].indexOf(leg) === pin - 1;
  if (kind === 'can' && leg === 'minus') return pin === 2;
  const isNumbered = kind === 'chip' || kind === 'plug' || (kind === 'legs' && /\b(?:pin|leg)s? \d/.test(words));
  if (!isNumbered || words.split(/\W+/).includes(String(pin))) return true;
  return [...words.matchAll(/\b(\d{1,2}) (?:down )?to (\d{1,2})\b/g)].some(([, from, to]) => {
    const [one, other] = [Number(from), Number(to)];
    return pin >= Math.min(one, other) && pin <= Math.max(one, other);
  });
}
