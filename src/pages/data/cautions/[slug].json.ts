import type { APIRoute } from 'astro';
import { respondWithJson } from '#build/json-response.ts';
import { loadLibrary } from '#build/library.ts';
import { makePublishedAddress } from '#build/published-address.ts';
import type { Caution } from '#core/model/library.ts';
import { makeCautionDocument } from '#core/link/published-data.ts';

export function getStaticPaths(): { params: { slug: string }; props: { caution: Caution } }[] {
  return [...loadLibrary().cautions.values()].map((caution) => ({
    params: { slug: caution.slug },
    props: { caution },
  }));
}

export const GET: APIRoute<{ caution: Caution }> = ({ props, site }) =>
  respondWithJson(makeCautionDocument(props.caution, makePublishedAddress(site)));
