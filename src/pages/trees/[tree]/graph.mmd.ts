import type { APIRoute } from 'astro';
import { loadLibrary } from '#build/library.ts';
import { writeGraphText } from '#build/mermaid.ts';
import { treePages } from '#build/addresses.ts';
import { makePublishedAddress } from '#build/site-links.ts';
import type { FaultTree } from '#core/model/fault-tree.ts';

export function getStaticPaths(): { params: { tree: string }; props: { tree: FaultTree } }[] {
  return treePages(loadLibrary()).map(({ treeSlug, tree }) => ({ params: { tree: treeSlug }, props: { tree } }));
}

/** A tree's graph as the text of a Mermaid flowchart; its nodes are links where SITE_URL says where the site is. */
export const GET: APIRoute<{ tree: FaultTree }> = async ({ props: { tree }, site }) => {
  const makeAddress = makePublishedAddress(site);
  const findAddress = (node: string): string => makeAddress({ kind: 'node', tree: tree.slug, node });
  const text = await writeGraphText(tree, site === undefined ? undefined : findAddress);
  return new Response(text, { headers: { 'content-type': 'text/plain; charset=utf-8' } });
};
