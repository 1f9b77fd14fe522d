import { cautionsOf, findNode } from '#core/model/node.ts';
import { withAsked } from '#core/answer/lead.ts';
import { mostAsked } from '#core/answer/answer.ts';
import type { Walk } from '#core/answer/bench-tree.ts';
import { severityWords } from '#core/model/library.ts';
import { makeButton, makeElement } from '../kit/elements.ts';
import { assessPage } from '../walk/assess-page.ts';
import { benchOf, loadWalk } from '../walk/load-bench.ts';
import type { PageState } from './page-state.ts';

/** What happens with the checks that were marked. */
export interface AskActions {
  /** Copies the address that asks. */
  readonly copyLink: (asking: PageState) => void;
  /** Copies a post that asks. */
  readonly copyPost: (asking: PageState) => void;
  readonly say: (text: string) => void;
}

/**
 * A form that marks up to five checks of this tree, each with the cautions it stands under: the one that the engine would take next
 * first, then what tells most for its minutes; those answered already come last and say so.
 */
export async function makeAskForm(page: PageState, actions: AskActions): Promise<HTMLFormElement> {
  const walk = await loadWalk(page.map.slug);
  const ranked = walk === undefined ? [] : await rank(page, walk);
  const answered = new Set(page.state.answers.filter(({ tree }) => tree === undefined).map(({ node }) => node));
  const placeOf = ({ id }: { readonly id: string }): number => {
    const place = ranked.indexOf(id);
    return answered.has(id) ? Number.POSITIVE_INFINITY : place < 0 ? ranked.length : place;
  };
  const boxes = page.map.nodes
    .filter(({ kind }) => kind === 'check' || kind === 'path')
    .toSorted((first, second) => {
      const [one, other] = [placeOf(first), placeOf(second)];
      return one === other ? 0 : one - other;
    })
    .map((node) => makeChoice(node.id, `${node.title}${answered.has(node.id) ? ' (answered)' : ''}`, walk));
  const evidence = makeElement('input', { type: 'checkbox', name: 'evidence', checked: true });
  const form = makeElement(
    'form',
    { class: 'asking' },
    makeElement(
      'fieldset',
      {},
      makeElement('legend', {}, `Which checks do you ask for? At most ${mostAsked}.`),
      ...boxes,
    ),
    makeElement('label', {}, evidence, makeElement('span', {}, 'Send the answers so far along')),
  );
  const marked = (): readonly string[] =>
    [...form.querySelectorAll<HTMLInputElement>('input[name="check"]:checked')].map(({ value }) => value);
  const ask = (act: (asking: PageState) => void) => (): void => {
    const checks = marked();
    if (checks.length === 0) actions.say('Mark a check first.');
    else act({ map: page.map, node: checks[0], state: withAsked(page.state, checks, evidence.checked) });
  };
  form.append(
    makeElement(
      'p',
      { class: 'presses' },
      makeButton('Copy link with these questions', 'press', ask(actions.copyLink)),
      makeButton('Copy post with these questions', 'press plain', ask(actions.copyPost)),
    ),
  );
  form.addEventListener('submit', (event) => event.preventDefault());
  form.addEventListener('change', () => {
    const isFull = marked().length >= mostAsked;
    for (const box of form.querySelectorAll<HTMLInputElement>('input[name="check"]')) {
      box.disabled = isFull && !box.checked;
    }
    if (isFull) actions.say(`That is ${mostAsked}: unmark one to ask for another.`);
  });
  return form;
}

/** The check that the engine would take next, and behind it the others by what they tell. */
async function rank({ map, state }: PageState, walk: Walk): Promise<readonly string[]> {
  const assessed = await assessPage({ map, state, unit: undefined }, walk, benchOf(walk, undefined));
  const { next } = assessed.assessment;
  return [...new Set([...(next.kind === 'check' ? [next.node] : []), ...assessed.rankChecks()])];
}

function makeChoice(id: string, title: string, walk: Walk | undefined): HTMLLabelElement {
  const node = walk === undefined ? undefined : findNode(walk.tree, id);
  const cautions = walk === undefined || node === undefined ? [] : cautionsOf(node, walk.references);
  const grave = cautions.filter(({ severity }) => severity === 'danger' || severity === 'warning');
  const said = grave.map(({ severity, title: caution }) => `${severityWords[severity].word}: ${caution}`);
  return makeElement(
    'label',
    {},
    makeElement('input', { type: 'checkbox', name: 'check', value: id }),
    makeElement('span', {}, title),
    ...(said.length === 0 ? [] : [makeElement('span', { class: 'hint' }, said.join(' · '))]),
  );
}
