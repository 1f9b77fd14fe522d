import { findAnswerText } from '#core/share/answer-text.ts';
import { addressOf } from '#core/share/address.ts';
import {
  type Answer,
  carryInto,
  type LinkState,
  parseLinkState,
  printLinkState,
  withAnswer,
} from '#core/share/link-state.ts';
import { namesOf, type TreeMap } from '#core/share/tree-map.ts';
import { type BoardSheet, fetchBoardSheet } from './board-sheet.ts';
import { applyBoard } from './apply-board.ts';
import { CautionGate } from './caution-gate.ts';
import { markWalked } from './mark-walked.ts';
import { basePath, readTreeMap } from './page-data.ts';

/**
 * `<node-walk>`: brings a node's page to life. The page already reads without it; with it, the answers given so far
 * travel in the fragment, the path is shown, a board's own points and limits stand in every check,
 * and stop cautions come first.
 */
class NodeWalk extends HTMLElement {
  readonly #map: TreeMap | undefined = readTreeMap();
  #gate: CautionGate | undefined;
  #board: BoardSheet | undefined;
  #state: LinkState | undefined;
  /** What the list says before the first answer; kept, so that taking every answer back brings it again. */
  #noAnswers: Element | null | undefined;

  connectedCallback(): void {
    if (this.#map === undefined) return;
    // On the page of the whole tree every caution stands open above its step; the gate belongs to a single step.
    if (this.querySelector('.node.alone') !== null) {
      this.#gate = new CautionGate(this, () => this.#gate?.update(this.#board?.mains));
    }
    this.querySelector('[data-share]')?.removeAttribute('hidden');
    this.querySelector('[data-board-choice]')?.removeAttribute('hidden');
    this.querySelector('select[name="board"]')?.addEventListener('change', (event) => this.#chooseBoard(event));
    this.querySelector('[data-copy]')?.addEventListener('click', () => void this.#copyLink());
    window.addEventListener('hashchange', this.#read);
    this.#read();
  }

  disconnectedCallback(): void {
    window.removeEventListener('hashchange', this.#read);
  }

  readonly #read = (): void => {
    const map = this.#map;
    if (map === undefined || location.hash === '#step' || location.hash === '#sheet') return;
    const { state, problems } = parseLinkState(location.hash, namesOf(map));
    this.#state = state;
    this.#showProblems(problems);
    this.#showWalked(map, state);
    this.#updateLinks(map, state);
    markWalked(this, map, state);
    this.#gate?.update(this.#board?.mains);
    void this.#showBoard(state.board);
  };

  #showProblems(problems: readonly string[]): void {
    this.querySelector('.notices')?.replaceChildren();
    this.#addProblems(problems);
  }

  #addProblems(problems: readonly string[]): void {
    this.querySelector('.notices')?.append(
      ...problems.map((problem) => {
        const paragraph = document.createElement('p');
        paragraph.textContent = problem;
        return paragraph;
      }),
    );
  }

  #showWalked(map: TreeMap, state: LinkState): void {
    const list = this.querySelector('[data-walked]');
    const count = this.querySelector('[data-count]');
    if (count !== null) count.textContent = state.answers.length === 0 ? '' : `(${state.answers.length})`;
    if (list === null) return;
    this.#noAnswers ??= list.querySelector('.hint');
    if (state.answers.length === 0) {
      list.replaceChildren(...(this.#noAnswers === null ? [] : [this.#noAnswers]));
      return;
    }
    list.replaceChildren(
      ...state.answers.map((answer, index) => {
        const item = document.createElement('li');
        const link = document.createElement('a');
        const before = { ...state, answers: state.answers.slice(0, index) };
        link.href = this.#addressIn(answer.tree ?? map.slug, answer.node, answer.tree === undefined ? before : state);
        link.textContent =
          map.nodes.find(({ id }) => answer.tree === undefined && id === answer.node)?.title ??
          `${answer.tree ?? ''}: ${answer.node}`;
        const value = document.createElement('b');
        value.textContent = ` ${findAnswerText(answer)}`;
        item.append(link, value);
        return item;
      }),
    );
  }

  #updateLinks(map: TreeMap, state: LinkState): void {
    for (const link of this.querySelectorAll<HTMLAnchorElement>('a.outcome[data-to]')) {
      const stage = link.dataset['stageBad'];
      const here = link.closest<HTMLElement>('article')?.dataset['node'] ?? '';
      const [value = ''] = (link.dataset['answers'] ?? '').split(' ');
      const answer: Answer = { tree: undefined, node: here, stage, value };
      link.href = this.#addressIn(map.slug, link.dataset['to'] ?? '', withAnswer(state, answer));
    }
    for (const link of this.querySelectorAll<HTMLAnchorElement>('a[data-carry]')) {
      link.hash = printLinkState(carryInto(state, map.slug, link.dataset['carry'] ?? ''));
    }
    for (const link of this.querySelectorAll<HTMLAnchorElement>('a[data-refuse], a[data-hand-over]')) {
      link.hash = printLinkState(carryInto(state, map.slug, ''));
    }
    const fragment = printLinkState(state);
    for (const link of this.querySelectorAll<HTMLAnchorElement>('a.whole, a[data-start]')) link.hash = fragment;
    for (const link of this.querySelectorAll<SVGAElement>('svg a')) {
      const address = (link.getAttribute('href') ?? '').split('#')[0] ?? '';
      link.setAttribute('href', fragment === '' ? address : `${address}#${fragment}`);
    }
    const back = this.querySelector<HTMLAnchorElement>('[data-back]');
    const last = state.answers.findLast(({ tree }) => tree === undefined);
    if (back !== null && last !== undefined) {
      back.href = this.#addressIn(map.slug, last.node, {
        ...state,
        answers: state.answers.filter((answer) => answer !== last),
      });
    }
    const restart = this.querySelector<HTMLAnchorElement>('[data-restart]');
    if (restart !== null)
      restart.href = this.#addressIn(map.slug, map.start, { ...state, answers: [], did: [], ask: [] });
  }

  #addressIn(tree: string, node: string, state: LinkState): string {
    const fragment = printLinkState(state);
    return `${addressOf({ kind: 'node', tree, node }, basePath())}${fragment === '' ? '' : `#${fragment}`}`;
  }

  #chooseBoard(event: Event): void {
    if (!(event.target instanceof HTMLSelectElement) || this.#state === undefined) return;
    const board = event.target.value === '' ? undefined : event.target.value;
    const fragment = printLinkState({ ...this.#state, board });
    history.replaceState(null, '', fragment === '' ? location.pathname : `#${fragment}`);
    this.#read();
  }

  async #showBoard(slug: string | undefined): Promise<void> {
    const select = this.querySelector<HTMLSelectElement>('select[name="board"]');
    if (select !== null) select.value = slug ?? '';
    const sheet = slug === undefined ? undefined : await fetchBoardSheet(slug);
    if (slug !== undefined && sheet === undefined) {
      this.#addProblems(['The sheet of this board could not be read; the general points and limits are shown.']);
    }
    if (this.#state?.board !== slug) return;
    this.#board = sheet;
    applyBoard(this, sheet, this.#map?.slug ?? '');
    this.#gate?.update(sheet?.mains);
  }

  async #copyLink(): Promise<void> {
    const said = this.querySelector('[data-copied]');
    if (said === null) return;
    try {
      await navigator.clipboard.writeText(location.href);
      said.textContent = 'Copied.';
    } catch {
      said.textContent = `Copy it yourself: ${location.href}`;
    }
  }
}

customElements.define('node-walk', NodeWalk);
