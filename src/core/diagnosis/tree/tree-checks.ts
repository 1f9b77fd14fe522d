import type { Check, FaultTree, Leaves, SignalPath, Stage } from '../../model/fault-tree.ts';
import type { References } from '../../model/library.ts';
import { checksBefore, wordsOfCheck, isStep } from '../../model/node.ts';

/** One check of the problem: a check of the tree, or one stage of a signal path. */
export interface TreeCheck {
  /** `check`, or `path/stage`. */
  readonly id: string;
  readonly node: Check | SignalPath;
  readonly stage: Stage | undefined;
  /** Outcome words; for a stage `in` and `bad`. */
  readonly words: readonly string[];
  readonly minutes: number;
  /** Ids of set-ups that last, and `after …` of the checks that must have come first. */
  readonly setups: readonly string[];
  /** The check as what others need to have come first; its minutes then stand there. */
  readonly asSetup: { readonly id: string; readonly minutes: number } | undefined;
  /** Ids of checks and paths that must come first, theirs included, in the order of the file. */
  readonly after: readonly string[];
  /** The family it would be done with here; undefined where none of those it asks for is at hand. */
  readonly family: string | undefined;
  /** P(the answer is right), 0 to 1. */
  readonly reliability: number;
  readonly leaves: Leaves;
}

/** Reliability where the family is not in the tables: eyes. Our judgement. */
const defaultReliability = 0.9;
const stageWords = ['in', 'bad'] as const;
/** The planner keeps set-ups as bits of one number; what does not fit is minutes of each check. */
const mostPrerequisites = 16;

/** The checks of a tree in the order of the file, the stages of a path in its place. */
export function collectTreeChecks(
  tree: FaultTree,
  references: Pick<References, 'setups' | 'instruments'>,
  bench: Bench,
): readonly TreeCheck[] {
  const steps = tree.nodes.filter(isStep);
  const needed = new Set(steps.flatMap(({ after }) => after));
  const first = steps
    .filter((step) => step.kind === 'check' && needed.has(step.id))
    .slice(0, mostPrerequisites)
    .map(({ id }) => id);
  return steps.flatMap((node): TreeCheck[] => {
    const after = checksBefore(tree, node);
    const family = node.instruments.find((slug) => isAtHand(slug, bench));
    const lasting = node.needs.filter((slug) => references.setups.get(slug)?.endedBy === undefined);
    const passing = node.needs.filter((slug) => !lasting.includes(slug));
    const passingMinutes = passing.reduce((sum, slug) => sum + (references.setups.get(slug)?.minutes ?? 0), 0);
    const shared = {
      node,
      after,
      family,
      reliability: reliabilityOf(family ?? node.instruments[0], references),
      setups: [...lasting, ...after.filter((id) => first.includes(id)).map(nameSetup)],
    };
    if (node.kind === 'path') {
      return node.stages.map((stage) => ({
        ...shared,
        id: `${node.id}/${stage.id}`,
        stage,
        words: stageWords,
        minutes: stage.minutes + passingMinutes,
        asSetup: undefined,
        leaves: 'nothing',
      }));
    }
    const minutes = node.minutes + node.waitMinutes + passingMinutes;
    const asSetup = first.includes(node.id) ? { id: nameSetup(node.id), minutes } : undefined;
    return [
      {
        ...shared,
        id: node.id,
        stage: undefined,
        words: wordsThatAnswer(tree, node),
        minutes: asSetup === undefined ? minutes : 0,
        setups: asSetup === undefined ? shared.setups : [...shared.setups, asSetup.id],
        asSetup,
        leaves: node.leaves,
      },
    ];
  });
}

function nameSetup(check: string): string {
  return `after ${check}`;
}

function reliabilityOf(family: string | undefined, { instruments }: Pick<References, 'instruments'>): number {
  return (family === undefined ? undefined : instruments.get(family)?.reliability) ?? defaultReliability;
}

/** A check's own words, and `sometimes` where a cause shows it: any check may come out so. */
function wordsThatAnswer(tree: FaultTree, check: Check): readonly string[] {
  const words = [...new Set(wordsOfCheck(check))];
  const isShown = tree.nodes.some(
    (node) =>
      'shows' in node && Object.hasOwn(node.shows, check.id) && (node.shows[check.id] ?? []).includes('sometimes'),
  );
  return isShown && !words.includes('sometimes') ? [...words, 'sometimes'] : words;
}

/** What a person has at the bench, as far as the plan depends on it. */
export interface Bench {
  /** Slugs of the families of instruments owned; undefined: all of them. The senses are always at hand. */
  readonly families: ReadonlySet<string> | undefined;
  /** Minutes this unit is worth before it is given up; undefined: 240. */
  readonly limitMinutes: number | undefined;
  /** Whether the mains ends outside the case, so that its caution asks nothing of a powered check. */
  readonly isMainsOutside: boolean;
  /** Families that an answer says are not at hand, whatever is owned. */
  readonly lacking?: ReadonlySet<string>;
}

export const everythingAtHand: Bench = { families: undefined, limitMinutes: undefined, isMainsOutside: false };

/** What everyone carries along. */
const senses: ReadonlySet<string> = new Set(['eyes', 'ears', 'ears-compare', 'nose', 'hands']);

/** Whether a family of instruments is there: owned, or one of the senses. */
export function isAtHand(family: string, { families, lacking }: Bench): boolean {
  if (lacking?.has(family) === true) return false;
  return families === undefined || senses.has(family) || families.has(family);
}
