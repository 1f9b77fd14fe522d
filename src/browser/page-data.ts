import { mapAt, type TreeMap } from '#core/link/tree-map.ts';
import { fetchOnce } from './kit/fetch-once.ts';

/** Path below which the site lies: `/` or `/sub-path/`. */
export function basePath(): string {
  return document.documentElement.dataset['base'] ?? '/';
}

/** What the site calls itself: the last words of every title. */
export function siteName(): string {
  return document.title.split(' · ').at(-1) ?? '';
}

/** So long a press is held; on a network that hangs, the links then lead as the tree says. */
const mostHeldMilliseconds = 10_000;

const link = document.querySelector<HTMLLinkElement>('link[as="fetch"]');
let map: TreeMap | undefined;

/**
 * Done when the map is there, which the page has asked for before any script came. No `await` at the top of a module: of two
 * scripts that import it, Safari runs the second without waiting for it (WebKit bug 242740).
 */
const mapFetched = link === null ? Promise.resolve() : fetchMap(link.href);

/** The map of the page's tree; undefined on a page of no tree, where it could not be fetched, and before it is there. */
export function readTreeMap(): TreeMap | undefined {
  return map;
}

/** Brings an element of a tree's page to life once the map is there, one after the other in the order of these calls. */
export function defineWithMap(name: string, element: CustomElementConstructor): void {
  void mapFetched.then(() => customElements.define(name, element));
}

/** A press on the page that comes before the map does is made when it is there, so that no answer is lost. */
async function fetchMap(address: string): Promise<void> {
  let pressed: HTMLElement | undefined;
  const hold = (event: Event): void => {
    const found = event.target instanceof Element ? event.target.closest<HTMLElement>('main :is(a, button)') : null;
    if (found === null) return;
    event.preventDefault();
    event.stopPropagation();
    pressed = found;
  };
  addEventListener('click', hold, true);
  // Written by our own build, at an address that names what it holds: a parsed boundary.
  const late = new Promise<undefined>((resolve) => {
    setTimeout(resolve, mostHeldMilliseconds);
  });
  const found = await Promise.race([fetchOnce(address, (value) => value as TreeMap), late]);
  removeEventListener('click', hold, true);
  setTimeout(() => pressed?.click());
  const addressed = location.pathname.slice(basePath().length).split('/')[1] ?? '';
  map = found === undefined ? undefined : mapAt(found, addressed);
}
