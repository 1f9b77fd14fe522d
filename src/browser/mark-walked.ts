import type { LinkState } from '#core/share/link-state.ts';
import type { TreeMap } from '#core/share/tree-map.ts';

/** Marks the nodes and ways that the answers took in every drawing below `root`, and where the reader stands now. */
export function markWalked(root: ParentNode, map: TreeMap, state: LinkState): void {
  for (const marked of root.querySelectorAll('svg .walked')) marked.classList.remove('walked');
  let now: string | undefined;
  const answers = state.answers.filter(({ tree }) => tree === undefined);
  for (const { node, value, stage } of answers) {
    const links = map.nodes.find(({ id }) => id === node)?.links ?? [];
    const to = links.find(([words]) => words.split(' ').includes(stage ?? value))?.[1];
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
