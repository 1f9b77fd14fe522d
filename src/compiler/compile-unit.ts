import type { Unit } from '#core/model/library.ts';
import { compileReference } from './compile-reference.ts';
import type { Positions } from './position.ts';
import type { Report } from './problem.ts';
import { unitSchema } from './schemas.ts';

/** Compiles one unit file. Undefined where anything was wrong. */
export function compileUnit(text: string, slug: string, positions: Positions, report: Report): Unit | undefined {
  const read = compileReference(text, unitSchema, positions, report);
  if (read === undefined) return undefined;
  const { tube, 'stores-charge': storesCharge, supply, targets, ...front } = read.front;
  return {
    slug,
    ...front,
    hasTube: tube === 'yes',
    storesCharge: storesCharge === 'yes',
    supplyVolts: supply,
    targets: Object.fromEntries(
      Object.entries(targets).map(([name, { low, nominal, high }]) => [name, { low, nominal, high }]),
    ),
    prose: read.prose,
  };
}
