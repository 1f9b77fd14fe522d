import { judgeInstrument } from '#core/reading/advice.ts';
import { measures } from '#core/reading/instrument.ts';
import type { Library } from '#core/model/library.ts';
import type { Target } from '#core/model/target.ts';
import { readingsOf } from './readings-of.ts';
import { defineTreeRule } from './rule.ts';

/** How much an instrument asks of its owner; families left out ask for something of their own. */
const demand: Readonly<Record<string, number>> = { multimeter: 1, 'logic-probe': 2, oscilloscope: 3 };

export const lesserInstrument = defineTreeRule({
  id: 'lesser-instrument',
  group: 'substance',
  says: 'A step that names only an oscilloscope has a reading that no multimeter or logic probe could judge.',
  why: 'Most benches have a meter and no scope. A step that asks for one turns those readers away.',
  wrong: 'power="on" instrument="oscilloscope" was="rail-old"',
  right: 'power="on" instrument="multimeter" was="rail-old"',
  severity: 'warning',
  *find({ tree, library }) {
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
});

/** Whether a typical instrument of the family judges the target; families without figures judge what the target names them for. */
function judges(family: string, target: Target, library: Library): boolean {
  const classes = [...library.instrumentClasses.values()].filter((candidate) => candidate.family === family);
  if (classes.length === 0) return true;
  return classes.some((candidate) => measures(candidate, target) && judgeInstrument(target, candidate).kind === 'can');
}
