import { type DecideWord, findNextAsked, leadsTo } from '#core/answer/lead.ts';
import type { Answer, LinkState } from '#core/answer/answer.ts';
import type { WalkPage } from './walk-page.ts';

/**
 * Points Back at the check that the reader comes from. The answer there is taken back only where it led to this page: by the tree, by
 * what a link asks for, or by what the engine suggests, once `suggested` says so. Answers given on this page and kept here stay.
 * `decide` judges readings where the tree's data is here.
 */
export function updateBack(root: ParentNode, page: WalkPage, decide?: DecideWord, suggested?: string): void {
  const link = root.querySelector<HTMLAnchorElement>('[data-back]');
  const here = root.querySelector<HTMLElement>('.node.alone')?.dataset['node'];
  if (link === null || here === undefined) return;
  // Where the page itself leads back to, for a reader who answered nothing before it.
  link.dataset['built'] ??= link.getAttribute('href') ?? '';
  const { state } = page;
  const last = state.answers.findLast(({ tree, node }) => tree === undefined && node !== here);
  if (last === undefined) {
    link.href = link.dataset['built'];
    link.hash = new URL(page.addressIn(here, state), location.href).hash;
    return;
  }
  const hasLedHere =
    suggested === here || leadsTo(last, page.map.nodes, decide) === here || leadsByAsking(state, last, here);
  link.href = page.addressIn(
    last.node,
    hasLedHere ? { ...state, answers: state.answers.filter((answer) => answer !== last) } : state,
  );
}

/** While a link asks, an answer leads to the next check that was asked for. */
function leadsByAsking(state: LinkState, { node }: Answer, here: string): boolean {
  const before = { ...state, answers: state.answers.filter((answer) => answer.node !== here) };
  return findNextAsked(before, node) === here;
}
