import type { APIRoute, GetStaticPaths } from 'astro';
import { writeFeed, writeSitemap } from '#build/feeds.ts';
import { loadLibrary } from '#build/library.ts';
import { makePublishedAddress } from '#build/site-links.ts';

const writers = { feed: writeFeed, sitemap: writeSitemap };

// Both name absolute addresses, so they are there only where SITE_URL says where the site is.
export const getStaticPaths = (() =>
  import.meta.env.SITE === undefined
    ? []
    : Object.entries(writers).map(([feed, write]) => ({
        params: { feed },
        props: { write },
      }))) satisfies GetStaticPaths;

/** feed.xml: the newest trees. sitemap.xml: every page. */
export const GET: APIRoute<{ readonly write: typeof writeFeed }> = ({ props: { write }, site }) =>
  new Response(write(loadLibrary(), makePublishedAddress(site)), {
    headers: { 'Content-Type': 'application/xml' },
  });
