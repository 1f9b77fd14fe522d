import { addressOf } from '#core/share/address.ts';
import { isWord } from '#core/share/answer-value.ts';
import { emptyLinkState, type LinkState, parseLinkState, printLinkState } from '#core/share/link-state.ts';
import { namesOf, type TreeMap } from '#core/share/tree-map.ts';
import { applyBoard } from './apply-board.ts';
import { type BoardSheet, fetchBoardSheet } from './board-sheet.ts';
import { CautionGate } from './caution-gate.ts';
import { markWalked } from './mark-walked.ts';
import { basePath, readTreeMap } from './page-data.ts';
import { ReadingField } from './reading-field.ts';
import { listenToRareAnswers } from './walk/rare-answers.ts';
import { listenToRepair } from './walk/after-repair.ts';
import { listenToStages } from './walk/stage-marks.ts';
import { showPathSoFar } from './walk/path-so-far.ts';
import { updateLinks, updateOutcomes } from './walk/update-links.ts';
import type { Held, WalkPage } from './walk/walk-page.ts';

/**
 * `<node-walk>`: brings a node's page to life. The page already reads without it; with it, the answers given so far
 * travel in the fragment, the path is shown, a board's own points and limits stand in every check, readings are judged, the engine says
 * what is most likely, and stop cautions come first.
 */
class NodeWalk extends HTMLElement implements WalkPage {
  readonly #map: TreeMap | undefined = readTreeMap();
  #gate: CautionGate | undefined;
  #board: BoardSheet | undefined;
  #state: LinkState = emptyLinkState;
  #held: Held | undefined;
  /** What the list says before the first answer; kept, so that taking every answer back brings it again. */
  #noAnswers: Element | null | undefined;

  connectedCallback(): void {
    if (this.#map === undefined) return;
    // On the page of the whole tree every caution stands open above its step; the gate belongs to a single step.
    if (this.#isAlone) {
      this.#gate = new CautionGate(this, () => this.#gate?.update(this.#board?.mains));
    }
    this.querySelector('[data-board-choice]')?.removeAttribute('hidden');
    this.querySelector('select[name="board"]')?.addEventListener('change', (event) => this.#chooseBoard(event));
    listenToRareAnswers(this, this);
    listenToRepair(this, this);
    listenToStages(this, this);
    window.addEventListener('hashchange', this.#read);
    this.#read();
  }

  disconnectedCallback(): void {
    window.removeEventListener('hashchange', this.#read);
  }

  get map(): TreeMap {
    return this.#map ?? { slug: '', title: '', start: '', nodes: [], trees: [], boards: [] };
  }

  get state(): LinkState {
    return this.#state;
  }

  get board(): BoardSheet | undefined {
    return this.#board;
  }

  get #isAlone(): boolean {
    return this.querySelector('.node.alone') !== null;
  }

  readonly addressIn = (node: string, state: LinkState, tree: string = this.map.slug): string => {
    const fragment = printLinkState(state);
    return `${addressOf({ kind: 'node', tree, node }, basePath())}${fragment === '' ? '' : `#${fragment}`}`;
  };

  readonly put = (state: LinkState): void => {
    const fragment = printLinkState(state);
    history.pushState(null, '', fragment === '' ? location.pathname : `#${fragment}`);
    this.#read();
  };

  readonly say = (text: string): void => this.#addProblems([text]);

  readonly hold = (held: Held | undefined): void => {
    this.#held = held;
    updateOutcomes(this, this, held);
  };

  readonly #read = (): void => {
    const map = this.#map;
    if (map === undefined || location.hash === '#step' || location.hash === '#sheet') return;
    const { state, problems } = parseLinkState(location.hash, namesOf(map));
    this.#state = state;
    this.#showProblems(problems);
    if (location.hash !== '') void this.#tellChanges(map, state);
    this.#showWalked();
    updateLinks(this, this, this.#held);
    markWalked(this, map, state);
    this.#gate?.update(this.#board?.mains);
    void this.#showBoard(state.board);
    this.#updateParts();
    // The list of asked checks and the log follow, whether the fragment came by a link or was put here.
    this.dispatchEvent(new Event('walk-read', { bubbles: true }));
  };

  /** What is fetched only for those who use it: reading fields, the drawn path, what is most likely. */
  #updateParts(): void {
    if (!this.#isAlone) return;
    for (const field of this.querySelectorAll('reading-field')) {
      if (field instanceof ReadingField) field.update(this);
    }
    const size = this.#state.answers.length + this.#state.did.length;
    // Once it was shown it must also be taken away again.
    if (size > 0 || this.querySelector('[data-likely]:not([hidden])') !== null) void this.#showEngine();
  }

  async #showEngine(): Promise<void> {
    const list = this.querySelector('[data-walked]');
    try {
      const { updateEngine } = await import('./walk/engine-parts.ts');
      await updateEngine(this, this);
    } catch {
      // The page does its job by its outcome links; only the suggestions are missing.
      const hasReadings = this.#state.answers.some(({ value }) => !isWord(value));
      if (hasReadings) this.say('Readings cannot be judged now: what they are judged by could not be fetched.');
    }
    list?.setAttribute('data-told', '');
  }

  /** What has changed since the link was made: fetched for those who came by one. */
  async #tellChanges(map: TreeMap, state: LinkState): Promise<void> {
    const fragment = location.hash;
    const found = await import('#core/share/find-changes.ts').catch(() => undefined);
    if (found !== undefined && this.#state === state) this.#addProblems(found.findChanges(fragment, map, state));
  }

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

  #showWalked(): void {
    const list = this.querySelector('[data-walked]');
    const count = this.querySelector('[data-count]');
    const size = this.#state.answers.length + this.#state.did.length;
    if (count !== null) count.textContent = size === 0 ? '' : `(${size})`;
    if (list === null) return;
    list.removeAttribute('data-told');
    this.#noAnswers ??= list.querySelector('.hint');
    if (size > 0) showPathSoFar(list, this, () => undefined);
    else list.replaceChildren(...(this.#noAnswers === null ? [] : [this.#noAnswers]));
  }

  #chooseBoard(event: Event): void {
    if (!(event.target instanceof HTMLSelectElement)) return;
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
    if (this.#state.board !== slug) return;
    const isChanged = sheet !== this.#board;
    this.#board = sheet;
    applyBoard(this, sheet, this.map.slug);
    if (this.querySelector('[data-mains]') !== null)
      void import('./apply-mains.ts').then(({ applyMains }) => applyMains(this, this)).catch(() => undefined);
    this.#gate?.update(sheet?.mains);
    if (isChanged) this.#updateParts();
  }
}

customElements.define('node-walk', NodeWalk);
