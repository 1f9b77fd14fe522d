import { findNextAsked, type DecideWord, leadsTo } from '#core/answer/lead.ts';
import { type Answer, type LinkState, withAnswer } from '#core/answer/answer.ts';
import { carryInto, printLinkState } from '#core/link/fragment.ts';
import type { Held, WalkPage } from './walk-page.ts';

/** Puts the state of the diagnosis into every link of the page, so that each outcome carries all answers and its own. */
export function updateLinks(root: ParentNode, page: WalkPage, held: Held | undefined): void {
  const { map, state } = page;
  updateOutcomes(root, page, held);
  for (const link of root.querySelectorAll<HTMLAnchorElement>('a[data-carry]')) {
    link.hash = printLinkState(carryInto(state, map.slug, link.dataset['carry'] ?? ''));
  }
  for (const link of root.querySelectorAll<HTMLAnchorElement>('a[data-refuse], a[data-hand-over]')) {
    link.hash = printLinkState(carryInto(state, map.slug, ''));
  }
  const fragment = printLinkState(state);
  for (const link of root.querySelectorAll<HTMLAnchorElement>('a.whole, a[data-start]')) link.hash = fragment;
  for (const link of root.querySelectorAll<SVGAElement>('svg a')) {
    const address = (link.getAttribute('href') ?? '').split('#')[0] ?? '';
    link.setAttribute('href', fragment === '' ? address : `${address}#${fragment}`);
  }
  updateBack(root, page);
  const restart = root.querySelector<HTMLAnchorElement>('[data-restart]');
  const { unit, instrument } = state;
  const empty: LinkState = { unit, instrument, answers: [], did: [], ask: [] };
  if (restart !== null) restart.href = page.addressIn(map.start, empty);
}

/** The outcome links alone: what is typed changes nothing else. */
export function updateOutcomes(root: ParentNode, page: WalkPage, held: Held | undefined): void {
  const { state } = page;
  for (const link of root.querySelectorAll<HTMLAnchorElement>('a.outcome[data-to]')) {
    const stage = link.dataset['stageBad'];
    const node = link.closest<HTMLElement>('article')?.dataset['node'] ?? '';
    const words = (link.dataset['answers'] ?? '').split(' ');
    const given = state.answers.find((one) => one.tree === undefined && one.node === node && one.stage === stage);
    link.classList.toggle('given', given !== undefined && words.includes(given.value));
    const answer = mergeHeld({ tree: undefined, node, stage, value: words[0] ?? '' }, words, held);
    const after = withAnswer(state, answer);
    link.href = page.addressIn(findNextAsked(after, node) ?? link.dataset['to'] ?? '', after);
  }
}

/** A reading at hand goes along with the outcome pressed: as the answer where it says the same, else behind the word. */
function mergeHeld(answer: Answer, words: readonly string[], held: Held | undefined): Answer {
  if (held === undefined || held.answer.node !== answer.node || held.answer.stage !== answer.stage) return answer;
  const { value, readings = [value], instrument } = held.answer;
  if (words.includes(held.verdict)) return held.answer;
  return { ...answer, readings, ...(instrument === undefined ? {} : { instrument }) };
}

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
