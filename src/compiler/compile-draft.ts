import type { FaultTree } from '#core/model/fault-tree.ts';
import type { References } from '#core/model/library.ts';
import { compileTree, slugOf } from './compile-tree.ts';
import { type DraftLibrary, openReferences } from './draft-library.ts';
import { Positions } from './position.ts';
import { compareProblems, type Problem } from './problem.ts';
import { allRules } from './rules/all.ts';
import type { SoundTree } from './rules/rule.ts';
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
  readonly compile: (text: string, file: string) => CompiledDraft;
}

/**
 * Opens a library for drafts. `compile` takes the place of the tree of that slug, wherever it lies (a draft whose block was
 * changed has moved), and runs the same readers and rules over it as a check of all content; it says of the draft exactly what
 * that check says, in a few hundredths of a second.
 */
export function openDraftCompiler(data: DraftLibrary): DraftCompiler {
  const references = openReferences(data);
  const known = data.trees.map(({ file, tree, places }): SoundTree => {
    const positions = new Positions();
    for (const [key, position] of places) positions.set(key, position);
    return { file, tree, positions, problems: [] };
  });
  return {
    references,
    compile: (text, file) => {
      const compiled = compileTree(text, file);
      const slug = slugOf(file);
      const others = known.filter((other) => slugOf(other.file) !== slug);
      const trees = [...others, ...(isSound(compiled) ? [compiled] : [])].toSorted(compareFiles);
      const found = runRules(allRules, {
        library: {
          ...references,
          trees: new Map(trees.map(({ tree }) => [tree.slug, tree])),
          thesaurus: data.thesaurus,
          nextDoor: new Map(),
        },
        trees,
        files: [
          ...data.files.filter((name) => !isTreeOf(name, slug)).map((name) => ({ file: name, text: '' })),
          { file, text },
        ].toSorted(compareFiles),
        positionsOf: new Map([...others, compiled].map(({ file: name, positions }) => [name, positions])),
        only: file,
      });
      return {
        tree: compiled.tree,
        problems: [...compiled.problems, ...found].toSorted(compareProblems),
        lineOfNode: new Map((compiled.tree?.nodes ?? []).flatMap(({ id }) => lineOf(compiled.positions, id))),
      };
    },
  };
}

function isSound(compiled: { readonly tree: FaultTree | undefined }): compiled is SoundTree {
  return compiled.tree !== undefined;
}

function isTreeOf(file: string, slug: string): boolean {
  return file.startsWith('content/trees/') && slugOf(file) === slug;
}

/** The order in which files are read from the disk. */
function compareFiles(one: { readonly file: string }, other: { readonly file: string }): number {
  return one.file < other.file ? -1 : 1;
}

function lineOf(positions: Positions, id: string): readonly (readonly [string, number])[] {
  const place = positions.find(`node/${id}`);
  return place === 'unavailable' ? [] : [[id, place.line]];
}
