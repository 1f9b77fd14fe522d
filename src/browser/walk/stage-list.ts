import type { Assessment } from '#core/diagnosis/tree/assess-tree.ts';
import { findNode } from '#core/model/node.ts';
import type { BenchTree } from '#core/answer/bench-tree.ts';
import { findFirstStage, listTold, type PathState, readPathState, type StageState } from '#core/answer/path-state.ts';
import { makeElement } from '../kit/elements.ts';
import type { WalkPage } from './walk-page.ts';

const stretchWords: Readonly<Record<StageState['stretch'], string>> = {
  cleared: 'good by what you answered further on',
  suspect: 'the fault may lie before this point',
  after: 'behind the fault',
};

/** Draws a signal path as its answers leave it. */
export function showStages(root: ParentNode, page: WalkPage, bench: BenchTree): void {
  const list = root.querySelector<HTMLElement>('.alone .stages');
  const id = list?.closest<HTMLElement>('article')?.dataset['node'] ?? '';
  const path = findNode(bench.tree, id);
  if (list === null || path?.kind !== 'path') return;
  const { answers } = page.state;
  const state = readPathState(path, answers, bench);
  const isRead = answers.some(({ tree, node, stage }) => tree === undefined && node === id && stage !== undefined);
  const isTouched = isRead || listTold(path, answers, bench).length > 0;
  for (const stage of state.stages) {
    const item = list.querySelector<HTMLElement>(`[data-stage="${stage.id}"]`);
    if (item !== null) showStage(item, stage, isTouched);
  }
  if (page.state.answers.length + page.state.did.length === 0) markStage(list, findFirstStage(path, bench.tree));
  showFound(list, state, page, bench);
}

function showStage(item: HTMLElement, { verdict, stretch }: StageState, isTouched: boolean): void {
  item.classList.remove('cleared', 'suspect', 'after', 'next');
  if (isTouched) item.classList.add(stretch);
  for (const button of item.querySelectorAll<HTMLElement>('[data-mark]')) {
    button.setAttribute('aria-pressed', String(button.dataset['mark'] === verdict));
  }
  const word = item.querySelector('[data-stretch]');
  if (word === null) return;
  word.textContent = isTouched ? tellStage(verdict, stretch) : '';
}

/** Marks the stage that the suggestion names, where it is one of the path on this page, and takes an earlier mark away. */
export function markSuggested(root: ParentNode, next: Assessment['next'] | undefined): void {
  const list = root.querySelector<HTMLElement>('.alone .stages');
  const path = list?.closest<HTMLElement>('article')?.dataset['node'];
  markStage(list, next?.kind === 'check' && next.node === path ? next.stage : undefined);
}

function markStage(list: HTMLElement | null, wanted: string | undefined): void {
  for (const item of list?.querySelectorAll<HTMLElement>(':scope > [data-stage]') ?? []) {
    const isNext = wanted !== undefined && item.dataset['stage'] === wanted;
    item.classList.toggle('next', isNext);
    const word = item.querySelector('[data-stretch]');
    const said = (word?.textContent ?? '').replace(/(?: · )?probe here next$/u, '');
    if (word !== null)
      word.textContent = isNext ? [said, 'probe here next'].filter((part) => part !== '').join(' · ') : said;
  }
}

function tellStage(verdict: StageState['verdict'], stretch: StageState['stretch']): string {
  if (verdict === 'good' && stretch === 'cleared') return 'good, and so is all before it';
  if (verdict === 'open') return stretchWords[stretch];
  return `${verdict === 'undecided' ? 'not decided' : verdict}: ${stretchWords[stretch]}`;
}

function showFound(list: HTMLElement, { found, contradiction }: PathState, page: WalkPage, bench: BenchTree): void {
  const place = list.parentElement?.querySelector<HTMLElement>('[data-found]');
  if (place === null || place === undefined) return;
  const node = found === undefined ? undefined : findNode(bench.tree, found);
  place.hidden = node === undefined && contradiction === undefined;
  if (node !== undefined) {
    place.replaceChildren(
      makeElement(
        'a',
        { class: 'press step-on', href: page.addressIn(node.id, page.state) },
        makeElement('span', { class: 'label' }, 'One stretch is left'),
        makeElement('span', { class: 'detail' }, node.title),
      ),
    );
  } else
    place.replaceChildren(contradiction === undefined ? '' : makeElement('span', { class: 'conflict' }, contradiction));
}
