import { decideWord, sayJudged } from '#core/answer/judge-answer.ts';
import { showWalked } from './answer-parts.ts';
import { leadsTo } from '#core/answer/lead.ts';
import type { Answer } from '#core/answer/answer.ts';
import { benchOf, loadWalk } from './load-bench.ts';
import { assessPage } from './assess-page.ts';
import { showLikely } from './likely-now.ts';
import { showStages } from './stage-list.ts';
import type { WalkPage } from './walk-page.ts';

/** What needs the tree's data: answers in words, the drawn path, what is most likely. Throws where the data cannot be fetched. */
export async function updateEngine(root: HTMLElement, page: WalkPage): Promise<void> {
  const { state } = page;
  const walk = await loadWalk(page.map.slug);
  if (walk === undefined) throw new Error('The data of the tree cannot be fetched.');
  // Another answer came while this one was fetched: it draws the page itself.
  if (page.state !== state) return;
  const bench = benchOf(walk, page.unit);
  showStages(root, page, bench);
  if (state.answers.length + state.did.length === 0) {
    showLikely(root, page, undefined);
    return;
  }
  const decide = (answer: Answer): string | undefined => decideWord(answer, bench);
  const [end] = showWalked(root, page, { decide, say: (answer) => sayJudged(answer, bench) });
  const assessed = await assessPage(page, walk, bench);
  if (page.state !== state) return;
  for (const problem of assessed.problems) page.say(problem);
  const here = root.querySelector<HTMLElement>('.node.alone')?.dataset['node'];
  const isLedHere = state.answers.some((answer) => leadsTo(answer, page.map.nodes, decide) === here);
  showLikely(root, page, assessed, { end: end?.end, isLedHere });
}
