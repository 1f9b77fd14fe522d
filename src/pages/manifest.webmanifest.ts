import type { APIRoute } from 'astro';
import { writeManifest } from '#build/draw-icon.ts';
import { loadLibrary } from '#build/library.ts';

/** What a device that installs the site reads. */
export const GET: APIRoute = () =>
  new Response(writeManifest(loadLibrary().site), { headers: { 'Content-Type': 'application/manifest+json' } });
