import type { Answer } from '#core/share/link-state.ts';
import type { TreeMap } from '#core/share/tree-map.ts';

/** Where an answer in words leads. Without the tree's data a reading leads nowhere; a stage leads on where it is bad. */
export function wayByWord({ node, stage, value }: Answer, map: TreeMap): string | undefined {
  if (stage !== undefined && value !== 'bad') return undefined;
  const links = map.nodes.find(({ id }) => id === node)?.links ?? [];
  return links.find(([words]) => words.split(' ').includes(stage ?? value))?.[1];
}
