/** What a person has at the bench, as far as the plan depends on it. */
export interface Bench {
  /** Slugs of the families of instruments owned; undefined: all of them. The senses are always at hand. */
  readonly families: ReadonlySet<string> | undefined;
  /** Minutes this unit is worth before it is given up; undefined: 240. */
  readonly limitMinutes: number | undefined;
  /** Whether the mains ends outside the case, so that its caution asks nothing of a powered check. */
  readonly isMainsOutside: boolean;
}

export const everythingAtHand: Bench = { families: undefined, limitMinutes: undefined, isMainsOutside: false };

/** What everyone carries along. */
const senses: ReadonlySet<string> = new Set(['eyes', 'ears', 'ears-compare', 'nose', 'hands']);

/** Whether a family of instruments is there: owned, or one of the senses. */
export function isAtHand(family: string, { families }: Bench): boolean {
  return families === undefined || senses.has(family) || families.has(family);
}
