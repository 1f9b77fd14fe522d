import type { FaultTree } from '#core/model/fault-tree.ts';
import type { Library } from '#core/model/library.ts';
import type { CompiledTree } from '../compile-tree.ts';
import type { Position, Positions } from '../position.ts';
import type { Problem, ProblemSeverity } from '../problem.ts';
import type { Explanation } from '../reader-messages.ts';

/** A compiled tree whose structure holds. */
export type SoundTree = CompiledTree & { readonly tree: FaultTree };

export interface RuleContext {
  readonly library: Library;
  readonly trees: readonly SoundTree[];
  readonly files: readonly { readonly file: string; readonly text: string }[];
  readonly positionsOf: ReadonlyMap<string, Positions>;
  /** The only file whose findings are wanted, for a draft; undefined where all are. */
  readonly only?: string;
}

/** What a rule found. `key` names the part (see Positions); message and help as in a problem. */
export interface RuleFinding {
  readonly file: string;
  readonly key: string;
  /** Where the rule knows the place better than any key does: a word in the text of the file. */
  readonly position?: Position;
  readonly message: string;
  readonly help: string;
  readonly other?: { readonly file: string; readonly key: string; readonly says: string };
}

/** What the rules are about, in the order of the reference. */
export const ruleGroups = ['structure', 'measurement', 'safety', 'substance', 'language', 'links'] as const;
export type RuleGroup = (typeof ruleGroups)[number];

/** One rule, with the words that explain it: it looks at one tree at a time, or at all content at once. */
export interface Rule extends Explanation {
  /** Plain words, printed behind each message. */
  readonly id: string;
  readonly group: RuleGroup;
  /** An error where left out. */
  readonly severity?: ProblemSeverity;
  /** It looks at all trees together and has nothing to say of a draft: the drafting page does not carry it. */
  readonly isOfWhole?: true;
  readonly findInTree?: (context: TreeRuleContext) => Iterable<TreeFinding>;
  readonly findInAll?: (context: RuleContext) => Iterable<RuleFinding>;
}

/** What a rule about single trees found: the file is known. */
export type TreeFinding = Omit<RuleFinding, 'file'>;

export interface TreeRuleContext extends RuleContext {
  readonly tree: FaultTree;
  readonly file: string;
  readonly positions: Positions;
}

/** Runs rules over compiled content, keeps the findings that are wanted, and gives each its position. */
export function runRules(rules: readonly Rule[], context: RuleContext): readonly Problem[] {
  const positionOf = (file: string, key: string): Position => context.positionsOf.get(file)?.find(key) ?? 'unavailable';
  const isWanted = ({ file }: { readonly file: string }): boolean =>
    context.only === undefined || file === context.only;
  const wantedTrees = context.trees.filter(isWanted);
  return rules.flatMap(({ id, severity = 'error', findInTree, findInAll }) => {
    const inTrees = wantedTrees.flatMap(({ tree, file, positions }) =>
      [...(findInTree?.({ ...context, tree, file, positions }) ?? [])].map((finding) => ({ file, ...finding })),
    );
    const found: readonly RuleFinding[] = [...inTrees, ...(findInAll?.(context) ?? [])];
    return found.filter(isWanted).map(({ file, key, position, message, help, other }): Problem => ({
      rule: id,
      severity,
      file,
      position: position ?? positionOf(file, key),
      message,
      help,
      ...(other === undefined
        ? {}
        : { other: { file: other.file, position: positionOf(other.file, other.key), says: other.says } }),
    }));
  });
}
