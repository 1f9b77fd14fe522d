import type { APIRoute } from 'astro';
import { respondWithJson } from '#build/json-response.ts';
import { loadLibrary } from '#build/library.ts';
import { makePublishedAddress } from '#build/published-address.ts';
import { makeIndexDocument } from '#core/link/published-data.ts';

export const GET: APIRoute = ({ site }) =>
  respondWithJson(makeIndexDocument(loadLibrary(), makePublishedAddress(site)));
