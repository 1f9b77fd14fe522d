import type { APIRoute } from 'astro';
import { makePublishedAddress } from '#build/site-links.ts';

/** Everything may be read: RFC 9309. Below a sub-path nobody asks for this file; the host's own has to name the sitemap. */
export const GET: APIRoute = ({ site }) => {
  const sitemap = site === undefined ? '' : `\nSitemap: ${makePublishedAddress(site)({ kind: 'sitemap' })}\n`;
  return new Response(`User-agent: *\nAllow: /\n${sitemap}`, { headers: { 'Content-Type': 'text/plain' } });
};
