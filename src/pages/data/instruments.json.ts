import type { APIRoute } from 'astro';
import { loadLibrary } from '#build/library.ts';

export const GET: APIRoute = () =>
  new Response(JSON.stringify([...loadLibrary().instrumentClasses.values()]), {
    headers: { 'content-type': 'application/json' },
  });
