import { type BaseUnit, findUnit, measuresOf } from '#core/quantity/unit.ts';
import { suggestName } from '../nearest-name.ts';
import type { Rule } from './rule.ts';

/** What each quantity may be measured in. A temperature is °C in content; the reader may type °F. */
export const quantityUnits: Readonly<Record<string, readonly BaseUnit[]>> = {
  'voltage-dc': ['V'],
  'voltage-ac': ['V rms'],
  'voltage-pp': ['Vpp'],
  'diode-test': ['V'],
  current: ['A'],
  'charge-current': ['A'],
  resistance: ['Ω'],
  capacitance: ['F'],
  frequency: ['Hz'],
  speed: ['%'],
  time: ['s'],
  temperature: ['°C'],
  ratio: ['%', 'ppm'],
};

export const quantityUnit: Rule = {
  id: 'quantity-unit',
  group: 'measurement',
  says: 'A target measures a known quantity in a unit of that quantity.',
  why: 'A voltage given in ohms cannot be judged, and no reading typed at the bench will ever fit it.',
  wrong: 'quantity: voltage-dc\nunit: kΩ',
  right: 'quantity: voltage-dc\nunit: V',
  from: 'a target',
  severity: 'error',
  *find({ library }) {
    for (const { slug, quantity, unit } of library.targets.values()) {
      const file = `content/targets/${slug}.mdx`;
      const names = Object.keys(quantityUnits);
      const bases = Object.hasOwn(quantityUnits, quantity) ? quantityUnits[quantity] : undefined;
      if (bases === undefined) {
        yield {
          file,
          key: 'front/quantity',
          message: `Unexpected quantity \`${quantity}\`, expected ${names.join(', ')}.`,
          help: `Choose what is measured.${suggestName(quantity, names)}`,
        };
        continue;
      }
      const found = findUnit(unit);
      if (found !== undefined && bases.includes(found.base)) continue;
      const expected = bases.map((base) => `\`${base}\` (${measuresOf(base)})`).join(' or ');
      yield {
        file,
        key: 'front/unit',
        message: `Unexpected unit \`${unit}\` for the quantity \`${quantity}\`, expected ${expected}.`,
        help: found === undefined ? 'Write the unit as other targets do.' : 'Mend the unit, or the quantity.',
      };
    }
  },
};
