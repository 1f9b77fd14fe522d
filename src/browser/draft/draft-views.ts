import { openReferences } from '#compiler/draft-library.ts';
import type { Problem } from '#compiler/problem.ts';
import type { TreeWorth } from '#core/diagnosis/tree/measure-worth.ts';
import type { FaultTree } from '#core/model/fault-tree.ts';
import { findNode } from '#core/model/node.ts';
import { renderStep } from '#core/page/render-step.ts';
import '../graph-view.ts';
import { makeButton, makeElement, makeNodes } from '../kit/elements.ts';
import { parseDrawing } from '../kit/trusted.ts';
import { basePath } from '../page-data.ts';
import { openDraftReader } from './draft-reader.ts';
import type { DraftData, ReadDraft } from './draft-worker.ts';

/** Step, graph and worth of the draft as it could last be read. */
export interface DraftViews {
  readonly show: (draft: ReadDraft) => void;
  /** Shows the step that this line belongs to. */
  readonly followLine: (line: number) => void;
}

/** Graph and worth come from a worker of their own, beside the typing, and may take longer. */
const besideMilliseconds = 5_000;
/** The worth is measured when the typing has paused. */
const pauseMilliseconds = 700;
/** More messages than these are only counted: mending the first ones often mends them. */
const mostMessages = 100;
const mostNamed = 5;

/** Puts words into the place of that name below `root`; a live region speaks them only if they changed. */
export function say(root: HTMLElement, where: string, words: string): void {
  const place = root.querySelector(`[data-say="${where}"]`);
  if (place !== null && place.textContent !== words) place.textContent = words;
}

/** Opens the views in the page's own markup; graph and worth are computed only while their sections are open. */
export function openDraftViews(root: HTMLElement, data: DraftData): DraftViews {
  const references = openReferences(data.library);
  const titles = new Map(data.library.trees.map(({ tree }) => [tree.slug, tree.title]));
  const choice = root.querySelector<HTMLSelectElement>('[data-node-choice]');
  const graph = root.querySelector<HTMLDetailsElement>('[data-graph]');
  const worth = root.querySelector<HTMLDetailsElement>('[data-worth]');
  let draft: ReadDraft | undefined;
  let node = '';
  let pause = 0;
  let beside: ReturnType<typeof openDraftReader> | undefined;
  const askBeside = (kind: 'draw' | 'weigh', tree: FaultTree) => {
    beside ??= openDraftReader(data, besideMilliseconds);
    return beside({ kind, tree });
  };

  const openNode = (id: string): void => {
    const tree = draft?.tree;
    const nodes = tree?.nodes ?? [];
    const shown = nodes.find((each) => each.id === id) ?? nodes[0];
    node = shown?.id ?? '';
    choice?.replaceChildren(...nodes.map(({ id: value, title }) => makeElement('option', { value }, title || value)));
    if (choice !== null) choice.value = node;
    if (tree === undefined || shown === undefined) return;
    const titleOf = (slug: string): string | undefined => titles.get(slug);
    root
      .querySelector('[data-preview]')
      ?.replaceChildren(...makeNodes(renderStep(shown, { tree, references, titleOf, base: basePath(), use: 'draft' })));
  };

  const draw = async (): Promise<void> => {
    const tree = draft?.tree;
    if (tree === undefined || graph?.open !== true) return;
    const reply = await askBeside('draw', tree);
    if (tree !== draft?.tree) return;
    const isDrawn = typeof reply !== 'string' && reply.kind === 'drawn' && showDrawing(root, reply.drawing);
    say(root, 'graph-said', isDrawn ? '' : 'This graph is too large to draw here.');
  };

  const weigh = async (): Promise<void> => {
    const tree = draft?.tree;
    if (tree === undefined || worth?.open !== true) return;
    const list = root.querySelector('[data-worth-list]');
    if (draft?.problems.some(({ severity }) => severity === 'error') === true) {
      list?.replaceChildren();
      say(root, 'worth-said', 'Fix the errors first: the minutes of a broken tree mean nothing.');
      return;
    }
    say(root, 'worth-said', 'Measuring.');
    const reply = await askBeside('weigh', tree);
    if (tree !== draft?.tree) return;
    const measured = typeof reply !== 'string' && reply.kind === 'weighed' ? reply.worth : undefined;
    const rows = measured === undefined ? [] : describeWorth(tree, measured);
    list?.replaceChildren(
      ...rows.map(([name, words]) => makeElement('div', {}, makeElement('dt', {}, name), makeElement('dd', {}, words))),
    );
    say(root, 'worth-said', measured === undefined ? 'This tree is too large to measure here.' : '');
  };

  root.querySelector('[data-preview]')?.addEventListener('click', ({ target }) => {
    const way = target instanceof Element ? target.closest<HTMLElement>('[data-to]') : null;
    if (way?.dataset['to'] !== undefined) openNode(way.dataset['to']);
  });
  choice?.addEventListener('change', () => openNode(choice.value));
  graph?.addEventListener('toggle', () => void draw());
  worth?.addEventListener('toggle', () => void weigh());

  return {
    show: (read) => {
      say(root, 'stale', read.tree === undefined ? 'Shown as it was before the text had errors.' : '');
      if (read.tree === undefined) return;
      draft = read;
      openNode(node);
      void draw();
      clearTimeout(pause);
      pause = window.setTimeout(() => void weigh(), pauseMilliseconds);
    },
    followLine: (line) => {
      const id = [...(draft?.lineOfNode ?? [])].filter(([, start]) => start <= line).at(-1)?.[0];
      if (id !== undefined && id !== node) openNode(id);
    },
  };
}

/** Lists the problems below the editor, each with its line, severity in words, way out and rule, and counts them. */
export function showProblems(
  root: HTMLElement,
  problems: readonly Problem[],
  goTo: (line: number, column: number) => void,
): void {
  const errors = problems.filter(({ severity }) => severity === 'error').length;
  const counts = [
    [errors, 'error'],
    [problems.length - errors, 'warning'],
  ] as const;
  const counted = counts.flatMap(([count, word]) => (count === 0 ? [] : [`${count} ${word}${count === 1 ? '' : 's'}`]));
  say(root, 'count', counted.join(', ') || 'No errors: this tree passes the check.');
  const rest = problems.length - mostMessages;
  root
    .querySelector('[data-messages]')
    ?.replaceChildren(
      ...problems.slice(0, mostMessages).map((problem) => makeMessage(problem, goTo)),
      ...(rest > 0 ? [makeElement('li', { class: 'rest' }, `And ${rest} more.`)] : []),
    );
}

function makeMessage(
  { severity, position, message, help, rule, other }: Problem,
  goTo: (line: number, column: number) => void,
): HTMLElement {
  const [words, { line, column }] =
    position === 'unavailable' ? ['The file', { line: 1, column: 1 }] : [`Line ${position.line}`, position];
  const item = makeElement(
    'li',
    { class: severity },
    makeButton(words, 'place', () => goTo(line, column)),
    ' ',
    makeElement('strong', { class: 'severity' }, severity === 'error' ? 'Error.' : 'Warning.'),
    ` ${message} `,
    makeElement('span', { class: 'help' }, help),
    ' ',
    makeElement('code', { class: 'rule' }, rule),
  );
  if (other !== undefined) {
    const at = other.position === 'unavailable' ? other.file : `${other.file}, line ${other.position.line}`;
    item.append(makeElement('span', { class: 'help' }, ` See ${at} (${other.says}).`));
  }
  return item;
}

const drawn = new WeakMap<Element, string>();

/**
 * Puts a drawing into a view that can be panned and zoomed. False if it is none. The view stays as it is, zoom included,
 * if the drawing did not change.
 */
function showDrawing(root: HTMLElement, svg: string): boolean {
  const place = root.querySelector<HTMLElement>('[data-graph-place]');
  const template = root.querySelector<HTMLTemplateElement>('[data-graph-template]');
  if (place === null || template === null) return false;
  if (drawn.get(place) === svg) return true;
  const drawing = parseDrawing(svg);
  if (drawing === undefined) return false;
  const before = place.querySelector('.canvas');
  const scroll = before === null ? undefined : { left: before.scrollLeft, top: before.scrollTop };
  const view = document.createElement('graph-view');
  view.append(template.content.cloneNode(true));
  view.querySelector('.canvas')?.append(document.importNode(drawing, true));
  place.replaceChildren(view);
  if (scroll !== undefined) view.querySelector('.canvas')?.scrollTo(scroll);
  drawn.set(place, svg);
  return true;
}

/** What a tree is worth in working minutes, from its own minutes, chances and what its causes show. */
function describeWorth(
  tree: FaultTree,
  { isolate, repair, separation, neverPays, advice }: TreeWorth,
): readonly (readonly [name: string, words: string])[] {
  const { chosen } = repair;
  const minutes = (value: number): string => (Number.isFinite(value) ? String(Math.round(value)) : 'endless');
  const range = chosen.isExact ? '' : ` (between ${minutes(chosen.atLeast)} and ${minutes(chosen.atMost)})`;
  const list = (name: string, items: readonly string[]): readonly (readonly [string, string])[] => {
    const rest = items.length - mostNamed;
    const words = [...items.slice(0, mostNamed), ...(rest > 0 ? [`and ${rest} more`] : [])].join('; ');
    return items.length === 0 ? [] : [[name, words]];
  };
  return [
    [
      'Until the fault is found',
      `about ${minutes(isolate.written.expectedMinutes)} minutes in your order, ${minutes(isolate.written.worstMinutes)} at worst; ${minutes(isolate.chosen.expectedMinutes)} in the best order`,
    ],
    [
      'Until a repair is proved',
      `about ${minutes(repair.written.expectedMinutes)} minutes in your order, ${minutes(chosen.expectedMinutes)}${range} in the best order found; no order takes less than ${minutes(repair.atLeastMinutes)}`,
    ],
    [
      'Told apart',
      `${Math.round(100 * separation.isolatedToOne)} % of the faults, weighed by how common they are, are told from all others; ${separation.expectedGroupSize.toFixed(1)} suspects are left on average`,
    ],
    ...list(
      'Causes no check tells apart',
      separation.pairs.map(({ ends, alike }) => {
        const where = alike.map(({ check }) => nameOf(tree, check)).slice(0, 2);
        const why = where.length === 0 ? 'no check speaks of both' : `alike at ${where.join(' and ')}`;
        return `${ends.map((id) => nameOf(tree, id)).join(' and ')} (${why})`;
      }),
    ),
    ...list(
      'Checks that tell nothing apart',
      separation.idleChecks.map((id) => nameOf(tree, id)),
    ),
    ...list(
      'Checks the best order never takes',
      neverPays.map((id) => nameOf(tree, id)),
    ),
    ...(advice === undefined ? [] : ([['What would help most', advice]] as const)),
  ];
}

/** Title of a node, or of a path and its stage. */
function nameOf(tree: FaultTree, id: string): string {
  const [nodeId = '', stageId] = id.split('/');
  const node = findNode(tree, nodeId);
  const stage = node?.kind === 'path' ? node.stages.find((candidate) => candidate.id === stageId) : undefined;
  return `“${[node?.title, stage?.title].filter((title) => title !== undefined).join(': ') || id}”`;
}
