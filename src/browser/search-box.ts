import { addressOf } from '#core/link/address.ts';
import type { NextDoor } from '#core/model/thesaurus.ts';
import type { SearchAnswer, SearchResult } from '#core/search/find-trees.ts';
import type { SaidSigns } from '#core/search/carry-evidence.ts';
import type { NamedPage } from '#core/search/search-index.ts';
import { makeButton, makeElement } from './kit/elements.ts';
import { basePath } from './page-data.ts';
import type { SearchEngine } from './search-engine.ts';

const announceAfterMilliseconds = 500;
/** After this pause the last word is taken as finished. */
const finishedAfterMilliseconds = 400;
const narrowPixels = 500;
const longestQuery = 10_000;
/** Where the best tree is less probable than this, no order is claimed. Our judgement. */
const unclearBelow = 0.4;

/**
 * `<search-box>`: symptom search as the combobox with a listbox of the ARIA Authoring Practices. The markup is the page's own
 * and works as a plain form without script; here it is given its roles, keys and results. Everything shown is set as text.
 */
class SearchBox extends HTMLElement {
  readonly #input = this.querySelector<HTMLInputElement>('input[name="q"]');
  readonly #list = this.querySelector<HTMLElement>('[data-results]');
  readonly #status = this.querySelector<HTMLElement>('[data-status]');
  readonly #question = this.querySelector<HTMLElement>('[data-question]');
  readonly #card = this.querySelector<HTMLElement>('[data-card]');
  readonly #pages = this.querySelector<HTMLElement>('[data-pages]');
  readonly #saidBox = this.querySelector<HTMLElement>('[data-said]');
  readonly #toTrees = this.querySelector<HTMLElement>('[data-to-trees]');
  #engine: Promise<SearchEngine | undefined> | undefined;
  #said: SaidSigns = {};
  /** What each answered sign says, in the words of the button that was pressed. */
  readonly #words = new Map<string, string>();
  #active = -1;
  #announcing: number | undefined;
  #finishing: number | undefined;
  #shown = '';
  /** What each option says, to see which of them change. */
  #saidByOption: readonly string[] = [];

  connectedCallback(): void {
    const input = this.#input;
    if (input === null) return;
    input.setAttribute('role', 'combobox');
    input.setAttribute('aria-autocomplete', 'list');
    input.setAttribute('aria-expanded', 'false');
    input.setAttribute('aria-controls', this.#list?.id ?? '');
    input.addEventListener('focus', () => void this.#load());
    input.addEventListener('compositionend', () => void this.#run());
    input.addEventListener('input', (event) => {
      if (event instanceof InputEvent && event.isComposing) return;
      clearTimeout(this.#finishing);
      this.#finishing = window.setTimeout(() => void this.#run(), finishedAfterMilliseconds);
      void this.#run(true);
    });
    input.addEventListener('keydown', (event) => this.#press(event));
    this.querySelector('form')?.addEventListener('submit', (event) => this.#submit(event));
    this.#list?.addEventListener('click', () => this.#keepQuery());
    for (const button of this.#answers()) {
      button.addEventListener('click', () => this.#answer(button.dataset['answer'] === 'yes' ? 'yes' : 'no', button));
    }
    const asked = new URLSearchParams(location.search).get('q') ?? '';
    if (asked.trim() !== '') input.value = asked.slice(0, longestQuery);
    if (input.value !== '' || document.activeElement === input) void this.#run();
  }

  #load(): Promise<SearchEngine | undefined> {
    this.#engine ??= import('./search-engine.ts').then(({ loadSearchEngine }) =>
      loadSearchEngine(this.dataset['index'] ?? `${basePath()}data/search.json`),
    );
    return this.#engine;
  }

  async #run(isTyping = false): Promise<void> {
    const text = this.#input?.value ?? '';
    if (text.trim() === '') {
      this.#said = {};
      this.#clear();
      return;
    }
    const engine = await this.#load();
    if (this.#input?.value !== text) return;
    if (engine === undefined) {
      this.#engine = undefined;
      this.#clear();
      this.#say('The search could not be loaded. The list of all trees still works.');
      this.#toTrees?.removeAttribute('hidden');
      return;
    }
    const answer = engine.find(text, { isTyping, said: this.#said });
    this.#show(answer);
    if (answer.unread.length === 0) return;
    const isKnown = await engine.correct(answer.unread);
    if (isKnown && this.#input?.value === text) this.#show(engine.find(text, { isTyping, said: this.#said }));
  }

  #show(answer: SearchAnswer): void {
    const { nextDoor, warning, question, pages } = answer;
    const results = answer.results.length > 0 ? answer.results : answer.near;
    // The same answer again, as after a pause, leaves the chosen option where it is.
    const fits = answer.results.length > 0;
    const said = results.map((result) => sayShortly(result, fits));
    const shown = JSON.stringify([
      said,
      nextDoor?.slug,
      warning?.slug,
      pages,
      question?.sign,
      answer.said,
      answer.symptoms.length,
      answer.isUnwritten,
    ]);
    if (shown === this.#shown) return;
    this.#shown = shown;
    this.#activate(-1);
    this.#showResults(results, said, fits);
    this.#list?.toggleAttribute('hidden', results.length === 0);
    // Above a phone's keyboard what is found needs the room.
    document.querySelector('[data-intro]')?.toggleAttribute('hidden', results.length > 0 && innerWidth < narrowPixels);
    this.#input?.setAttribute('aria-expanded', String(results.length > 0));
    const cards = [warning, nextDoor].flatMap((subject) => subject ?? []);
    this.#card?.replaceChildren(...cards.flatMap(makeCard));
    this.#card?.classList.toggle('lethal', nextDoor?.isLethal === true || warning !== undefined);
    this.#card?.toggleAttribute('hidden', cards.length === 0);
    this.#pages?.replaceChildren(...pages.map(makePageLink));
    this.#pages?.toggleAttribute('hidden', pages.length === 0 || nextDoor?.isLethal === true);
    this.#showQuestion(question);
    this.#showSaid();
    this.#say(describeAnswer(answer));
    this.#toTrees?.toggleAttribute('hidden', results.length > 0 || nextDoor?.isLethal === true);
  }

  /** Options that say the same as before stay as they are: a keystroke changes few of them, and a phone has to lay out the rest. */
  #showResults(results: readonly SearchResult[], said: readonly string[], fits: boolean): void {
    const options = this.#options();
    for (const [number, result] of results.entries()) {
      const option = options[number];
      if (option !== undefined && said[number] === this.#saidByOption[number]) continue;
      const made = makeOption(result, number, fits);
      if (option === undefined) this.#list?.append(made);
      else option.replaceWith(made);
    }
    for (const option of options.slice(results.length)) option.remove();
    this.#saidByOption = said;
  }

  #showQuestion(question: SearchAnswer['question']): void {
    if (this.#question === null) return;
    this.#question.hidden = question === undefined;
    this.#question.dataset['sign'] = question?.sign ?? '';
    this.#question.querySelector('p')?.replaceChildren(question?.question ?? '');
    for (const button of this.#answers()) {
      button.textContent = (button.dataset['answer'] === 'yes' ? question?.yes : question?.no) ?? '';
    }
  }

  #answers(): readonly HTMLButtonElement[] {
    return [...(this.#question?.querySelectorAll<HTMLButtonElement>('[data-answer]') ?? [])];
  }

  #answer(answer: 'yes' | 'no', button: HTMLElement): void {
    const sign = this.#question?.dataset['sign'] ?? '';
    if (sign === '') return;
    this.#words.set(sign, button.textContent ?? answer);
    this.#said = { ...this.#said, [sign]: answer };
    this.#input?.focus();
    void this.#run();
  }

  /** What was answered, each with a way to undo it. */
  #showSaid(): void {
    const answered = Object.keys(this.#said).map((sign) => {
      const words = this.#words.get(sign) ?? sign;
      const undo = makeButton('Undo', '', () => {
        this.#said = Object.fromEntries(Object.entries(this.#said).filter(([other]) => other !== sign));
        this.#input?.focus();
        void this.#run();
      });
      undo.setAttribute('aria-label', `Undo: ${words}`);
      return makeElement('span', { class: 'said' }, `${words} `, undo);
    });
    this.#saidBox?.replaceChildren(...answered);
    this.#saidBox?.toggleAttribute('hidden', answered.length === 0);
  }

  #press(event: KeyboardEvent): void {
    if (event.isComposing || event.ctrlKey || event.metaKey || event.altKey) return;
    const options = this.#options();
    const last = options.length - 1;
    const isOpen = this.#list?.hidden === false;
    if (event.key === 'Escape') {
      if (options.length === 0 && this.#input?.value === '') return;
      event.preventDefault();
      if (options.length > 0 && isOpen) this.#close();
      else this.#empty();
      return;
    }
    if (options.length === 0) return;
    if (event.key === 'ArrowDown') this.#move(event, !isOpen || this.#active >= last ? 0 : this.#active + 1);
    else if (event.key === 'ArrowUp') this.#move(event, !isOpen || this.#active <= 0 ? last : this.#active - 1);
    else if (event.key === 'Home' && this.#active >= 0) this.#move(event, 0);
    else if (event.key === 'End' && this.#active >= 0) this.#move(event, last);
    else if (event.key === 'Enter' && isOpen && this.#active < 0) this.#move(event, 0);
    else if (event.key === 'Enter' && this.#active >= 0) {
      event.preventDefault();
      options[this.#active]?.click();
    }
  }

  #move(event: Event, to: number): void {
    event.preventDefault();
    this.#list?.removeAttribute('hidden');
    this.#input?.setAttribute('aria-expanded', 'true');
    this.#activate(to);
  }

  #activate(to: number): void {
    const options = this.#options();
    this.#active = to;
    for (const [number, option] of options.entries()) option.setAttribute('aria-selected', String(number === to));
    const option = options[to];
    if (option === undefined) this.#input?.removeAttribute('aria-activedescendant');
    else {
      this.#input?.setAttribute('aria-activedescendant', option.id);
      option.scrollIntoView({ block: 'nearest' });
    }
  }

  #options(): readonly HTMLAnchorElement[] {
    return [...(this.#list?.querySelectorAll<HTMLAnchorElement>('[role="option"]') ?? [])];
  }

  #submit(event: Event): void {
    event.preventDefault();
    this.#keepQuery();
    void this.#run();
    // On a phone the keyboard covers the results: put it away.
    if (matchMedia('(pointer: coarse)').matches) this.#input?.blur();
  }

  /** Puts the query into the address of home, so that the way back leads to these results. */
  #keepQuery(): void {
    const text = this.#input?.value.trim() ?? '';
    if (location.pathname !== basePath() || text === '') return;
    history.replaceState(null, '', `?${new URLSearchParams({ q: text.slice(0, 200) }).toString()}`);
  }

  #close(): void {
    this.#activate(-1);
    this.#list?.setAttribute('hidden', '');
    this.#input?.setAttribute('aria-expanded', 'false');
  }

  #empty(): void {
    if (this.#input !== null) this.#input.value = '';
    this.#said = {};
    this.#clear();
  }

  #clear(): void {
    this.#shown = '';
    this.#close();
    this.#list?.replaceChildren();
    this.#saidByOption = [];
    for (const part of [this.#pages, this.#card, this.#question, this.#saidBox, this.#toTrees])
      part?.setAttribute('hidden', '');
    this.#say('');
  }

  /** Tells screen readers once the typing pauses; eyes see it at once. */
  #say(text: string): void {
    const status = this.#status;
    clearTimeout(this.#announcing);
    status?.setAttribute('aria-live', 'off');
    if (status?.textContent !== text) status?.replaceChildren(text);
    this.#announcing = window.setTimeout(() => {
      status?.setAttribute('aria-live', 'polite');
      status?.replaceChildren();
      // A timer and not a frame: what is said next can still stop it.
      this.#announcing = window.setTimeout(() => status?.replaceChildren(text), 20);
    }, announceAfterMilliseconds);
  }
}

/** All that an option shows, in one string. */
function sayShortly({ tree, symptom, marks, isWeak, carry }: SearchResult, fits: boolean): string {
  return JSON.stringify([tree, symptom, marks, isWeak, carry, fits]);
}

/** One result as an option of the listbox: a real link, with the matched words of its symptom phrase marked. */
function makeOption(result: SearchResult, number: number, fits: boolean): HTMLAnchorElement {
  const { tree, title, block, symptom, marks, checks, carry, isWeak } = result;
  const about = [
    block,
    checks === 1 ? '1 check' : `${checks} checks`,
    ...(fits ? (isWeak ? ['weak fit'] : []) : ['nearest, not a fit']),
    ...(carry === '' ? [] : ['keeps what you answered']),
  ];
  return makeElement(
    'a',
    {
      id: `search-result-${number}`,
      href: `${addressOf({ kind: 'tree', tree }, basePath())}${carry === '' ? '' : `#${carry}`}`,
      tabindex: '-1',
      role: 'option',
      'aria-selected': 'false',
      class: isWeak || !fits ? 'result weak' : 'result',
    },
    makeElement('span', { class: 'result-title' }, title),
    // A phrase that shares no word with the query says nothing of why the tree is here.
    ...(symptom === '' || marks.length === 0 ? [] : [makePhrase(result)]),
    makeElement('span', { class: 'result-about' }, about.join(' · ')),
  );
}

function makePhrase({ symptom, marks }: SearchResult): HTMLElement {
  const phrase = makeElement('span', { class: 'result-phrase' });
  let at = 0;
  for (const [start, end] of marks) {
    phrase.append(symptom.slice(at, start), makeElement('mark', {}, symptom.slice(start, end)));
    at = end;
  }
  phrase.append(symptom.slice(at));
  return phrase;
}

const pageKinds = { unit: 'Unit', part: 'Part', target: 'Target', caution: 'Caution' } as const;

/** A page that was named, as a link. */
function makePageLink([kind, slug, title]: NamedPage): HTMLElement {
  return makeElement(
    'a',
    { class: 'press plain', href: addressOf({ kind, slug }, basePath()) },
    `${pageKinds[kind]}: ${title}`,
  );
}

/** The card for a subject that is not in these pages, or for a danger; where there is one, with the page that says why. */
function makeCard({ title, says, caution, isLethal }: NextDoor): readonly HTMLElement[] {
  const card = [makeElement('h2', {}, isLethal ? `Stop. ${title}` : title), makeElement('p', {}, says)];
  if (caution === undefined) return card;
  const href = addressOf({ kind: 'caution', slug: caution }, basePath());
  return [...card, makeElement('a', { href, class: 'press' }, 'Why, and what to do')];
}

function describeAnswer(answer: SearchAnswer): string {
  const { results, near, nextDoor, pages, isUnwritten, isWeak, question, symptoms } = answer;
  if (nextDoor !== undefined) return nextDoor.isLethal ? 'Stop: this is not for these pages.' : 'Not in these pages.';
  if (isUnwritten && near.length > 0) return 'No tree covers this yet. The nearest is below.';
  if (isUnwritten) return 'No tree covers this yet.';
  if (near.length > 0) return 'No tree fits these words. The nearest is below; or say it in other words.';
  if (results.length === 0 && pages.length > 0) return 'No tree fits these words, but a page has that name.';
  if (results.length === 0) return 'No tree fits these words. Try other words for what it does, or does not do.';
  const count = results.length === 1 ? '1 tree' : `${results.length} trees`;
  if (isWeak) return `${count}, and only a weak fit: perhaps no tree covers this yet. Say more about what it does.`;
  if ((results[0]?.score ?? 0) < unclearBelow)
    return question === undefined
      ? `It could be any of these ${count}. Say more about what it does.`
      : `It could be any of these ${count}. Answer the question below, or say more.`;
  return symptoms.length > 1 ? `${count} for ${symptoms.length} symptoms.` : `${count}, best first.`;
}

customElements.define('search-box', SearchBox);
