import { addressOf } from '#core/link/address.ts';
import type { LinkState } from '#core/answer/answer.ts';
import { parseLinkState, printLinkState } from '#core/link/fragment.ts';
import { namesOf, type TreeMap } from '#core/link/tree-map.ts';
import { basePath, readTreeMap } from '../page-data.ts';
import { readFragment } from '../page-fragment.ts';

/** What this page shows: its tree, the answers in its fragment, and its node where it shows one alone. */
export interface PageState {
  readonly map: TreeMap;
  readonly state: LinkState;
  readonly node: string | undefined;
}

/** Reads the page as it stands now; undefined on a page that belongs to no tree. */
export function readPageState(): PageState | undefined {
  const map = readTreeMap();
  if (map === undefined) return undefined;
  const node = document.querySelector<HTMLElement>('.node.alone')?.dataset['node'];
  return { map, node, state: parseLinkState(readFragment(), namesOf(map)).state };
}

/** The whole address of a node of this tree, or of the tree where no node is given, holding a state. */
export function linkTo(map: TreeMap, node: string | undefined, state: LinkState): string {
  const tree = map.slug;
  const path = addressOf(node === undefined ? { kind: 'tree', tree } : { kind: 'node', tree, node }, basePath());
  const text = printLinkState(state);
  return `${location.origin}${path}${text === '' ? '' : `#${text}`}`;
}
