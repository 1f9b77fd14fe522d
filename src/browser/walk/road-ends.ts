import { type DecideWord, leadsTo } from '#core/answer/lead.ts';
import type { Answer } from '#core/answer/answer.ts';
import type { MappedNode } from '#core/link/tree-map.ts';
import { makeButton, makeElement } from '../kit/elements.ts';
import { sayTakenBack } from './path-so-far.ts';
import type { WalkPage } from './walk-page.ts';

/** An answer that leads to a hand-over for safety. */
export interface RoadEnd {
  readonly answer: Answer;
  /** The hand-over. */
  readonly end: MappedNode;
}

/**
 * Finds the answers of this tree that end the road, and says so above the sheet on every page but the hand-over's own, with the way to
 * take the answer back. `decide` judges readings where the tree's data is here.
 */
export function showRoadEnds(root: ParentNode, page: WalkPage, decide?: DecideWord): readonly RoadEnd[] {
  const ends = page.state.answers.flatMap((answer): readonly RoadEnd[] => {
    const to = leadsTo(answer, page.map.nodes, decide);
    const end = page.map.nodes.find(({ id, isFinal }) => id === to && isFinal === true);
    return end === undefined ? [] : [{ answer, end }];
  });
  const here = root.querySelector<HTMLElement>('.node.alone')?.dataset['node'];
  const notices = root.querySelector('.notices');
  const lines = ends.filter(({ end }) => end.id !== here).map((one) => tell(one, page));
  const old = [...(notices?.querySelectorAll('[data-road-end]') ?? [])];
  // The same words a second time would be read out a second time.
  if (old.length === lines.length && old.every((line, index) => line.isEqualNode(lines[index] ?? null))) return ends;
  for (const line of old) line.remove();
  notices?.prepend(...lines);
  return ends;
}

function tell({ answer, end }: RoadEnd, page: WalkPage): HTMLElement {
  const { map, state } = page;
  const asked = map.nodes.find(({ id }) => id === answer.node)?.title ?? answer.node;
  const undo = makeButton('Undo this answer', 'press plain', () => {
    page.put({ ...state, answers: state.answers.filter((one) => one !== answer) });
    sayTakenBack(asked);
  });
  return makeElement(
    'p',
    { 'data-road-end': end.id },
    `Your answer to “${asked}” ends this tree: `,
    makeElement('a', { href: page.addressIn(end.id, state) }, end.title),
    '. Take no other step. Was the answer wrong? ',
    undo,
  );
}
