import { expect, it } from 'vitest';
import { printLinkText } from '#core/quantity/print-link-text.ts';

// Signs of units and prefixes, and the space between figure and unit: SI Brochure, 9th edition 2019, sections 3 and 5.4.3.
it.each([
  ['0.3ohm', '0.3\u00a0Ω'],
  ['4.7kohm', '4.7\u00a0kΩ'],
  ['-12uV', '−12\u00a0µV'],
  ['4.71V', '4.71\u00a0V'],
  ['50.0Hz', '50.0\u00a0Hz'],
  ['80pct', '80\u00a0%'],
  ['OL', 'OL'],
  ['no reading', 'no reading'],
  ['4.71parsec', '4.71parsec'],
  ['', ''],
])('%s is written %s', (text, printed) => {
  expect(printLinkText(text)).toBe(printed);
});
