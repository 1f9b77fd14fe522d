import type { Board, Library, MainsExposure } from '../model/library.ts';
import type { Limits, Target } from '../model/target.ts';
import { type BoardTarget, makeBoardTarget } from './board-target.ts';

/** A board as a page's script reads it: texts ready to be put in place. */
export interface BoardData {
  readonly title: string;
  readonly mains: MainsExposure;
  readonly hasTube: boolean;
  readonly points: Readonly<Record<string, string>>;
  /** By target slug: what stands in place of the general numbers. */
  readonly targets: Readonly<Record<string, BoardTarget>>;
  readonly differs: Readonly<Record<string, string>>;
}

/** The data file of a board: its own points, and its own numbers for the targets it changes. */
export function makeBoardData(board: Board, library: Library): BoardData {
  return {
    title: board.title,
    mains: board.mains,
    hasTube: board.hasTube,
    points: board.points,
    targets: Object.fromEntries(
      [...library.targets.values()].flatMap((target) => {
        const limits = limitsOn(board, target);
        return limits === undefined ? [] : [[target.slug, makeBoardTarget(target, limits)] as const];
      }),
    ),
    differs: board.differs,
  };
}

/** The limits a board or its region puts in place of a target's own, or undefined. The board's own go first. */
function limitsOn(board: Board, target: Target): Limits | undefined {
  const own = Object.hasOwn(board.targets, target.slug) ? board.targets[target.slug] : undefined;
  const variant = board.variants.find((name) => Object.hasOwn(target.variants, name));
  return own ?? (variant === undefined ? undefined : target.variants[variant]);
}
