import { addressOf } from '#core/link/address.ts';
import { emptyLinkState, isWord, type LinkState } from '#core/answer/answer.ts';
import { findNextAsked } from '#core/answer/lead.ts';
import { parseLinkState, printLinkState } from '#core/link/fragment.ts';
import { namesOf, type TreeMap } from '#core/link/tree-map.ts';
import { readBench } from './bench.ts';
import type { UnitSheet } from './unit-sheet.ts';
import { CautionGate } from './caution-gate.ts';
import { chipsHere, drawingHere, foldToldSetups } from './job-memory.ts';
import { makeElement, whenNear } from './kit/elements.ts';
import { basePath, defineWithMap, readTreeMap } from './page-data.ts';
import { ReadingField } from './reading-field.ts';
import { notePress } from './recorder/notes.ts';
import { updateLinks, updateOutcomes } from './walk/update-links.ts';
import type { Held, WalkPage } from './walk/walk-page.ts';

/** So long an answer waits for the engine where it was not there yet; then the tree's own next step opens. */
const mostWaitMilliseconds = 1_000;

const notFetched = 'Part of the page could not be fetched.';
const answersSafe = `${notFetched} Your answers are safe in the address.`;

/** What is fetched with the first answer: the path so far, and the answers that are no links. */
type AnswerParts = typeof import('./walk/answer-parts.ts');

/**
 * `<node-walk>`: brings a node's page to life. The page already reads without it; with it, the answers given so far
 * travel in the fragment, the path is shown, a unit's own points and limits stand in every check, readings are judged, the engine says
 * what is most likely, and stop cautions come first.
 */
export class NodeWalk extends HTMLElement implements WalkPage {
  readonly #map: TreeMap | undefined = readTreeMap();
  #gate: CautionGate | undefined;
  #presses: Promise<void> = Promise.resolve();
  #unit: UnitSheet | undefined;
  #state: LinkState = emptyLinkState;
  isTouched = false;
  #held: Held | undefined;
  #parts: AnswerParts | undefined;
  #firstWalked: Promise<void> | undefined;
  #lastPress: object | undefined;
  /** What the list says before the first answer; kept, so that taking every answer back brings it again. */
  #noAnswers: Element | null | undefined;

  connectedCallback(): void {
    if (this.#map === undefined) {
      // gate.js holds the step back; nothing here could let it through.
      this.removeAttribute('data-gated');
      this.say(`${answersSafe} Load the page again.`);
      return;
    }
    // On the page of the whole tree every caution stands open above its step; the gate belongs to a single step.
    if (this.#isAlone) {
      this.#gate = new CautionGate(this, this.#read);
    }
    this.#offerUnits();
    this.addEventListener('click', this.#chooseChip);
    // In the order of the presses, even while the first still fetches what it needs.
    this.addEventListener('click', (event) => {
      this.#presses = this.#presses.catch(() => undefined).then(() => this.#pressAnswer(event));
    });
    for (const press of ['click', 'auxclick']) this.addEventListener(press, this.#noteLink);
    // What the first answer needs is on its way before it is pressed.
    for (const touch of ['pointerdown', 'focusin'])
      this.addEventListener(touch, () => void this.#findSuggested(undefined), { once: true });
    window.addEventListener('hashchange', this.#read);
    window.addEventListener('unit-said', this.#read);
    this.#read();
    if (this.#isAlone) foldToldSetups(this, () => this.#state.unit);
    const near = this.querySelector<HTMLElement>('.neighbourhood');
    if (near !== null) whenNear(near, 'seen', () => void this.#drawNear(near));
  }

  /** The place of the step in its tree. */
  async #drawNear(near: HTMLElement): Promise<void> {
    const canvas = near.querySelector('.canvas');
    const here = this.querySelector<HTMLElement>('.alone')?.dataset['node'];
    if (canvas === null || here === undefined) return;
    try {
      const { drawNear } = await import('./walk/near-graph.ts');
      await drawNear(canvas, this, here);
      updateLinks(this, this, this.#held);
      this.#showWalked();
      this.#updateParts();
    } catch {
      canvas.remove();
    }
  }

  disconnectedCallback(): void {
    window.removeEventListener('hashchange', this.#read);
    window.removeEventListener('unit-said', this.#read);
  }

  get map(): TreeMap {
    return this.#map ?? { slug: '', title: '', start: '', nodes: [], trees: [], units: [] };
  }

  get state(): LinkState {
    return this.#state;
  }

  get unit(): UnitSheet | undefined {
    return this.#unit;
  }

  get #isAlone(): boolean {
    return this.querySelector('.node.alone') !== null;
  }

  readonly addressIn = (node: string, state: LinkState, tree: string = this.map.slug): string => {
    const fragment = printLinkState(state);
    return `${addressOf({ kind: 'node', tree, node }, basePath())}${fragment === '' ? '' : `#${fragment}`}`;
  };

  readonly put = (state: LinkState): void => {
    this.isTouched = true;
    notePress(this.map, this.#state, state, { isTakingBack: true });
    const fragment = printLinkState(state);
    history.pushState(null, '', fragment === '' ? location.pathname : `#${fragment}`);
    this.#read();
    window.dispatchEvent(new Event('press-noted'));
  };

  readonly go = (node: string, state: LinkState): void => {
    notePress(this.map, this.#state, state);
    void this.#goOn(node, state);
  };

  /**
   * Opens the page that an answer leads to: the step that the engine takes next, all answers kept. Where a link asks, where the tree
   * hands over or leads to another one, and where the engine names no step in time, the tree's own, `to`.
   */
  async #goOn(to: string, state: LinkState): Promise<void> {
    const { map } = this;
    const here = this.querySelector<HTMLElement>('.node.alone')?.dataset['node'] ?? '';
    const kind = map.nodes.find(({ id }) => id === to)?.kind;
    const isSettled = findNextAsked(state, here) !== undefined || kind === 'hand-over' || kind === 'elsewhere';
    const press = {};
    this.#lastPress = press;
    const suggested = isSettled ? undefined : await this.#findSuggested(state);
    // Another answer pressed meanwhile is the one that counts.
    if (this.#lastPress === press) location.assign(this.addressIn(suggested ?? to, state));
  }

  async #findSuggested(state: LinkState | undefined): Promise<string | undefined> {
    if (!this.#isAlone) return undefined;
    const engine = import('./walk/engine-parts.ts').then(({ findSuggested }) => findSuggested(this, state));
    const late = new Promise<undefined>((resolve) => {
      setTimeout(resolve, mostWaitMilliseconds);
    });
    return Promise.race([engine, late]).catch(() => undefined);
  }

  /** A link within this tree is an answer where its address holds one that this page’s does not. */
  readonly #noteLink = (event: Event): void => {
    const link = event.target instanceof Element ? event.target.closest<HTMLAnchorElement>('a[href]') : null;
    if (link === null || event.defaultPrevented || !link.pathname?.startsWith(treePath(this.map))) return;
    const { state } = parseLinkState(link.hash, namesOf(this.map));
    const { length } = this.#state.answers;
    if (
      length > 0 &&
      link.matches('[data-restart]') &&
      !confirm(`Drop ${length === 1 ? 'your answer' : `all ${length} answers`} and start again?`)
    ) {
      event.preventDefault();
      return;
    }
    const isTakingBack = link.matches('[data-back], [data-restart]');
    notePress(this.map, this.#state, state, { isTakingBack, said: link.querySelector('.label')?.textContent?.trim() });
    const to = link.dataset['to'];
    const isPlain =
      event instanceof MouseEvent && event.button === 0 && !(event.ctrlKey || event.metaKey || event.shiftKey);
    if (to === undefined || !isPlain || !this.#isAlone) return;
    event.preventDefault();
    void this.#goOn(findNextAsked(state, link.closest<HTMLElement>('article')?.dataset['node'] ?? '') ?? to, state);
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
    this.#gate?.update(state.unit, this.#unit);
    void this.#showUnit(state.unit);
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
      // The tree's own sentences stand over what the page can say without its data.
      const [{ updateEngine }] = await Promise.all([import('./walk/engine-parts.ts'), this.#firstWalked]);
      await updateEngine(this, this);
    } catch {
      // The page does its job by its outcome links; only the suggestions are missing.
      const hasReadings = this.#state.answers.some(({ value }) => !isWord(value));
      if (hasReadings) this.say(`Readings cannot be judged now. ${notFetched}`);
    }
    list?.setAttribute('data-told', '');
  }

  /** What has changed since the link was made: fetched for those who came by one. */
  async #tellChanges(map: TreeMap, state: LinkState): Promise<void> {
    const fragment = location.hash;
    const found = await import('#core/link/changes.ts').catch(() => undefined);
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
    list?.removeAttribute('data-told');
    this.#noAnswers ??= list?.querySelector('.hint');
    if (size === 0) list?.replaceChildren(...(this.#noAnswers ? [this.#noAnswers] : []));
    if (this.#parts !== undefined) this.#parts.showWalked(this, this);
    else if (size > 0) {
      list?.replaceChildren();
      this.#firstWalked = this.#showFirstWalked(list);
    }
  }

  async #showFirstWalked(list: Element | null): Promise<void> {
    try {
      const { showWalked } = await this.#loadParts();
      showWalked(this, this);
    } catch {
      if (list !== null) list.textContent = answersSafe;
    }
  }

  /** Answers that are buttons: how often it showed, and the stages of a path. */
  async #pressAnswer({ target }: Event): Promise<void> {
    const button = target instanceof Element ? target.closest<HTMLElement>('.rare-answers button, [data-mark]') : null;
    if (button === null || !this.#isAlone) return;
    const parts = await this.#loadParts().catch(() => undefined);
    if (parts === undefined) this.say(`${notFetched} Press again.`);
    else parts.pressAnswer(button, this);
  }

  async #loadParts(): Promise<AnswerParts> {
    this.#parts ??= await import('./walk/answer-parts.ts');
    return this.#parts;
  }

  readonly #chooseChip = (event: Event): void => {
    const figure = event.target instanceof Element ? event.target.closest('[data-choose]')?.closest('figure') : null;
    if (!figure) return;
    event.preventDefault();
    void import('./pin-figures.ts')
      .then(({ askChip }) => askChip(figure))
      .catch(() => this.say(`${notFetched} Press again.`));
  };

  /** Where the unit or its reader has named a chip, its pins are drawn; where its boards are drawn, the points are lit in them. */
  #showFigures(): void {
    if (this.#unit ?? drawingHere())
      void import('./placed-points.ts')
        .then(({ showPlaced }) => showPlaced(this, this.#unit?.placement))
        .catch(() => undefined);
    else for (const figure of this.querySelectorAll('[data-placed]')) figure.remove();
    const ofUnit = this.#unit?.chips ?? {};
    if (this.querySelector('figure[data-chip]') === null || Object.keys({ ...chipsHere(), ...ofUnit }).length === 0)
      return;
    void import('./pin-figures.ts').then(({ showFigures }) => showFigures(this, ofUnit)).catch(() => undefined);
  }

  #offerUnits(): void {
    const place = this.querySelector<HTMLElement>('.unit');
    if (place === null) return;
    const options = this.map.units.map(({ slug, title, isInvented }) =>
      makeElement('option', { value: slug }, isInvented ? `${title} (invented)` : title),
    );
    const none = makeElement('option', { value: '' }, 'Another one, or none of these');
    const select = makeElement('select', { name: 'unit', autocomplete: 'off' }, none, ...options);
    select.addEventListener('change', () => this.#chooseUnit(select.value === '' ? undefined : select.value));
    place.append(
      makeElement('label', {}, 'Which unit is on your bench?', select),
      makeElement('p', { 'data-differs': true, hidden: true }),
    );
    place.hidden = false;
  }

  #chooseUnit(unit: string | undefined): void {
    const fragment = printLinkState({ ...this.#state, unit });
    history.replaceState(null, '', fragment === '' ? location.pathname : `#${fragment}`);
    this.#read();
  }

  async #showUnit(slug: string | undefined): Promise<void> {
    const select = this.querySelector<HTMLSelectElement>('select[name="unit"]');
    if (select !== null) select.value = slug ?? '';
    // The page stands as it was built, but for the mains of this bench.
    if (slug === undefined && this.#unit === undefined) {
      this.#showFigures();
      this.#applyMains();
      return;
    }
    const parts = await import('./apply-unit.ts').catch(() => undefined);
    const sheet = slug === undefined ? undefined : await parts?.fetchUnitSheet(slug);
    if (slug !== undefined && sheet === undefined) {
      this.#addProblems(['The sheet of this unit could not be read; the general points and limits are shown.']);
    }
    if (this.#state.unit !== slug) return;
    const isChanged = sheet !== this.#unit;
    this.#unit = sheet;
    parts?.applyUnit(this, sheet, this.map.slug);
    this.#showFigures();
    this.#applyMains();
    this.#gate?.update(slug, sheet);
    if (isChanged) this.#updateParts();
  }

  #applyMains(): void {
    if (this.querySelector('[data-mains]') === null) return;
    const isSaid = readBench().mainsHertz !== undefined;
    if (isSaid) void import('./apply-mains.ts').then(({ applyMains }) => applyMains(this, this)).catch(() => undefined);
    else void this.#askMains();
  }

  /** Where neither the bench nor a unit says the frequency of the mains. */
  async #askMains(): Promise<void> {
    const asking = await import('./ask-mains.ts').catch(() => undefined);
    if (this.#unit !== undefined) asking?.dropMains(this);
    else
      asking?.askMains(this, () => {
        this.#applyMains();
        this.#updateParts();
      });
  }
}

function treePath({ slug }: TreeMap): string {
  return addressOf({ kind: 'tree', tree: slug }, basePath());
}

defineWithMap('node-walk', NodeWalk);
