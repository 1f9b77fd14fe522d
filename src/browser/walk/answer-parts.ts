import { markWalked } from '../mark-walked.ts';
import { wayByWord } from '../way-by-word.ts';
import { showPathSoFar } from './path-so-far.ts';
import { pressRareAnswer } from './rare-answers.ts';
import { showRoadEnds } from './road-ends.ts';
import { pressStageMark } from './stage-marks.ts';
import type { WalkPage } from './walk-page.ts';

/** Lists the answers given so far, draws the way they took and says where it ends for safety, from what the page knows without the tree's data. */
export function showWalked(root: ParentNode, page: WalkPage): void {
  const { answers, did } = page.state;
  const list = root.querySelector('[data-walked]');
  // Without any, the list says so by itself.
  if (list !== null && answers.length + did.length > 0) showPathSoFar(list, page, () => undefined);
  markWalked(root, page.map, page.state);
  showRoadEnds(root, page, (answer) => wayByWord(answer, page.map));
}

/** Takes an answer that is a button instead of a link. */
export function pressAnswer(button: HTMLElement, page: WalkPage): void {
  if (button.dataset['mark'] === undefined) pressRareAnswer(button, page);
  else pressStageMark(button, page);
}
