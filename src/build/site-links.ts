import { addressOf, type Place } from '#core/link/address.ts';

/** Address of a page of this build, below its base. */
export function linkTo(place: Place): string {
  return addressOf(place, import.meta.env.BASE_URL);
}
