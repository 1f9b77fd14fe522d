import { edgeType } from './fit-symbol.ts';
import type { PlacedLabel } from './sheet.ts';
import { type MeasureText, wrapLabel } from './wrap-label.ts';

/** Width that edge labels wrap at, in pixels of the shipped font: about fourteen letters. */
export const edgeLabelWidth = 76;

/** An edge's label in lines, with the size of the gap that it leaves in its line, in even whole pixels across. */
export function measureLabel(label: string, measure: MeasureText): Omit<PlacedLabel, 'x' | 'y'> {
  const lines = wrapLabel(label, edgeLabelWidth, (text) => measure(text, edgeType.size));
  const widest = Math.max(...lines.map((line) => measure(line, edgeType.size)));
  return { lines, width: 2 * Math.ceil(widest / 2 + 3), height: lines.length * edgeType.line + 3 };
}
