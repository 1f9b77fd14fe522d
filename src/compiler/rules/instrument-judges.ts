import { judgeInstrument, type Suitability } from '#core/reading/advice.ts';
import { assumeInstrument, measures } from '#core/reading/instrument.ts';
import type { Library } from '#core/model/library.ts';
import type { Target } from '#core/model/target.ts';
import { readingsOf } from './readings-of.ts';
import { defineTreeRule } from './rule.ts';

export const instrumentJudges = defineTreeRule({
  id: 'instrument-judges',
  group: 'measurement',
  says: 'An instrument that a step names can judge its target: the doubt of its ordinary kind is narrower than the healthy window, which ends at 0 where nothing is the least there can be.',
  why: 'A meter coarser than the window calls good circuits bad and bad ones good, whatever it shows.',
  wrong: 'instrument="wide-meter" was="rail-old"',
  right: 'instrument="multimeter" was="rail-old"',
  *find({ tree, library }) {
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
});

function canMeasure(family: string, target: Target, library: Library): boolean {
  const isClass = [...library.instrumentClasses.values()].some(
    (candidate) => candidate.family === family && measures(candidate, target),
  );
  return isClass || target.instruments.includes(family);
}

/** How well the class of a family that is assumed without a choice judges the target; undefined where none of it measures that quantity. */
function judgeFamily(family: string, target: Target, library: Library): Suitability | undefined {
  const classes = new Map([...library.instrumentClasses].filter(([, candidate]) => candidate.family === family));
  const assumed = assumeInstrument({ ...target, instruments: [family] }, classes);
  return assumed === undefined ? undefined : judgeInstrument(target, assumed);
}
