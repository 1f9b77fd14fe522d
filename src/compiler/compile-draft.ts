import type { FaultTree, TreeNode } from '#core/model/fault-tree.ts';
import type { References } from '#core/model/library.ts';
import type { Prose } from '#core/model/prose.ts';
import { emptySite } from '#core/model/site.ts';
import { type CompiledContent, type ContentFile, compileContent } from './compile-content.ts';
import { compileTree, slugOf } from './compile-tree.ts';
import { type DraftLibrary, openReferences } from './draft-library.ts';
import { makeAnew } from './keep.ts';
import { Positions } from './position.ts';
import { type Problem, compareProblems } from './problem.ts';
import { allRules } from './rules/all.ts';
import { type SoundTree, runRules } from './rules/rule.ts';

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
          parts: new Map(),
          circuits: new Map(),
          trees: new Map(trees.map(({ tree }) => [tree.slug, tree])),
          thesaurus: data.thesaurus,
          nextDoor: new Map(),
          site: emptySite,
        },
        trees,
        keep: makeAnew,
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

/**
 * Makes the library that drafts are judged against. Trees with an error are known by their file alone, as in a check.
 * Prose stays behind, and so does the inside of nodes: no rule about a tree reads that of another file.
 *
 * @param files all content, with what was compiled from it where that was done already
 */
export function makeDraftLibrary(
  files: readonly ContentFile[],
  { library, trees, positionsOf }: CompiledContent = compileContent(files),
): DraftLibrary {
  const list = <Row>(table: ReadonlyMap<string, Row>): readonly Row[] => [...table.values()];
  const withoutProse = <Row extends { readonly prose: Prose }>(table: ReadonlyMap<string, Row>) =>
    list(table).map((row) => ({ ...row, prose: [] }));
  return {
    references: {
      blocks: list(library.blocks),
      targets: withoutProse(library.targets),
      cautions: withoutProse(library.cautions),
      // What stands in a unit's own file is judged there.
      units: withoutProse(library.units).map((unit) => ({
        ...unit,
        points: {},
        placement: undefined,
        circuits: {},
        differs: {},
      })),
      points: list(library.points),
      // Those that a step shows for every unit; the others are chosen by a reader.
      parts: list(library.parts).filter(({ slug }) => list(library.points).some(({ pins }) => pins?.part === slug)),
      chips: list(library.chips),
      pictures: list(library.pictures),
      setups: list(library.setups),
      hazards: list(library.hazards),
      instruments: list(library.instruments),
      instrumentClasses: list(library.instrumentClasses),
      signs: list(library.signs),
      sources: list(library.sources).map((source) => ({ ...source, detail: '' })),
    },
    trees: trees.map(({ file, tree }) => ({
      file,
      tree: { ...tree, computed: {}, nodes: tree.nodes.map(keepNames) },
      places: listKeys(tree).map((key) => [key, positionsOf.get(file)?.find(key) ?? 'unavailable'] as const),
    })),
    thesaurus: library.thesaurus,
    files: files.map(({ file }) => file),
  };
}

function listKeys({ symptoms, was }: FaultTree): readonly string[] {
  return [
    'front/title',
    ...symptoms.map((_, index) => `front/symptoms/${index}`),
    ...was.map((_, index) => `front/was/${index}`),
  ];
}

function keepNames(node: TreeNode): TreeNode {
  const emptied = { cautions: [], prose: [] };
  switch (node.kind) {
    case 'check':
      return { ...node, ...emptied, outcomes: [] };
    case 'path':
      return { ...node, ...emptied, stages: [] };
    case 'cause':
      return { ...node, ...emptied, shows: {}, confirm: undefined, repair: undefined, prove: undefined };
    case 'elsewhere':
    case 'hand-over':
      return { ...node, ...emptied, shows: {} };
  }
}
