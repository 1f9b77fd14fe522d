import type { APIRoute } from 'astro';
import { respondWithJson } from '#build/json-response.ts';
import { loadLibrary } from '#build/library.ts';
import { makePublishedAddress } from '#build/published-address.ts';
import type { FaultTree } from '#core/model/fault-tree.ts';
import { makeTreeDocument } from '#core/link/published-data.ts';

export function getStaticPaths(): { params: { slug: string }; props: { tree: FaultTree } }[] {
  return [...loadLibrary().trees.values()].map((tree) => ({ params: { slug: tree.slug }, props: { tree } }));
}

export const GET: APIRoute<{ tree: FaultTree }> = ({ props, site }) =>
  respondWithJson(makeTreeDocument(props.tree, makePublishedAddress(site)));
