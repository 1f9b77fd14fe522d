import type { FaultTree } from '#core/model/fault-tree.ts';
import type { Library, References } from '#core/model/library.ts';
import type { CompiledTree } from '../compile-tree.ts';
import type { Positions } from '../position.ts';
import type { ProblemSeverity } from '../problem.ts';

/** A compiled tree whose structure holds. */
export type SoundTree = CompiledTree & { readonly tree: FaultTree };

/** A symptom phrase with the tree file that has it; `key` is its place there. */
export interface OwnedPhrase {
  readonly file: string;
  readonly key: string;
  readonly phrase: string;
}

/** What a rule reads. Of trees that are not judged it holds no more than one tree can ask of another. */
export interface RuleContext {
  readonly library: References & {
    readonly trees: ReadonlyMap<string, { readonly nodes: readonly { readonly id: string }[] }>;
  };
  /** The trees that are judged: all, or a draft alone. */
  readonly trees: readonly SoundTree[];
  /** Symptom phrases of all trees, in the order of the files. */
  readonly phrases: readonly OwnedPhrase[];
  readonly files: readonly { readonly file: string }[];
  readonly positionsOf: ReadonlyMap<string, Positions>;
}

/** What a rule about the library as a whole reads. */
export interface LibraryRuleContext extends RuleContext {
  readonly library: Library;
}

/** What a rule found. `key` names the part (see Positions); message and help as in a problem. */
export interface RuleFinding {
  readonly file: string;
  readonly key: string;
  readonly message: string;
  readonly help: string;
  readonly other?: { readonly file: string; readonly key: string; readonly says: string };
}

/** One rule over all content. */
export interface Rule<Context extends RuleContext = RuleContext> {
  /** Plain words, printed behind each message. */
  readonly id: string;
  /** What the rule asks for, in one sentence. */
  readonly says: string;
  readonly severity: ProblemSeverity;
  readonly find: (context: Context) => Iterable<RuleFinding>;
}

/** What a rule about single trees found: the file is known. */
export type TreeFinding = Omit<RuleFinding, 'file'>;

export interface TreeRuleContext extends RuleContext {
  readonly tree: FaultTree;
  readonly file: string;
  readonly positions: Positions;
}

/** A rule that looks at one tree at a time. */
export function defineTreeRule(rule: {
  readonly id: string;
  readonly says: string;
  readonly severity?: ProblemSeverity;
  readonly find: (context: TreeRuleContext) => Iterable<TreeFinding>;
}): Rule {
  return {
    id: rule.id,
    says: rule.says,
    severity: rule.severity ?? 'error',
    *find(context) {
      for (const { tree, file, positions } of context.trees) {
        for (const finding of rule.find({ ...context, tree, file, positions })) yield { file, ...finding };
      }
    },
  };
}
