import { judgeInstrument } from '#core/reading/can-judge.ts';
import { measures } from '#core/reading/assume-instrument.ts';
import type { Library } from '#core/model/library.ts';
import type { Target } from '#core/model/target.ts';
import { readingsOf } from './readings-of.ts';
import { defineTreeRule } from './rule.ts';

export const instrumentJudges = defineTreeRule({
  id: 'instrument-judges',
  group: 'measurement',
  says: 'An instrument that a step names can judge its target: its uncertainty is narrower than the healthy window.',
  why: 'A meter coarser than the window calls good circuits bad and bad ones good, whatever it shows.',
  wrong: 'instrument="wide-meter" was="rail-old"',
  right: 'instrument="multimeter" was="rail-old"',
  *find({ tree, library }) {
    for (const { key, instruments, target: slug } of tree.nodes.flatMap(readingsOf)) {
      const target = library.targets.get(slug);
      if (target === undefined) continue;
      if (!instruments.some((family) => canMeasure(family, target, library))) {
        yield {
          key: `${key}@instrument`,
          message: `Unexpected \`${instruments.join(' or ')}\` for target \`${slug}\`, expected an instrument that measures ${target.quantity.replaceAll('-', ' ')}.`,
          help: `Write instrument="${target.instruments.join(' or ')}"; eyes is what is taken where nothing is written.`,
        };
        continue;
      }
      for (const family of instruments) {
        const best = bestOfFamily(family, target, library);
        if (best?.kind !== 'cannot') continue;
        yield {
          key: `${key}@instrument`,
          message: `Unexpected instrument \`${family}\` for target \`${slug}\`, expected one that can judge it: its uncertainty ${best.uncertainty.toPrecision(2)} ${target.unit} is too wide for the window of ${best.windowWidth.toPrecision(2)} ${target.unit}.`,
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

/** How well the best class of a family judges the target; undefined where no class of it measures that quantity. */
function bestOfFamily(
  family: string,
  target: Target,
  library: Library,
): { readonly kind: 'cannot' | 'can'; readonly uncertainty: number; readonly windowWidth: number } | undefined {
  const judged = [...library.instrumentClasses.values()]
    .filter((candidate) => candidate.family === family && measures(candidate, target))
    .map((candidate) => judgeInstrument(target, candidate))
    .filter(({ kind }) => kind !== 'does-not-measure')
    .toSorted((a, b) => a.uncertainty - b.uncertainty);
  const [best] = judged;
  if (best === undefined) return undefined;
  const { uncertainty, windowWidth = 0 } = best;
  return { kind: judged.every(({ kind }) => kind === 'cannot') ? 'cannot' : 'can', uncertainty, windowWidth };
}
