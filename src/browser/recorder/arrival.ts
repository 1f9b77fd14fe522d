import { read, write } from '../kit/storage.ts';

/**
 * The fragment that this page was opened with where its address came from outside: typed, pasted, or from a link that is not this
 * site's; undefined where the reader came by a link or press of this site in this tab. Whoever arrives has said nothing yet.
 */
export const arrivedFragment: string | undefined = findArrival();

/** Marks this entry of the tab's history as walked: what it holds lies in the log. Coming back to it is then no arrival. */
export function markWalkedHere(): void {
  if (!isWalkedHere()) history.replaceState({ isWalked: true }, '');
}

function findArrival(): string | undefined {
  const here = location.pathname + location.hash;
  const pressed = read('pressed');
  write('pressed', undefined);
  document.addEventListener('click', notePress, true);
  const isArrival = judgeArrival(here, pressed);
  write('arrived', isArrival ? here : undefined);
  return isArrival ? location.hash : undefined;
}

function judgeArrival(here: string, pressed: string | undefined): boolean {
  const [entry] = performance.getEntriesByType('navigation');
  const type = entry instanceof PerformanceNavigationTiming ? entry.type : 'navigate';
  if (type === 'reload') return read('arrived') === here;
  // The browser's Back and Forward bring back what was walked, and what was only looked at.
  if (type === 'back_forward') return !isWalkedHere();
  return pressed !== here && !document.referrer.startsWith(`${location.origin}/`);
}

/** Some browsers are set to tell no page where its reader comes from. */
function notePress({ target }: Event): void {
  const link = target instanceof Element ? target.closest<HTMLAnchorElement>('a[href]') : null;
  if (link?.origin === location.origin) write('pressed', link.pathname + link.hash);
}

function isWalkedHere(): boolean {
  // Written above alone: a parsed boundary.
  return (history.state as { readonly isWalked?: boolean } | null)?.isWalked === true;
}
