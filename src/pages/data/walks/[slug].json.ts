import type { APIRoute } from 'astro';
import { loadLibrary } from '#build/library.ts';
import type { FaultTree } from '#core/model/fault-tree.ts';
import { makeWalkData } from '#core/answer/bench-tree.ts';

export function getStaticPaths(): { params: { slug: string }; props: { tree: FaultTree } }[] {
  return [...loadLibrary().trees.values()].map((tree) => ({ params: { slug: tree.slug }, props: { tree } }));
}

export const GET: APIRoute<{ tree: FaultTree }> = ({ props }) =>
  new Response(JSON.stringify(makeWalkData(props.tree, loadLibrary())), {
    headers: { 'content-type': 'application/json' },
  });
