import type { BenchTree } from '#core/answer/bench-tree.ts';
import { decideWord, sayJudged } from '#core/answer/judge-answer.ts';
import { sayAnswer } from '#core/answer/say.ts';
import { findNode } from '#core/model/node.ts';
import { showWalked } from './answer-parts.ts';
import { leadsTo } from '#core/answer/lead.ts';
import type { Answer, LinkState } from '#core/answer/answer.ts';
import { benchOf, loadOthers, loadWalk } from './load-bench.ts';
import { type Assessed, assessPage } from './assess-page.ts';
import { showFound } from './found-so-far.ts';
import { showLikely } from './likely-now.ts';
import { showStages } from './stage-list.ts';
import { updateBack } from './update-links.ts';
import type { EngineWords, WalkPage } from './walk-page.ts';

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
  const others = await loadOthers(state.answers);
  if (page.state !== state) return;
  const benchFor = ({ tree }: Answer): BenchTree | undefined => (tree === undefined ? bench : others.get(tree));
  const words: EngineWords = {
    decide,
    say: (answer) => {
      const from = benchFor(answer);
      return from === undefined ? sayAnswer(answer) : sayJudged({ ...answer, tree: undefined }, from);
    },
    titleOf: (answer) => {
      const from = benchFor(answer);
      const node = from && findNode(from.tree, answer.node);
      return node && `${node.title} (${from.tree.title})`;
    },
  };
  const [end] = showWalked(root, page, words);
  const assessed = await assessPage(page, walk, bench);
  if (page.state !== state) return;
  for (const problem of assessed.problems) page.say(problem);
  const here = root.querySelector<HTMLElement>('.node.alone')?.dataset['node'];
  const isLedHere = state.answers.some((answer) => leadsTo(answer, page.map.nodes, decide) === here);
  updateBack(root, page, decide, suggestedNode(assessed));
  showLikely(root, page, assessed, { end: end?.end, isLedHere });
  showFound(root, page, words, assessed);
}

/**
 * The node that the engine goes to next from a state; undefined where it has none to name, or the data of the tree cannot be fetched.
 * Called before there is a state to answer, it fetches what the answer will need.
 */
export async function findSuggested(
  page: Pick<WalkPage, 'map' | 'unit'>,
  state: LinkState | undefined,
): Promise<string | undefined> {
  const walk = await loadWalk(page.map.slug);
  if (walk === undefined || state === undefined) return undefined;
  const { map, unit } = page;
  const bench = benchOf(walk, unit);
  const leads = new Set(state.answers.map((answer) => leadsTo(answer, map.nodes, (one) => decideWord(one, bench))));
  // Where one of the answers ends the road for safety, no other step is taken.
  const end = map.nodes.find(({ id, isFinal }) => isFinal === true && leads.has(id));
  return end?.id ?? suggestedNode(await assessPage({ map, unit, state }, walk, bench));
}

function suggestedNode({ assessment: { next } }: Assessed): string | undefined {
  return 'node' in next ? next.node : undefined;
}
