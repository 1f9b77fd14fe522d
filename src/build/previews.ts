import type { Place } from '#core/link/address.ts';
import type { Cause, FaultTree, TreeNode } from '#core/model/fault-tree.ts';
import type { Library } from '#core/model/library.ts';

/** The picture that a page shows when it is linked to: where it lies, and what it shows in words. */
export interface Preview {
  readonly place: Place;
  readonly alt: string;
}

/** The picture of a node's page: a cause has its own, every other node that of its tree. */
export function previewOf(tree: FaultTree, node?: TreeNode): Preview {
  return node?.kind === 'cause'
    ? {
        place: { kind: 'preview', tree: tree.slug, node: node.id },
        alt: `${tree.title}: ${node.title}, and where it lies in the fault tree`,
      }
    : { place: { kind: 'preview', tree: tree.slug }, alt: `${tree.title}: the fault tree as a drawing` };
}

/** All causes, each with its tree. */
export function listCauses(library: Library): readonly { readonly tree: FaultTree; readonly cause: Cause }[] {
  return [...library.trees.values()].flatMap((tree) =>
    tree.nodes.flatMap((node) => (node.kind === 'cause' ? [{ tree, cause: node }] : [])),
  );
}

/**
 * Previews need the address the site is published at: readers of links take no other. Without one they are not drawn,
 * but while a tree is being written they are.
 */
export function drawsPreviews(): boolean {
  return import.meta.env.SITE !== undefined || import.meta.env.DEV;
}
