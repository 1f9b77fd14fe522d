import { sayAnswer } from '#core/answer/say.ts';
import type { Answer } from '#core/answer/answer.ts';
import { makeButton, makeElement } from '../kit/elements.ts';
import type { EngineWords, WalkPage } from './walk-page.ts';

/**
 * The answers given so far and the repairs tried, each with a way to change it and to take it back. Changing keeps every later answer.
 * `words` are the tree's own, once they are there.
 */
export function showPathSoFar(
  list: Element,
  page: WalkPage,
  words: Pick<EngineWords, 'say' | 'titleOf'> = { say: (answer) => sayAnswer(answer), titleOf: () => undefined },
): void {
  const answers = page.state.answers.map((answer) => showAnswer(answer, page, words));
  const repairs = page.state.did.map((id, index) => showRepair(id, index, page));
  list.replaceChildren(...answers, ...repairs);
}

function showAnswer(
  answer: Answer,
  page: WalkPage,
  { say, titleOf }: Pick<EngineWords, 'say' | 'titleOf'>,
): HTMLElement {
  const { state } = page;
  const title = nameAnswer(answer, page, titleOf);
  const href = page.addressIn(answer.node, state, answer.tree);
  const undo = makeButton('Undo', 'small', () => {
    page.put({ ...state, answers: state.answers.filter((one) => one !== answer) });
    sayTakenBack(title);
  });
  undo.setAttribute('aria-label', `Undo: ${title}`);
  const change = makeElement('a', { class: 'small', href, 'aria-label': `Change: ${title}` }, 'Change');
  return makeElement(
    'li',
    {},
    makeElement('a', { href }, title),
    makeElement('b', {}, ` ${say(answer)}`),
    makeElement('span', { class: 'moves' }, change, undo),
  );
}

/** What was asked: the title of the check, that of another tree where it is at hand. */
export function nameAnswer(answer: Answer, { map }: WalkPage, titleOf: EngineWords['titleOf']): string {
  return (
    map.nodes.find(({ id }) => answer.tree === undefined && id === answer.node)?.title ??
    titleOf(answer) ??
    `${answer.tree ?? ''}: ${answer.node}`.replaceAll('-', ' ')
  );
}

/** A repair that did not help, and how it was left. */
export function sayRepair(id: string, { map, state }: WalkPage): readonly [title: string, said: string] {
  return [
    map.nodes.find((node) => node.id === id)?.title ?? 'Last repair checked',
    state.worsened === id ? 'Tried: worse or different' : 'Tried: not repaired',
  ];
}

function showRepair(id: string, index: number, page: WalkPage): HTMLElement {
  const { state } = page;
  const isLast = index === state.did.lastIndexOf(id);
  const isWorse = state.worsened === id && isLast;
  const [title, said] = sayRepair(id, page);
  const undo = makeButton('Undo', 'small', () => {
    const { worsened, ...rest } = state;
    const did = state.did.filter((_, place) => place !== index);
    page.put({ ...rest, did, ...(worsened === undefined || isWorse ? {} : { worsened }) });
    sayTakenBack(title);
  });
  undo.setAttribute('aria-label', `Undo: ${title}`);
  return makeElement(
    'li',
    {},
    makeElement('a', { href: page.addressIn(id, state) }, title),
    makeElement('b', {}, ` ${isLast ? said : 'Tried: not repaired'}`),
    makeElement('span', { class: 'moves' }, undo),
  );
}

/** Says that an answer is gone. The button pressed is gone with its line, so the focus goes to the head of the list. */
export function sayTakenBack(title: string): void {
  const said = document.querySelector('[data-undone]');
  if (said !== null) said.textContent = `Undone: ${title}. The browser’s Back restores it.`;
  document.querySelector<HTMLElement>('details.walked summary')?.focus();
}
