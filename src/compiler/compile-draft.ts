import type { FaultTree } from '#core/model/fault-tree.ts';
import type { References } from '#core/model/library.ts';
import { compileTree, slugOf } from './compile-tree.ts';
import { type DraftLibrary, type KnownTree, openReferences } from './draft-library.ts';
import { Positions } from './position.ts';
import { compareProblems, type Problem } from './problem.ts';
import { treeRules } from './rules/all.ts';
import { listPhrases } from './rules/owned-phrases.ts';
import { runRules } from './rules/run.ts';

/** A draft after reading. */
export interface CompiledDraft {
  readonly tree: FaultTree | undefined;
  /** What `npm run check -- <file>` prints of it. */
  readonly problems: readonly Problem[];
  /** Line on which each node begins, by its id. */
  readonly lineOfNode: ReadonlyMap<string, number>;
}

/** Judges one tree's text at a time against a library that stays. */
export interface DraftCompiler {
  readonly references: References;
  readonly trees: readonly KnownTree[];
  readonly compile: (text: string, file: string) => CompiledDraft;
}

/**
 * Opens a library for drafts. `compile` takes the place of the file of that name, if there is one, and runs the same
 * readers and rules over it as a check of all content; it says of the draft exactly what that check says, in a few
 * hundredths of a second.
 */
export function openDraftCompiler(data: DraftLibrary): DraftCompiler {
  const references = openReferences(data);
  return {
    references,
    trees: data.trees,
    compile: (text, file) => {
      const others = data.trees.filter((tree) => tree.file !== file);
      const { tree, positions, problems } = compileTree(text, file);
      const known: ReadonlyMap<string, { readonly nodes: readonly { readonly id: string }[] }> = new Map([
        ...others.map((other) => [other.slug, other] as const),
        ...(tree === undefined ? [] : [[slugOf(file), tree] as const]),
      ]);
      const files = [...new Set([...data.files, file])].toSorted();
      const found = runRules(treeRules, {
        library: { ...references, trees: known },
        trees: tree === undefined ? [] : [{ file, tree, positions, problems }],
        phrases: [...others, ...(tree === undefined ? [] : [{ file, symptoms: tree.symptoms }])]
          .toSorted((one, other) => (one.file < other.file ? -1 : 1))
          .flatMap((each) => listPhrases(each.file, each)),
        files: files.map((name) => ({ file: name })),
        positionsOf: new Map([
          ...others.map((other) => [other.file, positionsOfPhrases(other)] as const),
          [file, positions],
        ]),
      });
      return {
        tree,
        problems: [...problems, ...found.filter((problem) => problem.file === file)].toSorted(compareProblems),
        lineOfNode: new Map((tree?.nodes ?? []).flatMap(({ id }) => lineOf(positions, id))),
      };
    },
  };
}

function positionsOfPhrases({ places }: KnownTree): Positions {
  const positions = new Positions();
  for (const [index, [line, column]] of places.entries()) positions.set(`front/symptoms/${index}`, { line, column });
  return positions;
}

function lineOf(positions: Positions, id: string): readonly (readonly [string, number])[] {
  const place = positions.find(`node/${id}`);
  return place === 'unavailable' ? [] : [[id, place.line]];
}
