import type { ElementSpec } from '../attribute-spec.ts';
import { causeSpec, confirmSpec, proveSpec, recordSpec, repairSpec } from './cause.ts';
import { checkSpec } from './check.ts';
import { elsewhereSpec, handOverSpec } from './ends.ts';
import { cautionSpec, outcomeSpec, substituteSpec, targetSpec } from './parts.ts';
import { pathSpec, stageSpec } from './path.ts';

/** Every element a tree may hold, nodes first. The element reference is made from this list. */
export const elementSpecs: readonly ElementSpec[] = [
  checkSpec,
  pathSpec,
  causeSpec,
  elsewhereSpec,
  handOverSpec,
  targetSpec,
  outcomeSpec,
  cautionSpec,
  stageSpec,
  confirmSpec,
  repairSpec,
  recordSpec,
  substituteSpec,
  proveSpec,
];

export const elementNames: ReadonlySet<string> = new Set(elementSpecs.map(({ name }) => name));
