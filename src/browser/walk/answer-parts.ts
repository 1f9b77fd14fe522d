import { markWalked } from '../mark-walked.ts';
import { showPathSoFar } from './path-so-far.ts';
import { pressRareAnswer } from './rare-answers.ts';
import { type RoadEnd, showRoadEnds } from './road-ends.ts';
import { pressStageMark } from './stage-marks.ts';
import { updateBack } from './update-back.ts';
import type { EngineWords, WalkPage } from './walk-page.ts';

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
