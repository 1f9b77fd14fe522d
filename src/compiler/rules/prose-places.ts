import type { Outcome, Part, Repair, TreeNode } from '#core/model/fault-tree.ts';
import { listParagraphs, type Prose } from '#core/model/prose.ts';

/** A text that a page of the tree shows, and the key of its place. */
export interface ProsePlace {
  readonly key: string;
  readonly text: string;
  /** Which part of the node it stands in; `step` is the node’s own prose. */
  readonly part: 'step' | 'button' | 'confirm' | 'record' | 'repair' | 'substitute' | 'prove';
}

/** Every text of a node that a reader sees, its title aside, with the place it stands at. */
export function prosePlaces(node: TreeNode): readonly ProsePlace[] {
  const key = `node/${node.id}`;
  const own = makePlaces('step', key, node.prose);
  switch (node.kind) {
    case 'check':
      return [...own, ...buttonPlaces(key, node.outcomes)];
    case 'path':
      return [
        ...own,
        ...node.stages.flatMap(({ id, says }): ProsePlace[] =>
          says === undefined ? [] : [{ key: `${key}/stage/${id}@says`, text: says, part: 'step' }],
        ),
      ];
    case 'cause':
      return [
        ...own,
        ...partPlaces('confirm', `${key}/confirm`, node.confirm),
        ...(node.repair === undefined ? [] : repairPlaces(`${key}/repair`, node.repair)),
        ...partPlaces('prove', `${key}/prove`, node.prove),
      ];
    default:
      return own;
  }
}

function makePlaces(part: ProsePlace['part'], key: string, prose: Prose): readonly ProsePlace[] {
  return listParagraphs(prose).map((text, index) => ({ key: `${key}/prose/${index}`, text, part }));
}

function partPlaces(part: ProsePlace['part'], key: string, written: Part | undefined): readonly ProsePlace[] {
  return written === undefined ? [] : makePlaces(part, key, written.prose);
}

function repairPlaces(key: string, repair: Repair): readonly ProsePlace[] {
  return [
    ...makePlaces('record', `${key}/record`, repair.record),
    ...makePlaces('repair', key, repair.prose),
    ...repair.substitutes.flatMap(({ prose, test }, index): ProsePlace[] => [
      ...makePlaces('substitute', `${key}/substitute/${index}`, prose),
      { key: `${key}/substitute/${index}@test`, text: test, part: 'substitute' },
    ]),
  ];
}

function buttonPlaces(key: string, outcomes: readonly Outcome[]): readonly ProsePlace[] {
  return outcomes.flatMap(({ says }, index): ProsePlace[] =>
    says === undefined ? [] : [{ key: `${key}/outcome/${index}@says`, text: says, part: 'button' }],
  );
}
