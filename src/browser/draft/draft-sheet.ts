import type { Problem } from '#compiler/problem.ts';
import type { References } from '#core/model/library.ts';
import { openReferences } from '#compiler/draft-library.ts';
import { findNode } from '#core/model/links.ts';
import { draftFromRepair } from '#core/share/draft-from-repair.ts';
import { fileOfDraft, isSlug, postAsBbcode, postAsMarkdown, slugOfDraft, untitled } from '#core/share/draft-file.ts';
import { readRepairSeed, repairSeedKey } from '#core/share/repair-seed.ts';
import { basePath } from '../page-data.ts';
import type { DraftData } from './draft-data.ts';
import { type DraftEditor, openDraftEditor } from './draft-editor.ts';
import { type DraftReader, openDraftReader } from './draft-reader.ts';
import type { ReadDraft } from './draft-worker.ts';
import {
  forgetDraft,
  keepDraft,
  type KeptDraft,
  keyOfDraft,
  previousDrafts,
  recallDraft,
  setAside,
} from './kept-drafts.ts';
import { makeElement } from './make-element.ts';
import { countProblems, fillMessageList } from './message-list.ts';
import { previewNode } from './preview-node.ts';
import { showDrawing } from './show-drawing.ts';
import { fillWorthList } from './worth-list.ts';

/** A new tree: a repair of which nothing is known yet, every gap marked. */
const newTree = draftFromRepair({
  title: '',
  symptom: '',
  steps: [{ title: '', said: '' }],
  cause: '',
  repair: '',
  proof: '',
});

/** Typing is let settle for so long before it is read; reading takes some hundredths of a second. */
const settleMilliseconds = 60;
const keepMilliseconds = 400;
/** After this the worker that reads a text is ended. */
const readMilliseconds = 950;
/** Graph and worth come from a worker of their own, beside the typing, and may take longer. */
const besideMilliseconds = 5_000;
/** The worth is measured when the typing has paused. */
const pauseMilliseconds = 700;

/** `<draft-sheet>`: the drafting page's editor with messages, graph, preview, keeping and sending. */
class DraftSheet extends HTMLElement {
  #editor: DraftEditor | undefined;
  #reader: DraftReader | undefined;
  #beside: DraftReader | undefined;
  #data: DraftData | undefined;
  #references: References | undefined;
  #name = untitled;
  #draft: ReadDraft | undefined;
  #node = '';
  #isReading = false;
  #isStale = false;
  #isContested = false;
  #readTimer = 0;
  #keepTimer = 0;
  #weighTimer = 0;

  async connectedCallback(): Promise<void> {
    const start = this.#chooseStart();
    this.#name = start.name;
    this.#nameField().value = start.name === untitled ? '' : start.name;
    const host = this.#find('[data-editor-host]');
    if (host === null) return;
    this.hidden = false;
    this.#editor = openDraftEditor(host, {
      text: start.text,
      label: 'Text of the tree. Tab leaves the editor, F8 goes to the next message.',
      onChange: () => this.#onChange(),
      onLine: (line) => this.#followLine(line),
    });
    this.#listen();
    this.#listPrevious();
    this.#showPlace();
    this.#data = await this.#fetchData();
    if (this.#data === undefined) {
      this.#say(
        'count',
        'The library could not be fetched, so nothing can be checked now. Your text is kept; reload the page to try again.',
      );
      return;
    }
    this.#references = openReferences(this.#data.library);
    this.#reader = openDraftReader(this.#data, readMilliseconds);
    await this.#read();
  }

  /** A repair handed over by another page, else the draft that was open last, else a new tree. */
  #chooseStart(): KeptDraft {
    const kept = recallDraft();
    const seed = this.#takeSeed();
    if (seed === undefined) return kept ?? { name: untitled, text: newTree };
    if (kept !== undefined && kept.text !== newTree) setAside(kept);
    const draft = { name: untitled, text: seed };
    keepDraft(draft);
    return draft;
  }

  #takeSeed(): string | undefined {
    try {
      const text = sessionStorage.getItem(repairSeedKey);
      if (text === null) return undefined;
      sessionStorage.removeItem(repairSeedKey);
      const repair = readRepairSeed(text);
      if (repair === undefined)
        this.#say('notice', 'The finished repair could not be read. Your draft is as you left it.');
      return repair === undefined ? undefined : draftFromRepair(repair);
    } catch {
      return undefined;
    }
  }

  async #fetchData(): Promise<DraftData | undefined> {
    try {
      const response = await fetch(`${basePath()}data/library.json`);
      // Written by our own build: the one boundary where a parsed value is believed.
      return response.ok ? ((await response.json()) as DraftData) : undefined;
    } catch {
      return undefined;
    }
  }

  #listen(): void {
    this.#nameField().addEventListener('input', () => this.#rename());
    this.#on('[data-begin]', () => void this.#begin());
    this.#on('[data-download]', () => this.#download());
    this.#on('[data-copy="markdown"]', () => void this.#copy(postAsMarkdown(this.#text(), this.#file())));
    this.#on('[data-copy="bbcode"]', () => void this.#copy(postAsBbcode(this.#text(), this.#file())));
    const nodes = this.#find<HTMLSelectElement>('[data-node-choice]');
    nodes?.addEventListener('change', () => this.#openNode(nodes.value));
    this.#find('[data-graph]')?.addEventListener('toggle', () => void this.#draw());
    this.#find('[data-worth]')?.addEventListener('toggle', () => void this.#weigh());
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
      const reply = await reader.ask({ kind: 'check', text: this.#text(), file: this.#file() });
      if (this.#isStale) continue;
      if (typeof reply === 'string') this.#showProblems([makeUnread(reply, this.#file())]);
      else if (reply.kind === 'checked') this.#show(reply.draft);
    } while (this.#isStale);
    this.#isReading = false;
  }

  #show(draft: ReadDraft): void {
    this.#showPlace();
    this.#showProblems(draft.problems);
    this.#say('stale', draft.tree === undefined ? 'As when the text could last be read.' : '');
    if (draft.tree === undefined) return;
    this.#draft = draft;
    this.#listNodes();
    this.#showNode();
    void this.#draw();
    clearTimeout(this.#weighTimer);
    this.#weighTimer = window.setTimeout(() => void this.#weigh(), pauseMilliseconds);
  }

  #showProblems(problems: readonly Problem[]): void {
    this.#editor?.showProblems(problems);
    this.#say('count', countProblems(problems));
    const list = this.#find('[data-messages]');
    if (list !== null) fillMessageList(list, problems, (line, column) => this.#editor?.goTo(line, column));
    this.dataset['read'] = String(Number(this.dataset['read'] ?? '0') + 1);
  }

  #listNodes(): void {
    const choice = this.#find<HTMLSelectElement>('[data-node-choice]');
    const nodes = this.#draft?.tree?.nodes ?? [];
    choice?.replaceChildren(
      ...nodes.map(({ id, title }) => {
        const option = makeElement('option', '', title === '' ? id : title);
        option.value = id;
        return option;
      }),
    );
    if (!nodes.some(({ id }) => id === this.#node)) this.#node = nodes[0]?.id ?? '';
    if (choice !== null) choice.value = this.#node;
  }

  #openNode(id: string): void {
    this.#node = id;
    this.#listNodes();
    this.#showNode();
  }

  #showNode(): void {
    const frame = this.#find('[data-preview]');
    const [tree, data, references] = [this.#draft?.tree, this.#data, this.#references];
    if (frame === null || tree === undefined || data === undefined || references === undefined) return;
    const node = findNode(tree, this.#node);
    if (node === undefined) return;
    const titles = new Map(data.library.trees.map(({ tree: other }) => [other.slug, other.title]));
    frame.replaceChildren(previewNode(node, { tree, references, titles, open: (id) => this.#openNode(id) }));
  }

  /** The preview shows the node that the cursor is in. */
  #followLine(line: number): void {
    const before = [...(this.#draft?.lineOfNode ?? [])].filter(([, start]) => start <= line);
    const id = before.at(-1)?.[0];
    if (id !== undefined && id !== this.#node) this.#openNode(id);
  }

  async #draw(): Promise<void> {
    const tree = this.#draft?.tree;
    const place = this.#find('[data-graph-place]');
    const template = this.querySelector<HTMLTemplateElement>('[data-graph-template]');
    if (tree === undefined || place === null || template === null || this.#data === undefined) return;
    if (this.#find<HTMLDetailsElement>('[data-graph]')?.open !== true) return;
    this.#beside ??= openDraftReader(this.#data, besideMilliseconds);
    const reply = await this.#beside.ask({ kind: 'draw', tree });
    if (tree !== this.#draft?.tree) return;
    const isDrawn = typeof reply !== 'string' && reply.kind === 'drawn' && showDrawing(place, template, reply.drawing);
    this.#say('graph-said', isDrawn ? '' : 'This graph is too large to be drawn here.');
  }

  /** Measured where its section is open and the draft is free of errors: minutes of a broken tree mean nothing. */
  async #weigh(): Promise<void> {
    const [draft, list] = [this.#draft, this.#find('[data-worth-list]')];
    if (draft?.tree === undefined || list === null || this.#data === undefined) return;
    if (this.#find<HTMLDetailsElement>('[data-worth]')?.open !== true) return;
    const { tree } = draft;
    const hasErrors = draft.problems.some(({ severity }) => severity === 'error');
    if (hasErrors) {
      list.replaceChildren();
      this.#say('worth-said', 'Measured once there is no error left.');
      return;
    }
    this.#say('worth-said', 'Measuring.');
    this.#beside ??= openDraftReader(this.#data, besideMilliseconds);
    const reply = await this.#beside.ask({ kind: 'weigh', tree });
    if (tree !== this.#draft?.tree) return;
    if (typeof reply === 'string' || reply.kind !== 'weighed') {
      list.replaceChildren();
      this.#say('worth-said', 'This tree is too large to be measured here: `npm run bench` measures it.');
      return;
    }
    fillWorthList(list, tree, reply.worth);
    this.#say('worth-said', '');
  }

  #rename(): void {
    const typed = this.#nameField().value;
    const name = slugOfDraft(typed);
    this.#say(
      'name-said',
      typed.trim() === '' || isSlug(typed.trim()) ? '' : 'Small letters, digits and single hyphens, at most 40.',
    );
    if (name === this.#name) return;
    const before = this.#name;
    this.#name = name;
    if (this.#keep()) forgetDraft(before);
    this.#onChange();
  }

  #showPlace(): void {
    this.#say('place', this.#file());
  }

  #keep(): boolean {
    clearTimeout(this.#keepTimer);
    if (this.#editor === undefined || this.#isContested) return false;
    const isKept = keepDraft({ name: this.#name, text: this.#text() });
    this.#say(
      'kept',
      isKept
        ? 'Kept in this browser.'
        : 'This browser keeps nothing for this page: its storage is off or full. Download the file before you leave.',
    );
    return isKept;
  }

  #onOtherTab({ key, newValue }: StorageEvent): void {
    if (key !== keyOfDraft(this.#name) || newValue === null || newValue === this.#text()) return;
    this.#isContested = true;
    this.#ask('Another tab changed this draft. Both texts are there until you choose.', [
      ['Take the other tab’s text', () => this.#replace({ name: this.#name, text: newValue })],
      ['Keep the text of this tab', () => this.#settle()],
    ]);
  }

  #settle(): void {
    this.#isContested = false;
    this.#keep();
  }

  #listPrevious(): void {
    const group = this.#find('[data-previous]');
    const drafts = previousDrafts();
    group?.toggleAttribute('hidden', drafts.length === 0);
    group?.replaceChildren(
      ...drafts.map(({ name, text }, index) => {
        const option = makeElement('option', '', `${name}, ${text.split('\n').length} lines`);
        option.value = `previous/${index}`;
        return option;
      }),
    );
  }

  async #begin(): Promise<void> {
    const choice = this.#find<HTMLSelectElement>('[data-start]')?.value ?? '';
    const draft = await this.#findStart(choice);
    if (draft === undefined) {
      this.#say('notice', 'That file could not be fetched. Your draft is as it was.');
      return;
    }
    if (this.#text().trim() === '' || this.#text() === newTree) {
      this.#replace(draft);
      return;
    }
    this.#ask('This takes the place of the draft you see, which moves to “Earlier drafts”.', [
      ['Replace it', () => this.#replace(draft)],
      ['Keep my draft', () => undefined],
    ]);
  }

  async #findStart(choice: string): Promise<KeptDraft | undefined> {
    const [kind = '', name = ''] = choice.split('/');
    if (kind === 'previous') return previousDrafts()[Number(name)];
    if (kind !== 'tree') return { name: untitled, text: newTree };
    try {
      const response = await fetch(`${basePath()}data/source/${name}.mdx`);
      return response.ok ? { name, text: await response.text() } : undefined;
    } catch {
      return undefined;
    }
  }

  #replace(draft: KeptDraft): void {
    const before = { name: this.#name, text: this.#text() };
    if (before.text.trim() !== '' && before.text !== newTree && before.text !== draft.text && !setAside(before)) {
      this.#say(
        'notice',
        'This browser could not set your draft aside: download it first, then start anew. Nothing was replaced.',
      );
      return;
    }
    if (before.name !== draft.name) forgetDraft(before.name);
    this.#isContested = false;
    this.#name = draft.name;
    this.#nameField().value = draft.name === untitled ? '' : draft.name;
    this.#editor?.replaceText(draft.text);
    this.#keep();
    this.#listPrevious();
    this.#say('notice', '');
  }

  #download(): void {
    const address = URL.createObjectURL(new Blob([this.#text()], { type: 'text/markdown' }));
    const link = makeElement('a', '');
    link.href = address;
    link.download = `${this.#name}.mdx`;
    link.click();
    setTimeout(() => URL.revokeObjectURL(address), 10_000);
    this.#say('sent', `${this.#name}.mdx was handed to the browser’s downloads.`);
  }

  async #copy(post: string | undefined): Promise<void> {
    if (post === undefined) {
      this.#say('sent', 'The text holds [/code], which would end the block: attach the downloaded file instead.');
      return;
    }
    try {
      await navigator.clipboard.writeText(post);
      this.#say('sent', 'Copied. Paste it into your post.');
    } catch {
      this.#say('sent', 'The browser did not allow copying: download the file and attach it.');
    }
  }

  /** A question in the page itself, beside what it is about. */
  #ask(question: string, answers: readonly (readonly [words: string, act: () => void])[]): void {
    const notice = this.#find('[data-say="notice"]');
    const buttons = answers.map(([words, act]) => {
      const button = makeElement('button', 'press plain', words);
      button.type = 'button';
      button.addEventListener('click', () => {
        notice?.replaceChildren();
        act();
      });
      return button;
    });
    notice?.replaceChildren(makeElement('p', '', question), makeElement('p', 'answers', ...buttons));
    buttons[0]?.focus();
  }

  #say(where: string, words: string): void {
    const place = this.#find(`[data-say="${where}"]`);
    if (place !== null && place.textContent !== words) place.textContent = words;
  }

  #text(): string {
    return this.#editor?.readText() ?? '';
  }

  #file(): string {
    return fileOfDraft(this.#text(), this.#name);
  }

  #nameField(): HTMLInputElement {
    return this.#find<HTMLInputElement>('[data-name]') ?? makeElement('input', '');
  }

  #on(selector: string, act: () => void): void {
    this.#find(selector)?.addEventListener('click', act);
  }

  #find<Found extends HTMLElement = HTMLElement>(selector: string): Found | null {
    return this.querySelector<Found>(selector);
  }
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
