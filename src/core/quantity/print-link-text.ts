import { findUnit, prefixOf } from './unit.ts';

/**
 * A reading as a link carries it, written as people write it; a text that is none comes back as it is.
 * @example printLinkText('0.3ohm') // '0.3 Ω', with a no-break space
 * @example printLinkText('-12uV') // '−12 µV'
 */
export function printLinkText(text: string): string {
  const [, figure, letters = ''] = /^(-?\d+(?:\.\d+)?(?:e-?\d+)?)([A-Za-z]+)$/.exec(text) ?? [];
  const unit = findUnit(letters);
  if (figure === undefined || unit === undefined) return text;
  return `${figure.replaceAll('-', '−')}\u00a0${prefixOf[unit.exponent] ?? ''}${unit.base}`;
}
