import type { Problem } from '#compiler/problem.ts';
import { fileOfDraft, isSlug, slugOfDraft, untitled } from '#core/post/draft.ts';
import { fetchOnce } from '../kit/fetch-once.ts';
import { keyOf } from '../kit/storage.ts';
import { basePath } from '../page-data.ts';
import type { DraftData } from './draft-data.ts';
import { type DraftEditor, openDraftEditor } from './draft-editor.ts';
import { type DraftReader, openDraftReader } from './draft-reader.ts';
import { chooseStart, findStart, newTree } from './draft-start.ts';
import { type DraftViews, openDraftViews } from './draft-views.ts';
import { forgetDraft, keepDraft, type KeptDraft, previousDrafts, setAside } from './kept-drafts.ts';
import { makeElement } from '../kit/elements.ts';
import { countProblems, fillMessageList } from './message-list.ts';
import { say } from './say.ts';
import { listenForSending } from './send-draft.ts';

/** Typing is let settle for so long before it is read; reading takes some hundredths of a second. */
const settleMilliseconds = 30;
const keepMilliseconds = 400;
/** After this the worker that reads a text is ended. */
const readMilliseconds = 950;

/** `<draft-sheet>`: the drafting page's editor with its messages, views, keeping and sending. */
class DraftSheet extends HTMLElement {
  #editor: DraftEditor | undefined;
  #reader: DraftReader | undefined;
  #views: DraftViews | undefined;
  #name = untitled;
  #isReading = false;
  #isStale = false;
  /** Another tab changed the draft and the choice between the two is open: nothing is kept meanwhile. */
  #isContested = false;
  #readTimer = 0;
  #keepTimer = 0;

  async connectedCallback(): Promise<void> {
    const host = this.querySelector<HTMLElement>('[data-editor-host]');
    if (host === null) return;
    const { draft, notice } = chooseStart();
    this.hidden = false;
    this.#takeName(draft.name);
    this.#editor = openDraftEditor(host, {
      text: draft.text,
      label: 'Text of the tree. Tab leaves the editor, F8 goes to the next message.',
      onChange: () => this.#onChange(),
      onLine: (line) => this.#views?.followLine(line),
    });
    say(this, 'notice', notice);
    say(this, 'place', this.#file());
    this.#listPrevious();
    this.#listen();
    const data = await fetchData();
    if (data === undefined) {
      say(
        this,
        'count',
        'The library could not be fetched, so nothing can be checked now. Your text is kept; reload the page to try again.',
      );
      return;
    }
    this.#views = openDraftViews(this, data);
    this.#reader = openDraftReader(data, readMilliseconds);
    await this.#read();
  }

  #listen(): void {
    this.#nameField()?.addEventListener('input', () => this.#rename());
    this.querySelector('[data-begin]')?.addEventListener('click', () => void this.#begin());
    listenForSending(this, () => ({ name: this.#name, file: this.#file(), text: this.#text() }));
    window.addEventListener('storage', (event) => this.#onOtherTab(event));
    window.addEventListener('pagehide', () => this.#keep());
  }

  #onChange(): void {
    clearTimeout(this.#readTimer);
    this.#readTimer = window.setTimeout(() => void this.#read(), settleMilliseconds);
    clearTimeout(this.#keepTimer);
    this.#keepTimer = window.setTimeout(() => this.#keep(), keepMilliseconds);
  }

  /** Reads the text as it is now; what was typed meanwhile is read right after, and nothing in between. */
  async #read(): Promise<void> {
    const reader = this.#reader;
    if (reader === undefined) return;
    if (this.#isReading) {
      this.#isStale = true;
      return;
    }
    this.#isReading = true;
    do {
      this.#isStale = false;
      say(this, 'place', this.#file());
      const reply = await reader.ask({ kind: 'check', text: this.#text(), file: this.#file() });
      if (this.#isStale) continue;
      if (typeof reply === 'string') this.#showProblems([makeUnread(reply, this.#file())]);
      else if (reply.kind === 'checked') {
        this.#showProblems(reply.draft.problems);
        this.#views?.show(reply.draft);
      }
    } while (this.#isStale);
    this.#isReading = false;
  }

  #showProblems(problems: readonly Problem[]): void {
    this.#editor?.showProblems(problems);
    say(this, 'count', countProblems(problems));
    const list = this.querySelector<HTMLElement>('[data-messages]');
    if (list !== null) fillMessageList(list, problems, (line, column) => this.#editor?.goTo(line, column));
    this.dataset['read'] = String(Number(this.dataset['read'] ?? '0') + 1);
  }

  #rename(): void {
    const typed = this.#nameField()?.value.trim() ?? '';
    const isName = typed === '' || isSlug(typed.toLowerCase());
    say(this, 'name-said', isName ? '' : 'Small letters, digits and single hyphens, at most 40.');
    const [before, name] = [this.#name, slugOfDraft(typed)];
    if (name === before) return;
    this.#name = name;
    if (this.#keep()) forgetDraft(before);
    this.#onChange();
  }

  #keep(): boolean {
    clearTimeout(this.#keepTimer);
    if (this.#editor === undefined || this.#isContested) return false;
    const isKept = keepDraft({ name: this.#name, text: this.#text() });
    say(
      this,
      'kept',
      isKept
        ? 'Kept in this browser.'
        : 'This browser keeps nothing for this page: its storage is off or full. Download the file before you leave.',
    );
    return isKept;
  }

  #onOtherTab({ key, newValue }: StorageEvent): void {
    if (key !== keyOf('draft', this.#name) || newValue === null || newValue === this.#text()) return;
    this.#isContested = true;
    this.#ask('Another tab changed this draft. Both texts are there until you choose.', [
      ['Take the other tab’s text', () => this.#replace({ name: this.#name, text: newValue })],
      [
        'Keep the text of this tab',
        () => {
          this.#isContested = false;
          this.#keep();
        },
      ],
    ]);
  }

  async #begin(): Promise<void> {
    const draft = await findStart(this.querySelector<HTMLSelectElement>('[data-start]')?.value ?? '');
    if (draft === undefined) {
      say(this, 'notice', 'That file could not be fetched. Your draft is as it was.');
    } else if (this.#isWorthKeeping()) {
      this.#ask('This takes the place of the draft you see, which moves to “Earlier drafts”.', [
        ['Replace it', () => this.#replace(draft)],
        ['Keep my draft', () => undefined],
      ]);
    } else this.#replace(draft);
  }

  #isWorthKeeping(): boolean {
    return this.#text().trim() !== '' && this.#text() !== newTree;
  }

  /** Another draft takes the place of this one, which is set aside first; Undo brings the text back as well. */
  #replace(draft: KeptDraft): void {
    const before = { name: this.#name, text: this.#text() };
    if (this.#isWorthKeeping() && before.text !== draft.text && !setAside(before)) {
      say(
        this,
        'notice',
        'This browser could not set your draft aside: download it and empty the editor, then start anew. Nothing was replaced.',
      );
      return;
    }
    if (before.name !== draft.name) forgetDraft(before.name);
    this.#isContested = false;
    this.#takeName(draft.name);
    this.#editor?.replaceText(draft.text);
    this.#keep();
    this.#listPrevious();
    say(this, 'notice', '');
  }

  #listPrevious(): void {
    const group = this.querySelector('[data-previous]');
    const drafts = previousDrafts();
    group?.toggleAttribute('hidden', drafts.length === 0);
    group?.replaceChildren(
      ...drafts.map(({ name, text }, index) => {
        const lines = text.split('\n').length;
        const option = makeElement('option', {}, `${name}, ${lines} ${lines === 1 ? 'line' : 'lines'}`);
        option.value = `previous/${index}`;
        return option;
      }),
    );
  }

  /** A question in the page itself, beside what it is about. */
  #ask(question: string, answers: readonly (readonly [words: string, act: () => void])[]): void {
    const notice = this.querySelector('[data-say="notice"]');
    const buttons = answers.map(([words, act]) => {
      const button = makeElement('button', { class: 'press plain' }, words);
      button.type = 'button';
      button.addEventListener('click', () => {
        notice?.replaceChildren();
        act();
      });
      return button;
    });
    notice?.replaceChildren(makeElement('p', {}, question), makeElement('div', { class: 'answers' }, ...buttons));
  }

  #takeName(name: string): void {
    this.#name = name;
    const field = this.#nameField();
    if (field !== null) field.value = name === untitled ? '' : name;
  }

  #nameField(): HTMLInputElement | null {
    return this.querySelector<HTMLInputElement>('[data-name]');
  }

  #text(): string {
    return this.#editor?.readText() ?? '';
  }

  #file(): string {
    return fileOfDraft(this.#text(), this.#name);
  }
}

/** Written by our own build: the one boundary where a parsed value is believed. */
function fetchData(): Promise<DraftData | undefined> {
  return fetchOnce(`${basePath()}data/library.json`, (value) => value as DraftData);
}

/** The answer to a text that could not be read to its end. */
function makeUnread(reason: 'too-long' | 'failed', file: string): Problem {
  return {
    rule: reason,
    severity: 'error',
    file,
    position: { line: 1, column: 1 },
    message:
      reason === 'too-long'
        ? 'This text takes too long to read; reading was stopped after a second.'
        : 'This text could not be read.',
    help: 'Undo the last change, or take away what you pasted. Nothing of it was run, and your text is as you left it.',
  };
}

customElements.define('draft-sheet', DraftSheet);
