import { fits, formulas } from '#core/reading/formula.ts';
import { findUnit } from '#core/quantity/unit.ts';
import type { Target } from '#core/model/target.ts';
import { quantityUnits } from './quantity-unit.ts';
import type { Rule } from './rule.ts';

export const computedFits: Rule = {
  id: 'computed-fits',
  group: 'measurement',
  says: 'A target that no instrument shows in one figure says what is entered and how it is computed, with figures that fit the formula.',
  why: 'Nobody divides by hand at a bench: a slip there is a wrong part ordered.',
  wrong:
    'computed: percent\nentered: [{ name: dc, quantity: voltage-dc, unit: V }, { name: ac, quantity: voltage-ac, unit: V rms }]',
  right:
    'computed: trough\nentered: [{ name: dc, quantity: voltage-dc, unit: V }, { name: ac, quantity: voltage-ac, unit: V rms }]',
  from: 'a target',
  severity: 'error',
  *find({ library }) {
    for (const target of library.targets.values()) {
      const found = findMisfit(target);
      if (found !== undefined) yield { file: `content/targets/${target.slug}.mdx`, key: 'front/computed', ...found };
    }
  },
};

function findMisfit({
  slug,
  quantity,
  unit,
  computed,
  entered,
}: Target): { message: string; help: string } | undefined {
  const names = Object.keys(formulas).join(', ');
  if (computed === undefined) {
    if (entered.length > 0)
      return {
        message: `Unexpected \`entered\` in \`${slug}\` without \`computed\`, expected one of ${names}.`,
        help: 'Say how the figures become one number.',
      };
    if (quantity !== 'ratio') return undefined;
    return {
      message: `Unexpected share \`${slug}\` that the reader would have to work out, expected \`computed\` and \`entered\`.`,
      help: 'Write computed: percent, and under entered what is read and what it is compared with.',
    };
  }
  const stray = entered.find((figure) => {
    const bases = Object.hasOwn(quantityUnits, figure.quantity) ? quantityUnits[figure.quantity] : undefined;
    const base = findUnit(figure.unit)?.base;
    return base === undefined || bases?.includes(base) !== true;
  });
  if (stray !== undefined)
    return {
      message: `Unexpected unit \`${stray.unit}\` for the quantity \`${stray.quantity}\`, expected a known quantity in a unit of it.`,
      help: `Mend the figure “${stray.name}” under entered.`,
    };
  const bases = entered.flatMap((figure) => findUnit(figure.unit)?.base ?? []);
  const own = findUnit(unit)?.base;
  if (own !== undefined && fits(formulas[computed], bases, own)) return undefined;
  return {
    message: `Unexpected figures in ${bases.join(', ') || 'no unit'} for \`${computed}\` in ${unit}, expected ${formulas[computed].takes}.`,
    help: `Choose another of ${names}, or mend the units.`,
  };
}
