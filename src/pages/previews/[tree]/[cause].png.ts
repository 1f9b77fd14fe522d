import type { APIRoute } from 'astro';
import { loadLibrary } from '#build/library.ts';
import { drawsPreviews, listCauses } from '#build/preview/previews.ts';
import { renderPreview } from '#build/preview/render-preview.ts';
import type { Cause, FaultTree } from '#core/model/fault-tree.ts';

interface Props {
  readonly tree: FaultTree;
  readonly cause: Cause;
}

export function getStaticPaths(): { params: { tree: string; cause: string }; props: Props }[] {
  if (!drawsPreviews()) return [];
  return listCauses(loadLibrary()).map((props) => ({
    params: { tree: props.tree.slug, cause: props.cause.id },
    props: { ...props },
  }));
}

export const GET: APIRoute<Props> = ({ props: { tree, cause } }) => {
  const blockTitle = loadLibrary().blocks.get(tree.block)?.title ?? tree.block;
  const picture = renderPreview({ tree, blockTitle, cause });
  return new Response(picture, { headers: { 'content-type': 'image/png' } });
};
