import type { Problem } from '#compiler/problem.ts';
import { fileOfDraft, isSlug, postAsBbcode, postAsMarkdown, slugOfDraft, untitled } from '#core/post/draft.ts';
import { makeButton, makeElement } from '../kit/elements.ts';
import { fetchOnce } from '../kit/fetch-once.ts';
import { keyOf } from '../kit/storage.ts';
import { basePath } from '../page-data.ts';
import { copyText } from '../share/copy-text.ts';
import { type DraftEditor, openDraftEditor } from './draft-editor.ts';
import { type DraftReader, openDraftReader } from './draft-reader.ts';
import { type DraftViews, openDraftViews, say, showProblems } from './draft-views.ts';
import type { DraftData } from './draft-worker.ts';
import {
  chooseStart,
  findStart,
  forgetDraft,
  keepDraft,
  type KeptDraft,
  newTree,
  previousDrafts,
  setAside,
} from './kept-drafts.ts';

/** The typing must pause for so long before the text is read; reading takes some hundredths of a second. */
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
    // Written by our own build: the one boundary where a parsed value is believed.
    const data = await fetchOnce(`${basePath()}data/library.json`, (value) => value as DraftData);
    if (data === undefined) {
      say(
        this,
        'count',
        'The rules could not be loaded, so this page cannot check the text now. Your text is safe. Reload the page to try again.',
      );
      return;
    }
    this.#views = openDraftViews(this, data);
    this.#reader = openDraftReader(data, readMilliseconds);
    await this.#read();
  }

  #listen(): void {
    this.#nameField()?.addEventListener('input', () => this.#rename());
    const on = (selector: string, act: () => void): void =>
      this.querySelector(selector)?.addEventListener('click', act);
    on('[data-begin]', () => void this.#begin());
    on('[data-download]', () => this.#download());
    on('[data-copy="markdown"]', () => void this.#copy(postAsMarkdown(this.#text(), this.#file())));
    on('[data-copy="bbcode"]', () => void this.#copy(postAsBbcode(this.#text(), this.#file())));
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
    this.#isStale = this.#isReading;
    if (this.#reader === undefined || this.#isReading) return;
    this.#isReading = true;
    do {
      this.#isStale = false;
      const file = this.#file();
      say(this, 'place', file);
      const reply = await this.#reader({ kind: 'check', text: this.#text(), file });
      if (this.#isStale) continue;
      if (typeof reply === 'string') this.#showProblems([makeUnread(reply, file)]);
      else if (reply.kind === 'checked') {
        this.#showProblems(reply.draft.problems);
        this.#views?.show(reply.draft);
      }
    } while (this.#isStale);
    this.#isReading = false;
  }

  #showProblems(problems: readonly Problem[]): void {
    this.#editor?.showProblems(problems);
    showProblems(this, problems, (line, column) => this.#editor?.goTo(line, column));
    this.dataset['read'] = String(Number(this.dataset['read'] ?? '0') + 1);
  }

  #rename(): void {
    const typed = this.#nameField()?.value.trim() ?? '';
    const isName = typed === '' || isSlug(typed.toLowerCase());
    say(this, 'name-said', isName ? '' : 'Use small letters, digits and single hyphens, at most 40.');
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
        ? 'Saved in this browser.'
        : 'This browser saves nothing for this page: its storage is off or full. Download the file before you leave.',
    );
    return isKept;
  }

  #onOtherTab({ key, newValue }: StorageEvent): void {
    if (key !== keyOf('draft', this.#name) || newValue === null || newValue === this.#text()) return;
    this.#isContested = true;
    this.#ask('Another tab changed this draft. Both texts are there until you choose.', [
      ['Use the other tab’s text', () => this.#replace({ name: this.#name, text: newValue })],
      [
        'Keep this tab’s text',
        () => {
          this.#isContested = false;
          this.#keep();
        },
      ],
    ]);
  }

  async #begin(): Promise<void> {
    const draft = await findStart(this.querySelector<HTMLSelectElement>('[data-start]')?.value ?? '');
    if (draft === undefined) say(this, 'notice', 'This tree could not be loaded. Your draft has not changed.');
    else if (this.#isWorthKeeping()) {
      this.#ask('This replaces the draft you see, which moves to “Earlier drafts”.', [
        ['Replace my draft', () => this.#replace(draft)],
        ['Keep my draft', () => undefined],
      ]);
    } else this.#replace(draft);
  }

  #isWorthKeeping(): boolean {
    return this.#text().trim() !== '' && this.#text() !== newTree;
  }

  /** Another draft replaces this one, which is set aside first; Undo brings the text back as well. */
  #replace(draft: KeptDraft): void {
    const before = { name: this.#name, text: this.#text() };
    if (this.#isWorthKeeping() && before.text !== draft.text && !setAside(before)) {
      say(
        this,
        'notice',
        'This browser has no room to keep your draft, so nothing was replaced. Download your draft, empty the editor, then press Start again.',
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
    const options = previousDrafts().map(({ name, text }, index) => {
      const lines = text.split('\n').length;
      return makeElement('option', { value: `previous/${index}` }, `${name}, ${lines} line${lines === 1 ? '' : 's'}`);
    });
    group?.toggleAttribute('hidden', options.length === 0);
    group?.replaceChildren(...options);
  }

  /** A question in the page itself, beside what it is about. */
  #ask(question: string, answers: readonly (readonly [words: string, act: () => void])[]): void {
    const notice = this.querySelector('[data-say="notice"]');
    const buttons = answers.map(([words, act]) =>
      makeButton(words, 'press plain', () => {
        notice?.replaceChildren();
        act();
      }),
    );
    notice?.replaceChildren(makeElement('p', {}, question), makeElement('div', { class: 'answers' }, ...buttons));
  }

  #download(): void {
    const href = URL.createObjectURL(new Blob([this.#text()], { type: 'text/markdown' }));
    makeElement('a', { href, download: `${this.#name}.mdx` }).click();
    setTimeout(() => URL.revokeObjectURL(href), 10_000);
    say(this, 'sent', `The browser saves ${this.#name}.mdx among its downloads.`);
  }

  async #copy(post: string | undefined): Promise<void> {
    if (post === undefined) {
      say(
        this,
        'sent',
        'The text contains [/code], which would end the block early. Attach the downloaded file instead.',
      );
    } else {
      const isCopied = await copyText(Promise.resolve(post));
      say(
        this,
        'sent',
        isCopied
          ? 'Copied. Paste it into your post.'
          : 'The browser did not allow copying. Download the file and attach it.',
      );
    }
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

/** The answer to a text that could not be read to its end. */
function makeUnread(rule: 'too-long' | 'failed', file: string): Problem {
  return {
    rule,
    severity: 'error',
    file,
    position: { line: 1, column: 1 },
    message:
      rule === 'too-long'
        ? 'This text takes too long to read; reading was stopped after a second.'
        : 'This text could not be read.',
    help: 'Undo the last change, or delete what you pasted. Nothing in it was run, and your text has not changed.',
  };
}

customElements.define('draft-sheet', DraftSheet);
