import type { TreeWorth } from '#core/diagnosis/tree/measure-worth.ts';
import type { FaultTree } from '#core/model/fault-tree.ts';
import { findNode } from '#core/model/node.ts';
import { makeElement } from '../kit/elements.ts';

const mostNamed = 5;

/** What a tree is worth, as rows of a list: each what it says and the figure, in whole minutes. */
export function fillWorthList(list: HTMLElement, tree: FaultTree, worth: TreeWorth): void {
  list.replaceChildren(
    ...describeWorth(tree, worth).map(([name, words]) =>
      makeElement('div', {}, makeElement('dt', {}, name), makeElement('dd', {}, words)),
    ),
  );
}

/** Minutes are expected working minutes, from the tree's own minutes, chances and what its causes show. */
export function describeWorth(
  tree: FaultTree,
  { isolate, repair, separation, neverPays, advice }: TreeWorth,
): readonly (readonly [name: string, words: string])[] {
  const { chosen } = repair;
  const range = chosen.isExact ? '' : ` (between ${minutes(chosen.atLeast)} and ${minutes(chosen.atMost)})`;
  const alone = Math.round(100 * separation.isolatedToOne);
  return [
    [
      'Until the fault is found',
      `about ${minutes(isolate.written.expectedMinutes)} minutes in your order, ${minutes(isolate.written.worstMinutes)} at worst; ${minutes(isolate.chosen.expectedMinutes)} in the order that pays most`,
    ],
    [
      'Until a repair is proved',
      `about ${minutes(repair.written.expectedMinutes)} minutes in your order, ${minutes(chosen.expectedMinutes)}${range} in the order that pays most; no order is below ${minutes(repair.atLeastMinutes)}`,
    ],
    [
      'Told apart',
      `${alone} % of the faults, by how often they come, are told from all others; ${separation.expectedGroupSize.toFixed(1)} suspects are left on average`,
    ],
    ...listed(
      'Nothing separates',
      separation.pairs.map(({ ends, alike }) => {
        const where = alike.map(({ check }) => nameOf(tree, check)).slice(0, 2);
        const why = where.length === 0 ? 'no check speaks of both' : `alike at ${where.join(' and ')}`;
        return `${ends.map((id) => nameOf(tree, id)).join(' and ')} (${why})`;
      }),
    ),
    ...listed(
      'Separate nothing',
      separation.idleChecks.map((id) => nameOf(tree, id)),
    ),
    ...listed(
      'Never pay for their minutes',
      neverPays.map((id) => nameOf(tree, id)),
    ),
    ...(advice === undefined ? [] : ([['What would help most', advice]] as const)),
  ];
}

function minutes(value: number): string {
  return Number.isFinite(value) ? String(Math.round(value)) : 'no end of';
}

function listed(name: string, items: readonly string[]): readonly (readonly [string, string])[] {
  if (items.length === 0) return [];
  const rest = items.length - mostNamed;
  return [[name, [...items.slice(0, mostNamed), ...(rest > 0 ? [`and ${rest} more`] : [])].join('; ')]];
}

/** Title of a node, or of a path and its stage. */
function nameOf(tree: FaultTree, id: string): string {
  const [nodeId = '', stageId] = id.split('/');
  const node = findNode(tree, nodeId);
  const stage = node?.kind === 'path' ? node.stages.find((candidate) => candidate.id === stageId) : undefined;
  return `“${[node?.title, stage?.title].filter((title) => title !== undefined).join(': ') || id}”`;
}
