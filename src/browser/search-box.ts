import type { SearchAnswer, SearchResult } from '#core/search/find-trees.ts';
import type { SaidSigns } from '#core/search/hear-signs.ts';
import { addressOf } from '#core/link/address.ts';
import { basePath } from './page-data.ts';
import type { SearchEngine } from './search-engine.ts';
import { makeOption, makeSaid, makeStopCard } from './search-parts.ts';

const announceAfterMilliseconds = 500;
/** After this pause the last word is taken as finished. */
const finishedAfterMilliseconds = 400;
const longestQuery = 10_000;

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
  readonly #saidBox = this.querySelector<HTMLElement>('[data-said]');
  #engine: Promise<SearchEngine | undefined> | undefined;
  #said: SaidSigns = {};
  #active = -1;
  #announcing: number | undefined;
  #finishing: number | undefined;
  #isComposing = false;
  #shown = '';

  connectedCallback(): void {
    const input = this.#input;
    if (input === null) return;
    input.setAttribute('role', 'combobox');
    input.setAttribute('aria-autocomplete', 'list');
    input.setAttribute('aria-expanded', 'false');
    input.setAttribute('aria-controls', this.#list?.id ?? '');
    input.addEventListener('focus', () => void this.#load());
    input.addEventListener('compositionstart', () => {
      this.#isComposing = true;
    });
    input.addEventListener('compositionend', () => {
      this.#isComposing = false;
      void this.#run();
    });
    input.addEventListener('input', () => {
      if (this.#isComposing) return;
      clearTimeout(this.#finishing);
      this.#finishing = window.setTimeout(() => void this.#run(), finishedAfterMilliseconds);
      void this.#run(true);
    });
    input.addEventListener('keydown', (event) => this.#press(event));
    this.querySelector('form')?.addEventListener('submit', (event) => this.#submit(event));
    this.#list?.addEventListener('click', () => this.#keepQuery());
    for (const button of this.#question?.querySelectorAll<HTMLButtonElement>('[data-answer]') ?? []) {
      button.addEventListener('click', () => this.#answer(button.dataset['answer'] === 'yes' ? 'yes' : 'no'));
    }
    const asked = new URLSearchParams(location.search).get('q');
    if (asked !== null && asked.trim() !== '') {
      input.value = asked.slice(0, longestQuery);
      void this.#run();
    } else if (input.value !== '' || document.activeElement === input) void this.#run();
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
      this.#say('The search could not be loaded. The blocks below lead to every tree.');
      return;
    }
    const answer = engine.find(text, { isTyping, said: this.#said });
    this.#show(answer);
    if (answer.unread.length === 0) return;
    const isKnown = await engine.correct(answer.unread);
    if (isKnown && this.#input?.value === text) this.#show(engine.find(text, { isTyping, said: this.#said }));
  }

  #show(answer: SearchAnswer): void {
    // The same answer again, as after a pause, leaves the chosen option where it is.
    const shown = JSON.stringify([
      answer.results.map(({ tree, symptom, marks, isWeak, carry }) => [tree, symptom, marks, isWeak, carry]),
      answer.nextDoor?.slug,
      answer.question?.sign,
      answer.said,
      answer.symptoms.length,
    ]);
    if (shown === this.#shown) return;
    this.#shown = shown;
    this.#activate(-1);
    const { results, nextDoor, question } = answer;
    this.#list?.replaceChildren(
      ...results.map((result, number) => makeOption(result, number, this.#addressFor(result))),
    );
    if (this.#list !== null) this.#list.hidden = results.length === 0;
    this.#input?.setAttribute('aria-expanded', String(results.length > 0));
    if (this.#card !== null) {
      this.#card.replaceChildren(...(nextDoor === undefined ? [] : makeStopCard(nextDoor, basePath())));
      this.#card.classList.toggle('lethal', nextDoor?.isLethal === true);
      this.#card.hidden = nextDoor === undefined;
    }
    this.#showQuestion(question);
    this.#showSaid();
    this.#say(describeAnswer(answer));
    this.querySelector('[data-to-blocks]')?.remove();
    if (results.length === 0 && nextDoor?.isLethal !== true) this.#pointToBlocks();
  }

  #showQuestion(question: SearchAnswer['question']): void {
    if (this.#question === null) return;
    this.#question.hidden = question === undefined;
    this.#question.dataset['sign'] = question?.sign ?? '';
    const text = this.#question.querySelector('p');
    if (text !== null) text.textContent = question?.question ?? '';
    for (const button of this.#question.querySelectorAll<HTMLButtonElement>('[data-answer]')) {
      button.textContent = (button.dataset['answer'] === 'yes' ? question?.yes : question?.no) ?? '';
    }
  }

  #showSaid(): void {
    if (this.#saidBox === null) return;
    this.#saidBox.hidden = Object.keys(this.#said).length === 0;
    this.#saidBox.replaceChildren(
      ...Object.keys(this.#said).map((sign) =>
        makeSaid(this.#words.get(sign) ?? sign, () => {
          this.#said = Object.fromEntries(Object.entries(this.#said).filter(([other]) => other !== sign));
          this.#input?.focus();
          void this.#run();
        }),
      ),
    );
  }

  /** What each answered sign says, in the words of the button that was pressed. */
  readonly #words = new Map<string, string>();

  #answer(answer: 'yes' | 'no'): void {
    const sign = this.#question?.dataset['sign'] ?? '';
    if (sign === '') return;
    const button = this.#question?.querySelector(`[data-answer="${answer}"]`);
    this.#words.set(sign, button?.textContent ?? answer);
    this.#said = { ...this.#said, [sign]: answer };
    this.#input?.focus();
    void this.#run();
  }

  /** Says where to go on when nothing fits; the list of blocks stands below on the page. */
  #pointToBlocks(): void {
    const blocks = document.querySelector<HTMLElement>('.blocks');
    if (blocks === null || this.#status === null) return;
    if (blocks.id === '') blocks.id = 'blocks';
    const link = document.createElement('a');
    link.href = `#${blocks.id}`;
    link.className = 'press plain';
    link.dataset['toBlocks'] = '';
    link.textContent = 'Choose a block';
    this.#status.after(link);
  }

  #addressFor({ tree, carry }: SearchResult): string {
    return `${addressOf({ kind: 'tree', tree }, basePath())}${carry === '' ? '' : `#${carry}`}`;
  }

  #press(event: KeyboardEvent): void {
    if (event.isComposing || event.ctrlKey || event.metaKey || event.altKey) return;
    const options = this.#options();
    const last = options.length - 1;
    if (event.key === 'Escape') {
      if (options.length === 0 && this.#input?.value === '') return;
      event.preventDefault();
      if (options.length > 0 && this.#list?.hidden === false) this.#close();
      else this.#empty();
      return;
    }
    if (options.length === 0) return;
    const isOpen = this.#list?.hidden === false;
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
    if (this.#list !== null) this.#list.hidden = false;
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
    if (this.#list !== null) this.#list.hidden = true;
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
    this.querySelector('[data-to-blocks]')?.remove();
    for (const part of [this.#card, this.#question, this.#saidBox]) if (part !== null) part.hidden = true;
    this.#say('');
  }

  /** Tells screen readers once the typing pauses; eyes see it at once. */
  #say(text: string): void {
    clearTimeout(this.#announcing);
    if (this.#status === null) return;
    this.#status.setAttribute('aria-live', 'off');
    this.#status.textContent = text;
    this.#announcing = window.setTimeout(() => {
      if (this.#status === null) return;
      this.#status.setAttribute('aria-live', 'polite');
      this.#status.textContent = '';
      requestAnimationFrame(() => {
        if (this.#status !== null) this.#status.textContent = text;
      });
    }, announceAfterMilliseconds);
  }
}

function describeAnswer({ results, nextDoor, isWeak, symptoms }: SearchAnswer): string {
  if (nextDoor !== undefined) return nextDoor.isLethal ? 'Stop: this is not for these pages.' : 'Not in these pages.';
  if (results.length === 0)
    return 'Nothing here fits. Other words for what it does, or does not do? Or choose a block below.';
  const count = results.length === 1 ? '1 tree' : `${results.length} trees`;
  if (isWeak) return `${count}, and only a weak fit. Say more of what it does.`;
  return symptoms.length > 1 ? `${count} for ${symptoms.length} symptoms: both are kept.` : `${count}, best first.`;
}

customElements.define('search-box', SearchBox);
