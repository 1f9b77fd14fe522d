/**
 * Whether an address carries answers of a diagnosis, whatever they are worth: its fragment holds a `key=value` pair.
 * @param hash the fragment with its `#`, or ''
 * @example holdsAnswers('#rail-bare=low') === true; holdsAnswers('#step') === false
 */
export function holdsAnswers(hash: string): boolean {
  return hash.includes('=');
}
