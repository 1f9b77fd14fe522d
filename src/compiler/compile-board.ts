import type { Board } from '#core/model/library.ts';
import { compileReference } from './compile-reference.ts';
import type { Positions } from './position.ts';
import type { Report } from './problem.ts';
import { boardSchema } from './schemas.ts';

/** Compiles one board file. Undefined where anything was wrong. */
export function compileBoard(text: string, slug: string, positions: Positions, report: Report): Board | undefined {
  const read = compileReference(text, boardSchema, positions, report);
  if (read === undefined) return undefined;
  const { tube, 'stores-charge': storesCharge, targets, ...front } = read.front;
  return {
    slug,
    ...front,
    hasTube: tube === 'yes',
    storesCharge: storesCharge === 'yes',
    targets: Object.fromEntries(
      Object.entries(targets).map(([name, { low, nominal, high }]) => [name, { low, nominal, high }]),
    ),
    prose: read.prose,
  };
}
