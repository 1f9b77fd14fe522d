import type { FaultTree } from '#core/model/fault-tree.ts';
import type { Library, LibraryBeside } from '#core/model/library.ts';
import type { CompiledTree } from '../compile-tree.ts';
import type { KeepBeside } from '../keep.ts';
import type { Position, Positions } from '../position.ts';
import type { Problem, ProblemSeverity } from '../problem.ts';
import type { Explanation } from '../reader-messages.ts';
import { type ReaderText, textsOfLibrary, textsOfTree } from '../reader-texts.ts';

/** A compiled tree whose structure holds. */
export type SoundTree = CompiledTree & { readonly tree: FaultTree };

export interface RuleContext {
  readonly library: Library;
  readonly trees: readonly SoundTree[];
  readonly files: readonly { readonly file: string; readonly text: string }[];
  readonly positionsOf: ReadonlyMap<string, Positions>;
  /** Remembers what was made of a tree's file. */
  readonly keep: KeepBeside;
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

/** One rule, with the words that explain it: it looks at one tree or the texts of one file at a time, or at all content at once. */
export interface Rule extends Explanation {
  /** Plain words, printed behind each message. */
  readonly id: string;
  readonly group: RuleGroup;
  /** An error where left out. */
  readonly severity?: ProblemSeverity;
  /** It looks at all trees together and has nothing to say of a draft: the drafting page does not carry it. */
  readonly isOfWhole?: true;
  readonly findInTree?: (context: TreeRuleContext) => Iterable<FileFinding>;
  readonly findInTexts?: (context: TextRuleContext) => Iterable<FileFinding>;
  readonly findInAll?: (context: RuleContext) => Iterable<RuleFinding>;
}

/** What a rule about one file found: the file is known. */
export type FileFinding = Omit<RuleFinding, 'file'>;

/** What other trees say changes nothing in what is found here: so it can be kept. */
export interface TreeRuleContext {
  readonly tree: FaultTree;
  readonly file: string;
  readonly library: LibraryBeside;
  readonly positions: Positions;
}

/** All texts of one file that a reader may meet, in the order of the file. */
export interface TextRuleContext {
  readonly file: string;
  readonly texts: readonly ReaderText[];
  readonly library: LibraryBeside;
}

/**
 * Runs rules over compiled content, keeps the findings that are wanted, and gives each its position.
 */
export function runRules(rules: readonly Rule[], context: RuleContext): readonly Problem[] {
  const { library, positionsOf, keep, only } = context;
  const positionOf = (file: string, key: string): Position => positionsOf.get(file)?.find(key) ?? 'unavailable';
  const locate = (
    { id, severity = 'error' }: Rule,
    { file, key, position, message, help, other }: RuleFinding,
  ): Problem => ({
    rule: id,
    severity,
    file,
    position: position ?? positionOf(file, key),
    message,
    help,
    ...(other === undefined
      ? {}
      : { other: { file: other.file, position: positionOf(other.file, other.key), says: other.says } }),
  });
  const inTexts = (file: string, texts: readonly ReaderText[]): readonly Problem[] =>
    rules.flatMap((rule) =>
      [...(rule.findInTexts?.({ file, texts, library }) ?? [])].map((finding) => locate(rule, { file, ...finding })),
    );
  const inTree = ({ tree, file, positions }: SoundTree): readonly Problem[] => [
    ...rules.flatMap((rule) =>
      [...(rule.findInTree?.({ tree, file, positions, library }) ?? [])].map((finding) =>
        locate(rule, { file, ...finding }),
      ),
    ),
    ...inTexts(file, textsOfTree(tree)),
  ];
  const isWanted = ({ file }: { readonly file: string }): boolean => only === undefined || file === only;
  return [
    ...context.trees.filter(isWanted).flatMap((tree) => keep('findings', tree.file, () => inTree(tree))),
    ...(only !== undefined
      ? []
      : keep('findings', '', () => textsOfLibrary(library).flatMap(({ file, texts }) => inTexts(file, texts)))),
    ...rules.flatMap((rule) =>
      [...(rule.findInAll?.(context) ?? [])].filter(isWanted).map((found) => locate(rule, found)),
    ),
  ];
}
