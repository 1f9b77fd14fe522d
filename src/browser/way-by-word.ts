import { type Answer, readShare, reservedAnswers } from '#core/answer/answer.ts';
import type { TreeMap } from '#core/link/tree-map.ts';

/**
 * Where an answer in words leads; so often of so many times counts as sometimes. Without the tree's data a reading leads nowhere; a
 * stage leads on where it is bad.
 */
export function wayByWord({ node, stage, value }: Answer, map: TreeMap): string | undefined {
  if (stage !== undefined && value !== 'bad') return undefined;
  const word = readShare(value) === undefined ? value : reservedAnswers.sometimes;
  const links = map.nodes.find(({ id }) => id === node)?.links ?? [];
  return links.find(([words]) => words.split(' ').includes(stage ?? word))?.[1];
}
