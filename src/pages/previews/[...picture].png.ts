import type { APIRoute } from 'astro';
import { loadLibrary } from '#build/library.ts';
import { drawsPreviews, listCauses } from '#build/previews.ts';
import { renderPreview } from '#build/render-preview.ts';
import type { Cause, FaultTree } from '#core/model/fault-tree.ts';

interface Props {
  readonly tree: FaultTree;
  readonly cause: Cause | undefined;
}

/** The pictures that readers of links show: one for each tree, one for each cause. */
export function getStaticPaths(): { params: { picture: string }; props: Props }[] {
  if (!drawsPreviews()) return [];
  const library = loadLibrary();
  return [
    ...[...library.trees.values()].map((tree) => ({
      params: { picture: tree.slug },
      props: { tree, cause: undefined },
    })),
    ...listCauses(library).map(({ tree, cause }) => ({
      params: { picture: `${tree.slug}/${cause.id}` },
      props: { tree, cause },
    })),
  ];
}

export const GET: APIRoute<Props> = ({ props: { tree, cause } }) => {
  const { blocks, site } = loadLibrary();
  const blockTitle = blocks.get(tree.block)?.title ?? tree.block;
  return new Response(renderPreview({ tree, blockTitle, cause, site }), { headers: { 'content-type': 'image/png' } });
};
