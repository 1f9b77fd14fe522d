import type { FaultTree } from '#core/model/fault-tree.ts';
import type { Library } from '#core/model/library.ts';
import type { CompiledTree } from '../compile-tree.ts';
import type { Explanation } from '../explanation.ts';
import type { Position, Positions } from '../position.ts';
import type { ProblemSeverity } from '../problem.ts';

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

/** One rule over all content, with the words that explain it. */
export interface Rule extends Explanation {
  /** Plain words, printed behind each message. */
  readonly id: string;
  readonly group: RuleGroup;
  readonly severity: ProblemSeverity;
  readonly find: (context: RuleContext) => Iterable<RuleFinding>;
}

/** What a rule about single trees found: the file is known. */
export type TreeFinding = Omit<RuleFinding, 'file'>;

export interface TreeRuleContext extends RuleContext {
  readonly tree: FaultTree;
  readonly file: string;
  readonly positions: Positions;
}

/** A rule that looks at one tree at a time; an error where no severity is given. */
export function defineTreeRule(
  rule: Omit<Rule, 'severity' | 'find'> & {
    readonly severity?: ProblemSeverity;
    readonly find: (context: TreeRuleContext) => Iterable<TreeFinding>;
  },
): Rule {
  return {
    ...rule,
    severity: rule.severity ?? 'error',
    *find(context) {
      for (const { tree, file, positions } of context.trees) {
        if (context.only !== undefined && file !== context.only) continue;
        for (const finding of rule.find({ ...context, tree, file, positions })) yield { file, ...finding };
      }
    },
  };
}
