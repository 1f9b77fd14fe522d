import { symbolOf } from '#core/circuit/drawing.ts';
import { findFaults, listReadPoints, readState } from '#core/circuit/rows.ts';
import { spreadLevels } from '#core/model/circuit.ts';
import type { Circuit, FittedPart } from '#core/model/circuit.ts';
import type { Unit } from '#core/model/library.ts';
import { printNumber } from '#core/model/target-text.ts';
import { suggestName } from '../nearest-name.ts';
import type { Rule, RuleFinding } from './rule.ts';

/** The least share that the answers of a `shows` must hold together where a circuit computes them. */
const leastShare = 0.5;

/** What a simulated circuit says against a tree. */
export const circuitRules: readonly Rule[] = [
  {
    id: 'circuit-agrees',
    group: 'substance',
    isOfWhole: true,
    says: 'What a cause shows at a check is what the circuit of the tree computes for it, where one does.',
    why: 'Two numbers for one thing: one of them sends the reader the wrong way.',
    wrong: '<Cause id="fuse-open" title="Fuse open" chance="common" shows="lamp=no rail=in">',
    right: '<Cause id="fuse-open" title="Fuse open" chance="common" shows="lamp=no rail=none|low">',
    *findInTree({ tree, library }) {
      const points = listReadPoints(tree);
      for (const cause of tree.nodes) {
        if (cause.kind !== 'cause' && cause.kind !== 'elsewhere') continue;
        for (const [check, row] of Object.entries(tree.computed[cause.id] ?? {})) {
          const shown = Object.hasOwn(cause.shows, check) ? (cause.shows[check] ?? []) : [];
          const share = shown.reduce((sum, word) => sum + (row[word] ?? 0), 0);
          const read = points.find(({ id }) => id === check);
          const [found] = findFaults(tree, cause, library);
          if (shown.length === 0 || share >= leastShare || read === undefined || found === undefined) continue;
          const state = readState(found.circuit, found.fault, read, library);
          const [low = 0, high = 0] = [0.05, 0.95].map(
            (level) => state?.spread[spreadLevels.indexOf(level as 0.05) + 1],
          );
          const [likeliest] = Object.entries(row).toSorted(([, one], [, other]) => other - one)[0] ?? ['another'];
          yield {
            key: `node/${cause.id}@shows`,
            message: `Unexpected \`${check}=${shown.join('|')}\` of \`${cause.id}\`, expected \`${likeliest}\`: circuit ${found.circuit.slug} computes ${printNumber(low)} to ${printNumber(high)} ${state?.target.unit ?? ''}, so \`${shown.join('|')}\` comes ${Math.round(100 * share)} times in 100.`,
            help: 'Correct `shows`, or the range of the fault in the circuit if that is what is wrong, and run npm run simulate.',
          };
        }
      }
    },
  },
  {
    id: 'circuit-used',
    group: 'links',
    isOfWhole: true,
    says: 'A tree names a circuit only where one of its causes is a fault of that circuit.',
    why: 'A circuit on which nothing rests tells its reader nothing about this tree.',
    wrong: 'circuits: [sample-supply]',
    right: 'circuits: []',
    *findInAll({ library, trees }) {
      for (const { tree, file } of trees) {
        for (const [index, slug] of tree.circuits.entries()) {
          const circuit = library.circuits.get(slug);
          if (circuit === undefined) continue;
          const names = new Set(Object.entries(circuit.faults).flatMap(([id, { also }]) => [id, ...also]));
          if (tree.nodes.some(({ id }) => names.has(id))) continue;
          yield {
            file,
            key: `front/circuits/${index}`,
            message: `Unexpected circuit \`${slug}\`, expected one with a fault that is a cause here.`,
            help: `Its faults: ${[...names].join(', ')}. Add the cause’s id to \`also\` of one of them, or take the circuit out.`,
          };
        }
      }
    },
  },
  {
    id: 'unit-circuit',
    group: 'substance',
    says: 'A part that a unit gives a circuit is drawn there, sits on one of its boards or is `off-board`, and has the value that the words of the unit give it.',
    why: 'A drawing that names another part than the board bears, or another value, sends the reader to the wrong one.',
    wrong: 'circuits: { sample-supply: { RLOAD: "IC3, 100 µF" } }',
    right: 'circuits: { sample-supply: { RLOAD: "IC3, 100 Ω" } }',
    from: 'a unit',
    isOfWhole: true,
    *findInAll({ library }) {
      for (const unit of library.units.values())
        for (const [slug, fitted] of Object.entries(unit.circuits)) {
          const circuit = library.circuits.get(slug);
          if (circuit === undefined) continue;
          for (const [element, part] of Object.entries(fitted)) yield* findMisfit(unit, circuit, element, part);
        }
    },
  },
];

/** What a value ends with, by the letter of the elements that the symbol is for. */
const unitsOf: Readonly<Record<string, string>> = { R: 'Ω', C: 'F', L: 'H' };

function* findMisfit(unit: Unit, circuit: Circuit, element: string, part: FittedPart): Iterable<RuleFinding> {
  const where = { file: `content/units/${unit.slug}.mdx`, key: `front/circuits/${circuit.slug}/${element}` };
  const firsts = circuit.drawing.parts.flatMap(({ elements: [first] }) => first ?? []);
  const drawn = circuit.drawing.parts.find(({ elements: [first] }) => first === element);
  if (drawn === undefined) {
    yield {
      ...where,
      message: `Unexpected \`${element}\`, expected one of ${firsts.join(', ')}.`,
      help: `Name what the drawing of ${circuit.slug} shows; of several elements that stand for one part, the first.${suggestName(element, firsts)}`,
    };
    return;
  }
  if (part === 'none') return;
  const { placement } = unit;
  const names = placement && [
    ...placement.boards.flatMap(({ parts }) => parts.map(({ name }) => name)),
    ...placement.offBoard,
  ];
  if (names?.includes(part.name) === false)
    yield {
      ...where,
      message: `Unexpected \`${part.name}\`, expected a part that the placement has.`,
      help: `Place it on its board, or name it under \`off-board\`.${suggestName(part.name, names)}`,
    };
  if (part.value === undefined) return;
  const unitOfValue =
    unitsOf[symbolOf(drawn.symbol).of ?? (drawn.value === undefined ? '' : element.charAt(0).toUpperCase())];
  if (unitOfValue === undefined || !part.value.endsWith(unitOfValue))
    yield {
      ...where,
      message: `Unexpected value \`${part.value}\`, expected ${unitOfValue === undefined ? 'none' : `one in ${unitOfValue}`}.`,
      help: 'Give a value only to a resistor, a capacitor or a coil, in its own unit.',
    };
  const said = findValueTold(unit, part.name);
  if (said !== undefined && said !== part.value)
    yield {
      ...where,
      message: `Unexpected value \`${part.value}\` of \`${part.name}\`, expected \`${said}\` as the words of this unit have it.`,
      help: 'Correct the one that is wrong.',
    };
}

/** The value that follows a part’s name in the words of the unit’s points, as in `R12, 4.7 kΩ`. */
function findValueTold({ points }: Unit, name: string): string | undefined {
  return Object.values(points)
    .flatMap((words) => [...words.matchAll(/\b(?<part>[A-Z]+\d+), (?<value>\d[\d.,]* [pnµmkM]?[ΩFH])(?!\w)/gu)])
    .find(({ groups }) => groups?.['part'] === name)?.groups?.['value'];
}
