/** Puts words into the place of that name below `root`; a live region speaks them only where they changed. */
export function say(root: HTMLElement, where: string, words: string): void {
  const place = root.querySelector(`[data-say="${where}"]`);
  if (place !== null && place.textContent !== words) place.textContent = words;
}
