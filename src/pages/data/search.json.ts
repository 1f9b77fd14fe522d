import type { APIRoute } from 'astro';
import { loadLibrary } from '#build/library.ts';
import { buildSearchIndex } from '#core/search/search-index.ts';

export const GET: APIRoute = () =>
  new Response(JSON.stringify(buildSearchIndex(loadLibrary())), { headers: { 'content-type': 'application/json' } });
