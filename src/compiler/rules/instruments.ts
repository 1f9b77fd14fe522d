import { isStep } from '#core/model/node.ts';
import type { TreeNode } from '#core/model/fault-tree.ts';
import type { LibraryBeside } from '#core/model/library.ts';
import type { Target } from '#core/model/target.ts';
import { type Suitability, judgeInstrument } from '#core/reading/advice.ts';
import { assumeInstrument, measures } from '#core/reading/instrument.ts';
import type { Rule } from './rule.ts';

export const instrumentRules: readonly Rule[] = [
  {
    id: 'instrument-judges',
    group: 'measurement',
    says: 'An instrument that a step names can judge its target: the doubt of its ordinary kind is narrower than the healthy window, which ends at 0 where nothing is the least there can be.',
    why: 'A meter coarser than the window calls good circuits bad and bad ones good, whatever it shows.',
    wrong: 'instrument="wide-meter" was="rail-old"',
    right: 'instrument="multimeter" was="rail-old"',
    *findInTree({ tree, library }) {
      for (const { key, instruments, target: slug } of tree.nodes.flatMap(readingsOf)) {
        const target = library.targets.get(slug);
        // Instruments that do not exist, the step’s or the target’s, are another rule’s matter: no advice may repeat them.
        const named = [...instruments, ...(target?.instruments ?? [])];
        if (target === undefined || named.some((family) => !library.instruments.has(family))) continue;
        if (!instruments.some((family) => canMeasure(family, target, library))) {
          yield {
            key: `${key}@instrument`,
            message: `Unexpected \`${instruments.join(' or ')}\` for target \`${slug}\`, expected an instrument that measures ${target.quantity.replaceAll('-', ' ')}.`,
            help: `Write instrument="${target.instruments.join(' or ')}"; eyes is what is taken where nothing is written.`,
          };
          continue;
        }
        for (const family of instruments) {
          const judged = judgeFamily(family, target, library);
          if (judged?.kind !== 'cannot') continue;
          yield {
            key: `${key}@instrument`,
            message: `Unexpected instrument \`${family}\` for target \`${slug}\`, expected one that can judge it: its uncertainty ${judged.uncertainty.toPrecision(2)} ${target.unit} is too wide for the window of ${(judged.windowWidth ?? 0).toPrecision(2)} ${target.unit}.`,
            help: `Use ${target.instruments.filter((other) => other !== family).join(' or ') || 'a finer instrument'}, or a target with a wider window.`,
          };
        }
      }
    },
  },
  {
    id: 'lesser-instrument',
    group: 'substance',
    says: 'A step that names only an oscilloscope has a reading that no multimeter or logic probe could judge.',
    why: 'Most benches have a meter and no scope. A step that asks for one turns those readers away.',
    wrong: 'power="on" instrument="oscilloscope" was="rail-old"',
    right: 'power="on" instrument="multimeter" was="rail-old"',
    severity: 'warning',
    *findInTree({ tree, library }) {
      for (const node of tree.nodes) {
        const readings = readingsOf(node);
        const [first] = readings;
        // An instrument that does not exist is another rule’s matter: no advice may repeat its name.
        if (first === undefined || first.instruments.some((family) => !library.instruments.has(family))) continue;
        const asked = Math.min(...first.instruments.map((family) => demand[family] ?? 0));
        if (asked === 0) continue;
        const serving = Object.keys(demand).find(
          (family) =>
            (demand[family] ?? 0) < asked &&
            readings.every(({ target: slug }) => {
              const target = library.targets.get(slug);
              return target?.instruments.includes(family) === true && judges(family, target, library);
            }),
        );
        if (serving === undefined) continue;
        yield {
          key: `${first.key}@instrument`,
          message: `Unexpected \`${first.instruments.join(' or ')}\` alone at \`${node.id}\`, expected \`${serving}\` as well: it can judge ${readings.map(({ target }) => `\`${target}\``).join(', ')}.`,
          help: `Write instrument="${[...first.instruments, serving].join(' or ')}", and say how to read it with that.`,
        };
      }
    },
  },
];

function canMeasure(family: string, target: Target, library: LibraryBeside): boolean {
  const isClass = [...library.instrumentClasses.values()].some(
    (candidate) => candidate.family === family && measures(candidate, target),
  );
  return isClass || target.instruments.includes(family);
}

/** How well the class of a family that is assumed without a choice judges the target; undefined where none of it measures that quantity. */
function judgeFamily(family: string, target: Target, library: LibraryBeside): Suitability | undefined {
  const classes = new Map([...library.instrumentClasses].filter(([, candidate]) => candidate.family === family));
  const assumed = assumeInstrument({ ...target, instruments: [family] }, classes);
  return assumed === undefined ? undefined : judgeInstrument(target, assumed);
}

/** How much an instrument asks of its owner; families left out ask for something of their own. */
const demand: Readonly<Record<string, number>> = { multimeter: 1, 'logic-probe': 2, oscilloscope: 3 };

/** Whether a typical instrument of the family judges the target; families without figures judge what the target names them for. */
function judges(family: string, target: Target, library: LibraryBeside): boolean {
  const classes = [...library.instrumentClasses.values()].filter((candidate) => candidate.family === family);
  if (classes.length === 0) return true;
  return classes.some((candidate) => measures(candidate, target) && judgeInstrument(target, candidate).kind === 'can');
}

/** A reading that a step asks for: the target, the families of instruments named, and the key of the node. */
interface Reading {
  readonly key: string;
  readonly instruments: readonly string[];
  readonly target: string;
}

/** The readings a check or path asks for, each target once; other nodes ask for none. */
function readingsOf(node: TreeNode): readonly Reading[] {
  if (!isStep(node)) return [];
  const targets = node.kind === 'check' ? [node.target?.target] : [...new Set(node.stages.map(({ target }) => target))];
  return targets
    .filter((target) => target !== undefined)
    .map((target) => ({ key: `node/${node.id}`, instruments: node.instruments, target }));
}
