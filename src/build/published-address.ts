import type { MakeAddress } from '#core/link/published-data.ts';
import { linkTo } from './site-links.ts';

/** Addresses for published data: absolute where SITE_URL says where the site is, else below its root. */
export function makePublishedAddress(site: URL | undefined): MakeAddress {
  return (place) => (site === undefined ? linkTo(place) : new URL(linkTo(place), site).href);
}
