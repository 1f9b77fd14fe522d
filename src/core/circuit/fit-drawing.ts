import type { DrawnElement, Drawing, FittedPart } from '../model/circuit.ts';
import { symbolOf } from './drawing.ts';

/**
 * The drawing of a circuit with the parts of one unit in it. What the unit does not name keeps its own words, without a name and a value of
 * the general circuit, which no board bears.
 */
export function fitDrawing(drawing: Drawing, fitted: Readonly<Record<string, FittedPart>>): Drawing {
  return { ...drawing, parts: drawing.parts.map((part) => fitPart(part, fitted)) };
}

function fitPart(part: DrawnElement, fitted: Readonly<Record<string, FittedPart>>): DrawnElement {
  const [first = ''] = part.elements;
  const own = Object.hasOwn(fitted, first) ? fitted[first] : undefined;
  if (own === 'none') return { ...part, words: 'none', value: undefined };
  if (own !== undefined) return { ...part, words: own.name, value: own.value };
  const isNamedByValue = symbolOf(part.symbol).value === 'alone';
  return { ...part, words: part.words ?? '', value: isNamedByValue ? part.value : undefined };
}
