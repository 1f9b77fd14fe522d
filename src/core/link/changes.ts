import { type Answer, isWord, type LinkState, readShare, reservedAnswers } from '../answer/answer.ts';
import { printWord } from '../model/target-text.ts';
import type { MappedNode, TreeMap } from './tree-map.ts';

/** So many changes are told one by one; the rest is counted. */
const mostTold = 5;

/**
 * What has changed since a link was made, in sentences: checks that have another name now, trees that have, and answers that
 * their check does not know any more. Nothing of it is lost: the answers stand in the state, by today's names.
 * `fragment` is the link's own, `state` what was read from it.
 */
export function findChanges(fragment: string, map: TreeMap, state: LinkState): readonly string[] {
  const keys = new Set(
    fragment
      .slice(0, 4096)
      .replace(/^#/, '')
      .split('&')
      .flatMap((pair) => {
        const [key = '', value = ''] = pair.split('=');
        return key === 'did' || key === 'ask' ? value.split(',') : [key];
      }),
  );
  const told = [...findRenamed(keys, map), ...findOutdated(map, state)];
  return told.length > mostTold
    ? [...told.slice(0, mostTold - 1), `${told.length - mostTold + 1} more parts of this link have changed since.`]
    : told;
}

function findRenamed(keys: ReadonlySet<string>, map: TreeMap): readonly string[] {
  const today = new Set(map.nodes.map(({ id }) => id));
  const isNamed = (old: string): boolean => {
    const bare = old.replace(`${map.movedFrom ?? ''}/`, '');
    return [...keys].some((key) => key === old || (key === bare && !today.has(bare)) || isStageOf(key, old, today));
  };
  return [
    ...map.nodes.flatMap(({ title, was = [] }) =>
      was.filter(isNamed).map((old) => `“${old}” is called “${title}” now; the link still means the same.`),
    ),
    ...Object.entries({ ...map.renamed, ...Object.fromEntries((map.was ?? []).map((old) => [old, map.slug] as const)) })
      .filter(([old]) => !today.has(old) && [...keys].some((key) => key.startsWith(`${old}/`)))
      .map(([old, slug]) => `The tree “${old}” is called “${slug}” now; the link still means the same.`),
  ];
}

/** Words that any check or path takes. */
const takenAnywhere: ReadonlySet<string> = new Set([reservedAnswers.sometimes, reservedAnswers.unseen, 'bad']);

/** `old/stage`, where `old` is what a path was called. */
function isStageOf(key: string, old: string, today: ReadonlySet<string>): boolean {
  return !old.includes('/') && !today.has(old) && key.startsWith(`${old}/`);
}

function findOutdated(map: TreeMap, { answers }: LinkState): readonly string[] {
  return answers
    .filter((answer) => isOutdated(answer, map))
    .map(({ node, stage, value }) => {
      const title = map.nodes.find(({ id }) => id === node)?.title ?? node;
      return `“${printWord(stage ?? value)}” is not an answer to “${title}” any more; it is kept as text and decides nothing.`;
    });
}

/** True for a word that its check, or a stage that its path, does not know any more. */
export function isOutdated({ tree, node: id, stage, value }: Answer, map: TreeMap): boolean {
  const node = tree === undefined ? map.nodes.find((mapped) => mapped.id === id) : undefined;
  if (node?.kind !== 'check' && node?.kind !== 'path') return false;
  if (stage !== undefined) return !knowsWord(node, stage);
  return isWord(value) && !takenAnywhere.has(value) && readShare(value) === undefined && !knowsWord(node, value);
}

function knowsWord({ links }: MappedNode, word: string): boolean {
  return links.some(({ words }) => words.includes(word));
}
