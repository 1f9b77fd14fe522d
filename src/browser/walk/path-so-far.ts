import { sayAnswer } from '#core/answer/say.ts';
import type { Answer } from '#core/answer/answer.ts';
import { makeButton, makeElement } from '../kit/elements.ts';
import { sayTakenBack } from './say-taken-back.ts';
import type { WalkPage } from './walk-page.ts';

/**
 * The answers given so far and the repairs tried, each with a way to change it and to take it back. Changing keeps every later answer.
 * `say` gives the tree's own sentences once they are there.
 */
export function showPathSoFar(
  list: Element,
  page: WalkPage,
  say: (answer: Answer) => string = (answer) => sayAnswer(answer),
): void {
  const answers = page.state.answers.map((answer) => showAnswer(answer, page, say));
  const repairs = page.state.did.map((id, index) => showRepair(id, index, page));
  list.replaceChildren(...answers, ...repairs);
}

function showAnswer(answer: Answer, page: WalkPage, say: (answer: Answer) => string): HTMLElement {
  const { map, state } = page;
  const title =
    map.nodes.find(({ id }) => answer.tree === undefined && id === answer.node)?.title ??
    `${answer.tree ?? ''}: ${answer.node}`;
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

function showRepair(id: string, index: number, page: WalkPage): HTMLElement {
  const { map, state } = page;
  const title = map.nodes.find((node) => node.id === id)?.title ?? 'Own last repair looked over';
  const isWorse = state.worsened === id && index === state.did.lastIndexOf(id);
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
    makeElement('b', {}, isWorse ? ' Tried: worse or different' : ' Tried: not repaired'),
    makeElement('span', { class: 'moves' }, undo),
  );
}
