import type { LinkState } from '#core/answer/answer.ts';
import { type DecideWord, leadsTo } from '#core/answer/lead.ts';
import type { TreeMap } from '#core/link/tree-map.ts';

/** Marks the nodes and ways that the answers took in every drawing below `root`, and where the reader stands now. */
export function markWalked(root: ParentNode, map: TreeMap, state: LinkState, decide?: DecideWord): void {
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
