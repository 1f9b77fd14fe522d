import { type Place, addressOf } from '#core/link/address.ts';
import type { MakeAddress } from '#core/link/published-data.ts';

/** Address of a page of this build, below its base. */
export function linkTo(place: Place): string {
  return addressOf(place, import.meta.env.BASE_URL);
}

/** Addresses for published data: absolute where SITE_URL says where the site is, else below its root. */
export function makePublishedAddress(site: URL | undefined): MakeAddress {
  return (place) => (site === undefined ? linkTo(place) : new URL(linkTo(place), site).href);
}
