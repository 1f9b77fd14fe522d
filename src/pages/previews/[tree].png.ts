import type { APIRoute } from 'astro';
import { loadLibrary } from '#build/library.ts';
import { drawsPreviews } from '#build/preview/previews.ts';
import { renderPreview } from '#build/preview/render-preview.ts';
import type { FaultTree } from '#core/model/fault-tree.ts';

export function getStaticPaths(): { params: { tree: string }; props: { tree: FaultTree } }[] {
  if (!drawsPreviews()) return [];
  return [...loadLibrary().trees.values()].map((tree) => ({ params: { tree: tree.slug }, props: { tree } }));
}

export const GET: APIRoute<{ tree: FaultTree }> = ({ props: { tree } }) => {
  const blockTitle = loadLibrary().blocks.get(tree.block)?.title ?? tree.block;
  const picture = renderPreview({ tree, blockTitle, cause: undefined });
  return new Response(picture, { headers: { 'content-type': 'image/png' } });
};
