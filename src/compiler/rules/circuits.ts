import { findFaults, listReadPoints, readState } from '#core/circuit/rows.ts';
import { spreadLevels } from '#core/model/circuit.ts';
import { printNumber } from '#core/model/target-text.ts';
import type { Rule } from './rule.ts';

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
];
