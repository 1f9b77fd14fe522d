import type { APIRoute } from 'astro';
import { respondWithJson } from '#build/json-response.ts';
import { loadLibrary } from '#build/library.ts';
import { makePublishedAddress } from '#build/published-address.ts';
import type { Target } from '#core/model/target.ts';
import { makeTargetDocument } from '#core/link/published-data.ts';

export function getStaticPaths(): { params: { slug: string }; props: { target: Target } }[] {
  return [...loadLibrary().targets.values()].map((target) => ({ params: { slug: target.slug }, props: { target } }));
}

export const GET: APIRoute<{ target: Target }> = ({ props, site }) =>
  respondWithJson(makeTargetDocument(props.target, makePublishedAddress(site)));
