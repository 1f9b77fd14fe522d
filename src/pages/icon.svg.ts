import type { APIRoute } from 'astro';
import { writeIcon } from '#build/draw-icon.ts';
import { loadLibrary } from '#build/library.ts';

/** The site's icon, in the library's colours. */
export const GET: APIRoute = () =>
  new Response(writeIcon(loadLibrary().site.colours.light), { headers: { 'Content-Type': 'image/svg+xml' } });
