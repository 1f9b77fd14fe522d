import type { Cause } from './fault-tree.ts';
import type { References } from './library.ts';
import type { Target } from './target.ts';

/** Quantities that a circuit shows with its power off; a ratio may be either, so its author says. */
const readWithoutPower: ReadonlySet<string> = new Set(['resistance', 'capacitance', 'diode-test', 'ratio']);

/** The targets by which a cause is confirmed or proved, and which are read with power on. */
export function liveReadings({ confirm, prove }: Cause, { targets }: Pick<References, 'targets'>): readonly Target[] {
  return [...(confirm?.targets ?? []), ...(prove?.targets ?? [])].flatMap(({ target: slug }) => {
    const target = targets.get(slug);
    return target === undefined || readWithoutPower.has(target.quantity) ? [] : [target];
  });
}
