import { showPathSoFar } from './path-so-far.ts';
import { pressRareAnswer } from './rare-answers.ts';
import { type RoadEnd, showRoadEnds } from './road-ends.ts';
import { updateBack } from './update-links.ts';
import type { EngineWords, WalkPage } from './walk-page.ts';
import { withAnswer, type LinkState } from '#core/answer/answer.ts';
import { type DecideWord, leadsTo } from '#core/answer/lead.ts';
import type { TreeMap } from '#core/link/tree-map.ts';

/**
 * Lists the answers given so far, draws the way they took, points Back and says where the road ends for safety. Called once with what
 * the page knows by itself, and with the engine's `words` as soon as the tree's data is here.
 */
export function showWalked(root: ParentNode, page: WalkPage, words?: EngineWords): readonly RoadEnd[] {
  const { answers, did } = page.state;
  const list = root.querySelector('[data-walked]');
  // Without any, the list says so by itself.
  if (list !== null && answers.length + did.length > 0) showPathSoFar(list, page, words);
  markWalked(root, page.map, page.state, words?.decide);
  updateBack(root, page, words?.decide);
  return showRoadEnds(root, page, words?.decide);
}

/** Takes an answer that is a button instead of a link. */
export function pressAnswer(button: HTMLElement, page: WalkPage): void {
  if (button.dataset['mark'] === undefined) pressRareAnswer(button, page);
  else pressStageMark(button, page);
}

/** The Good and Bad buttons of a signal path's stages; a second press takes the answer back. */
function pressStageMark(button: HTMLElement, page: WalkPage): void {
  const node = button.closest<HTMLElement>('article')?.dataset['node'] ?? '';
  const stage = button.closest<HTMLElement>('li')?.dataset['stage'];
  const value = button.dataset['mark'];
  if (stage === undefined || value === undefined) return;
  const { state } = page;
  const isPressed = button.getAttribute('aria-pressed') === 'true';
  const without = state.answers.filter((one) => one.tree !== undefined || one.node !== node || one.stage !== stage);
  page.put(isPressed ? { ...state, answers: without } : withAnswer(state, { tree: undefined, node, stage, value }));
}

/** Marks the nodes and ways that the answers took in every drawing below `root`, and where the reader stands now. */
function markWalked(root: ParentNode, map: TreeMap, state: LinkState, decide?: DecideWord): void {
  for (const marked of root.querySelectorAll('svg .walked')) marked.classList.remove('walked');
  let now: string | undefined;
  const answers = state.answers.filter(({ tree }) => tree === undefined);
  for (const answer of answers) {
    const { node } = answer;
    const to = leadsTo(answer, map.nodes, decide);
    for (const drawn of root.querySelectorAll<SVGElement>('svg .node, svg .edge')) {
      const { node: id, from, to: end } = drawn.dataset;
      if (id === node || (from === node && end === to)) drawn.classList.add('walked');
    }
    now = to ?? now;
  }
  for (const drawn of root.querySelectorAll<SVGElement>('.graph svg .node')) {
    drawn.classList.toggle('here', drawn.dataset['node'] === now);
  }
}
