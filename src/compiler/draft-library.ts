import type { FaultTree, TreeNode } from '#core/model/fault-tree.ts';
import type { References } from '#core/model/library.ts';
import { compileContent, type ContentFile } from './compile-content.ts';
import type { Position } from './position.ts';

/** What one tree is judged against, as plain data that survives JSON: tables as lists, of other trees their names. */
export interface DraftLibrary {
  readonly references: { readonly [Table in keyof References]: readonly RowOf<References[Table]>[] };
  readonly trees: readonly NamedTree[];
  /** Paths of all content files, in order. */
  readonly files: readonly string[];
}

type RowOf<Table> = Table extends ReadonlyMap<string, infer Row> ? Row : never;

/** Another tree as far as a tree can ask for it: what it and its nodes are and were called, and its symptom phrases. */
export interface NamedTree {
  readonly file: string;
  readonly tree: FaultTree;
  /** Where its phrases and names stand, by their key in the file. */
  readonly places: readonly (readonly [key: string, position: Position])[];
}

/**
 * Makes the library that drafts are judged against. Trees with an error are known by their file alone, as in a check.
 * Prose stays behind, and so does the inside of nodes: no rule about a tree reads that of another file.
 */
export function makeDraftLibrary(files: readonly ContentFile[]): DraftLibrary {
  const { library, trees, positionsOf } = compileContent(files);
  const list = <Row>(table: ReadonlyMap<string, Row>): readonly Row[] => [...table.values()];
  const withoutProse = <Row extends { readonly prose: readonly string[] }>(table: ReadonlyMap<string, Row>) =>
    list(table).map((row) => ({ ...row, prose: [] }));
  return {
    references: {
      blocks: list(library.blocks),
      targets: withoutProse(library.targets),
      cautions: withoutProse(library.cautions),
      boards: withoutProse(library.boards),
      points: list(library.points),
      setups: list(library.setups),
      hazards: list(library.hazards),
      instruments: list(library.instruments),
      instrumentClasses: list(library.instrumentClasses),
      signs: list(library.signs),
      sources: list(library.sources),
    },
    trees: trees.map(({ file, tree }) => ({
      file,
      tree: { ...tree, nodes: tree.nodes.map(keepNames) },
      places: listKeys(tree).map((key) => [key, positionsOf.get(file)?.find(key) ?? 'unavailable'] as const),
    })),
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

/** The tables of a draft library as every reader of the model wants them. */
export function openReferences({ references }: DraftLibrary): References {
  const bySlug = <Row extends { readonly slug: string }>(rows: readonly Row[]): ReadonlyMap<string, Row> =>
    new Map(rows.map((row) => [row.slug, row]));
  return {
    blocks: bySlug(references.blocks),
    targets: bySlug(references.targets),
    cautions: bySlug(references.cautions),
    boards: bySlug(references.boards),
    points: bySlug(references.points),
    setups: bySlug(references.setups),
    hazards: bySlug(references.hazards),
    instruments: bySlug(references.instruments),
    instrumentClasses: bySlug(references.instrumentClasses),
    signs: bySlug(references.signs),
    sources: bySlug(references.sources),
  };
}
