import type { Outcome, Part, Repair, TreeNode } from '#core/model/fault-tree.ts';
import { type Prose, listParagraphs } from '#core/model/prose.ts';
import type { RuleContext } from './rules/rule.ts';

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

/** A text that some page shows, with its file and the key of its place there. */
export interface ReaderText {
  readonly file: string;
  readonly key: string;
  readonly text: string;
  /** The node that it stands in, where it does. */
  readonly node?: TreeNode;
}

/**
 * Every text that a reader may meet: titles, summaries, instructions, buttons, and the words of targets, cautions, units, test points
 * and set-ups. Not symptom phrases, which are the owner’s own words. Of a draft, its own texts alone.
 */
export function readerTexts({ trees, library, only }: RuleContext): readonly ReaderText[] {
  const ofTrees = trees
    .filter(({ file }) => only === undefined || file === only)
    .flatMap(({ tree, file }): readonly ReaderText[] => [
      { file, key: 'front/title', text: tree.title },
      { file, key: 'front/summary', text: tree.summary },
      ...tree.nodes.flatMap((node) =>
        [...titlePlaces(node), ...prosePlaces(node)].map(({ key, text }) => ({ file, key, text, node })),
      ),
    ]);
  return only === undefined ? [...ofTrees, ...libraryTexts(library)] : ofTrees;
}

function titlePlaces(node: TreeNode): readonly Pick<ProsePlace, 'key' | 'text'>[] {
  const key = `node/${node.id}`;
  const stages = node.kind === 'path' ? node.stages : [];
  return [
    { key: `${key}@title`, text: node.title },
    ...stages.map(({ id, title }) => ({ key: `${key}/stage/${id}@title`, text: title })),
  ];
}

function libraryTexts({ targets, cautions, units, points, setups }: RuleContext['library']): readonly ReaderText[] {
  const texts = (
    file: string,
    fields: Readonly<Record<string, string | Readonly<Record<string, string>> | readonly string[]>>,
    prose: Prose = [],
  ): readonly ReaderText[] => [
    ...Object.entries(fields).flatMap(([key, value]) =>
      typeof value === 'string'
        ? [{ file, key: `front/${key}`, text: value }]
        : Object.entries(value).map(([part, text]) => ({ file, key: `front/${key}/${part}`, text })),
    ),
    ...listParagraphs(prose).map((text, index) => ({ file, key: `body/prose/${index}`, text })),
  ];
  return [
    ...[...targets.values()].flatMap(({ slug, title, conditions, misreads, prose }) =>
      texts(`content/targets/${slug}.mdx`, { title, conditions, misreads: misreads.map(({ says }) => says) }, prose),
    ),
    ...[...cautions.values()].flatMap(({ slug, title, text, actions, prose }) =>
      texts(`content/cautions/${slug}.mdx`, { title, text, actions }, prose),
    ),
    ...[...units.values()].flatMap(({ slug, title, summary, points: where, differs, prose }) =>
      texts(`content/units/${slug}.mdx`, { title, summary, points: where, differs }, prose),
    ),
    ...[...points.values()].flatMap(({ slug, title, find }) =>
      texts('content/points.yaml', { [slug]: { title, find } }),
    ),
    ...[...setups.values()].flatMap(({ slug, title, text }) =>
      texts('content/setups.yaml', { [slug]: { title, text } }),
    ),
  ];
}

/** The sentences of a paragraph; a colon or a semicolon ends one too, since an eye rests there. */
export function splitSentences(paragraph: string): readonly string[] {
  return paragraph.split(/(?<=[.!?:;])\s+/);
}
