import type { FaultTree, TreeNode } from '#core/model/fault-tree.ts';
import type { Prose } from '#core/model/prose.ts';
import { type CompiledContent, compileContent, type ContentFile } from './compile-content.ts';
import type { DraftLibrary } from './draft-library.ts';

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
      units: withoutProse(library.units),
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
