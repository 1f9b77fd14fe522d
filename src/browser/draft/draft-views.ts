import { openReferences } from '#compiler/compile-draft.ts';
import { findNode } from '#core/model/node.ts';
import type { DraftData } from './draft-data.ts';
import { openDraftReader } from './draft-reader.ts';
import type { ReadDraft } from './draft-worker.ts';
import { renderStep } from '#core/page/render-step.ts';
import { makeElement, makeNodes } from '../kit/elements.ts';
import { basePath } from '../page-data.ts';
import { say } from './say.ts';
import { showDrawing } from './show-drawing.ts';
import { fillWorthList } from './worth-list.ts';

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
  const askBeside = (kind: 'draw' | 'weigh', tree: NonNullable<ReadDraft['tree']>) => {
    beside ??= openDraftReader(data, besideMilliseconds);
    return beside.ask({ kind, tree });
  };

  const openNode = (id: string): void => {
    const nodes = draft?.tree?.nodes ?? [];
    node = nodes.some((each) => each.id === id) ? id : (nodes[0]?.id ?? '');
    choice?.replaceChildren(...nodes.map(({ id: value, title }) => makeChoice(value, title)));
    if (choice !== null) choice.value = node;
    const frame = root.querySelector('[data-preview]');
    const tree = draft?.tree;
    const shown = tree === undefined ? undefined : findNode(tree, node);
    if (frame === null || tree === undefined || shown === undefined) return;
    const titleOf = (slug: string): string | undefined => titles.get(slug);
    frame.replaceChildren(
      ...makeNodes(renderStep(shown, { tree, references, titleOf, base: basePath(), use: 'draft' })),
    );
  };

  const draw = async (): Promise<void> => {
    const tree = draft?.tree;
    const place = root.querySelector<HTMLElement>('[data-graph-place]');
    const template = root.querySelector<HTMLTemplateElement>('[data-graph-template]');
    if (tree === undefined || place === null || template === null || graph?.open !== true) return;
    const reply = await askBeside('draw', tree);
    if (tree !== draft?.tree) return;
    const isDrawn = typeof reply !== 'string' && reply.kind === 'drawn' && showDrawing(place, template, reply.drawing);
    say(root, 'graph-said', isDrawn ? '' : 'This graph is too large to be drawn here.');
  };

  const weigh = async (): Promise<void> => {
    const tree = draft?.tree;
    const list = root.querySelector<HTMLElement>('[data-worth-list]');
    if (tree === undefined || list === null || worth?.open !== true) return;
    if (draft?.problems.some(({ severity }) => severity === 'error') === true) {
      list.replaceChildren();
      say(root, 'worth-said', 'Measured once there is no error left: minutes of a broken tree mean nothing.');
      return;
    }
    say(root, 'worth-said', 'Measuring.');
    const reply = await askBeside('weigh', tree);
    if (tree !== draft?.tree) return;
    const isMeasured = typeof reply !== 'string' && reply.kind === 'weighed';
    if (isMeasured) fillWorthList(list, tree, reply.worth);
    else list.replaceChildren();
    say(root, 'worth-said', isMeasured ? '' : 'This tree is too large to be measured here.');
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
      say(root, 'stale', read.tree === undefined ? 'As when the text could last be read.' : '');
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

function makeChoice(id: string, title: string): HTMLOptionElement {
  const option = makeElement('option', {}, title === '' ? id : title);
  option.value = id;
  return option;
}
