import type { Answer } from '#core/answer/answer.ts';
import { benchOf, loadWalk } from './load-bench.ts';
import { assessPage } from './assess-page.ts';
import { showLikely } from './likely-now.ts';
import { makeTeller, wayOfAnswer } from './tell-answer.ts';
import { markWalked } from '../mark-walked.ts';
import { showPathSoFar } from './path-so-far.ts';
import { showRoadEnds } from './road-ends.ts';
import { showStages } from './stage-list.ts';
import { updateBack } from './update-back.ts';
import type { WalkPage } from './walk-page.ts';

/** What needs the tree's data: answers in words, the drawn path, what is most likely. Throws where the data cannot be had. */
export async function updateEngine(root: HTMLElement, page: WalkPage): Promise<void> {
  const { state } = page;
  const walk = await loadWalk(page.map.slug);
  if (walk === undefined) throw new Error('The data of the tree cannot be had.');
  // Another answer came while this one was fetched: it draws the page itself.
  if (page.state !== state) return;
  const bench = benchOf(walk, page.unit);
  showStages(root, page, bench);
  if (state.answers.length + state.did.length === 0) {
    showLikely(root, page, undefined);
    return;
  }
  const list = root.querySelector('[data-walked]');
  if (list !== null) showPathSoFar(list, page, makeTeller(bench));
  const wayOf = (answer: Answer): string | undefined => wayOfAnswer(answer, bench);
  updateBack(root, page, wayOf);
  markWalked(root, page.map, state, wayOf);
  const [end] = showRoadEnds(root, page, wayOf);
  const assessed = await assessPage(page, walk, bench);
  if (page.state !== state) return;
  for (const problem of assessed.problems) page.say(problem);
  const here = root.querySelector<HTMLElement>('.node.alone')?.dataset['node'];
  const isLedHere = state.answers.some((answer) => answer.tree === undefined && wayOf(answer) === here);
  showLikely(root, page, assessed, { end: end?.end, isLedHere });
}
