import type { FaultTree, Outcome, Part, Repair, TreeNode } from '#core/model/fault-tree.ts';
import type { LibraryBeside } from '#core/model/library.ts';
import { type Prose, listParagraphs } from '#core/model/prose.ts';

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

/** A text that some page shows, and the key of its place in its file. */
export interface ReaderText {
  readonly key: string;
  readonly text: string;
  /** The node that it stands in, where it does. */
  readonly node?: TreeNode;
}

/** Every text of a tree that a reader may meet. Not symptom phrases, which are the owner’s own words. */
export function textsOfTree(tree: FaultTree): readonly ReaderText[] {
  return [
    { key: 'front/title', text: tree.title },
    { key: 'front/summary', text: tree.summary },
    ...tree.nodes.flatMap((node) =>
      [...titlePlaces(node), ...prosePlaces(node)].map(({ key, text }) => ({ key, text, node })),
    ),
  ];
}

function titlePlaces(node: TreeNode): readonly Pick<ProsePlace, 'key' | 'text'>[] {
  const key = `node/${node.id}`;
  const stages = node.kind === 'path' ? node.stages : [];
  return [
    { key: `${key}@title`, text: node.title },
    ...stages.map(({ id, title }) => ({ key: `${key}/stage/${id}@title`, text: title })),
  ];
}

/** Every text of targets, cautions, units, test points and set-ups that a reader may meet, file by file. */
export function textsOfLibrary({ targets, cautions, units, points, setups }: LibraryBeside): readonly {
  readonly file: string;
  readonly texts: readonly ReaderText[];
}[] {
  const read = (
    fields: Readonly<Record<string, string | Readonly<Record<string, string>> | readonly string[]>>,
    prose: Prose = [],
  ): readonly ReaderText[] => [
    ...Object.entries(fields).flatMap(([key, value]) =>
      typeof value === 'string'
        ? [{ key: `front/${key}`, text: value }]
        : Object.entries(value).map(([part, text]) => ({ key: `front/${key}/${part}`, text })),
    ),
    ...listParagraphs(prose).map((text, index) => ({ key: `body/prose/${index}`, text })),
  ];
  return [
    ...[...targets.values()].map(({ slug, title, conditions, misreads, prose }) => ({
      file: `content/targets/${slug}.mdx`,
      texts: read({ title, conditions, misreads: misreads.map(({ says }) => says) }, prose),
    })),
    ...[...cautions.values()].map(({ slug, title, text, actions, prose }) => ({
      file: `content/cautions/${slug}.mdx`,
      texts: read({ title, text, actions }, prose),
    })),
    ...[...units.values()].map(({ slug, title, summary, points: where, differs, prose }) => ({
      file: `content/units/${slug}.mdx`,
      texts: read({ title, summary, points: where, differs }, prose),
    })),
    {
      file: 'content/points.yaml',
      texts: [...points.values()].flatMap(({ slug, title, find }) => read({ [slug]: { title, find } })),
    },
    {
      file: 'content/setups.yaml',
      texts: [...setups.values()].flatMap(({ slug, title, text }) => read({ [slug]: { title, text } })),
    },
  ];
}

/** The sentences of a paragraph; a colon or a semicolon ends one too, since an eye rests there. */
export function splitSentences(paragraph: string): readonly string[] {
  return paragraph.split(/(?<=[.!?:;])\s+/);
}
