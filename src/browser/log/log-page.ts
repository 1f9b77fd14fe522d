import { findLastStanding, findLastUndo, findUndosOf, type Job } from '#core/log/job.ts';
import { findDisturbance, proposeShowing } from '#core/log/proof.ts';
import type { EventDraft } from '#core/log/event.ts';
import { makeElement } from '../kit/elements.ts';
import { siteName } from '../page-data.ts';
import { drainNotes } from '../recorder/drain-notes.ts';
import { showCarried } from './carry-view.ts';
import { findCondition, type History, sayCondition, watchLog } from './event-log.ts';
import { importFile, saveFile } from './files.ts';
import { doAct } from './job-acts.ts';
import { beginJob, openJob, readJob, record } from './job-desk.ts';
import {
  clearForm,
  fillProofForm,
  readJobForm,
  readPartStatus,
  readUnitForm,
  textOf,
  updateProofForm,
} from './job-forms.ts';
import { fillBench, fillList, fillRoom, takeBench } from './list-view.ts';
import { fillPhotos, keepPhoto } from './photos.ts';
import { declareUnit, renderJob } from './render-job.ts';
import { renderSheet } from './render-sheet.ts';

/**
 * `<bench-log>`: the page of the log. Views are named by the fragment: none for the list, `#new`, `#bench`, `#job=<id>`, `#job=<id>/proof`. What is done
 * in a view becomes events of the job; the view is drawn from the events alone, so another tab's changes show as well.
 */
class BenchLog extends HTMLElement {
  #job: string | undefined;
  /** The job whose texts stand in the forms. */
  #shown: string | undefined;

  connectedCallback(): void {
    window.addEventListener('hashchange', this.#route);
    this.addEventListener('submit', this.#submit);
    this.addEventListener('click', this.#press);
    this.addEventListener('change', this.#change);
    this.addEventListener('input', this.#input);
    // A toggle does not bubble.
    this.addEventListener('toggle', this.#toggle, true);
    watchLog(() => void this.#attempt(() => this.#refresh()));
    void drainNotes()
      .catch(() => undefined)
      .then(this.#route);
  }

  disconnectedCallback(): void {
    window.removeEventListener('hashchange', this.#route);
  }

  readonly #route = (): void => {
    const hash = location.hash.slice(1);
    if (hash === 'sheet') return;
    const [, job, part] = /^job=([A-Za-z0-9~._-]{1,80})(?:\/([a-z]{1,20}))?$/.exec(hash) ?? [];
    this.#job = job;
    void this.#attempt(async () => {
      this.#say('');
      if (this.#job !== undefined) await this.#showJob(this.#job);
      else if (hash === 'new') this.#show('new');
      else if (hash === 'bench') {
        fillBench(this);
        this.#show('bench');
      } else await this.#showList();
      await this.#tellCondition();
      if (part !== undefined) this.#unfold(part);
      if (hash === 'files') this.querySelector('#files')?.scrollIntoView();
    });
  };

  #show(name: string): void {
    let isNew = false;
    for (const view of this.querySelectorAll<HTMLElement>('[data-view]')) {
      const isShown = view.dataset['view'] === name;
      isNew ||= isShown && view.hidden !== false;
      view.hidden = !isShown;
    }
    this.querySelector('[data-sheet]')?.toggleAttribute('hidden', name !== 'job');
    const heading = this.querySelector<HTMLElement>(`[data-view="${name}"] h1`);
    document.title = `${heading?.textContent ?? 'Bench log'} · ${siteName()}`;
    // Someone who came by a link or a button of this page hears the new heading next.
    if (isNew && document.activeElement !== document.body) heading?.focus();
  }

  /** A part of the job that the address names stands open and in view. */
  #unfold(name: string): void {
    const part = this.querySelector<HTMLDetailsElement>(`[data-view="job"]:not([hidden]) details[data-part="${name}"]`);
    if (part === null) return;
    part.open = true;
    part.querySelector('summary')?.focus({ preventScroll: true });
    part.scrollIntoView();
  }

  async #showList(known?: History): Promise<void> {
    const said = await fillList(this, known);
    this.#show('list');
    if (said !== undefined) this.#say(said);
  }

  async #showJob(id: string): Promise<void> {
    const job = await readJob(id);
    if (job.timeline.length === 0) {
      await this.#showList();
      this.#say('No such job is in this browser. Another browser may hold it, or it was removed.');
      return;
    }
    if (job.state.kind !== 'closed') openJob(job);
    if (this.#shown !== id) {
      // What was typed for one job and not kept must not end up in another.
      for (const form of this.querySelectorAll<HTMLFormElement>('[data-view="job"] form')) clearForm(form);
      this.querySelector('[data-carried]')?.replaceChildren();
      this.#shown = id;
    }
    this.#draw(job);
    this.#show('job');
    const proof = this.querySelector<HTMLFormElement>('[data-form="proof"]');
    if (proof !== null) fillProofForm(proof, proposeShowing(job) ?? { how: 'always' });
    const ending = findDisturbance(job) === undefined ? 'cured' : 'cured-by-disturbance';
    const choice = this.querySelector<HTMLInputElement>(`[data-form="close"] input[value="${ending}"]`);
    if (choice !== null) choice.checked = true;
  }

  async #refresh(): Promise<void> {
    if (this.#job !== undefined) this.#draw(await readJob(this.#job));
    else if (this.querySelector('[data-view="list"]:not([hidden])') !== null) await this.#showList();
  }

  #draw(job: Job): void {
    const view = this.querySelector<HTMLElement>('[data-view="job"]');
    const sheet = this.querySelector<HTMLElement>('[data-sheet]');
    if (view === null || sheet === null) return;
    const declared = declareUnit(job);
    renderJob(view, declared);
    renderSheet(sheet, declared);
    if (view.querySelector('details[data-part="board"][open]') !== null) void this.#attempt(() => this.#openBoard());
    this.#enable('undo', findLastStanding(job) !== undefined);
    this.#enable('redo', findLastUndo(job) !== undefined);
    const photos = view.querySelector<HTMLElement>('[data-photos]');
    if (photos !== null) void fillPhotos(photos, job);
  }

  #enable(act: string, isPossible: boolean): void {
    const button = this.querySelector<HTMLButtonElement>(`[data-act="${act}"]`);
    if (button !== null) button.disabled = !isPossible;
  }

  readonly #submit = (event: SubmitEvent): void => {
    const form = event.target;
    if (!(form instanceof HTMLFormElement)) return;
    event.preventDefault();
    void this.#attempt(() => this.#send(form, event.submitter));
  };

  async #send(form: HTMLFormElement, pressed: HTMLElement | null): Promise<void> {
    const carried = this.querySelector<HTMLElement>('[data-carried]');
    const name = form.dataset['form'] ?? '';
    if (name === 'new') {
      const job = await beginJob(readUnitForm(form));
      clearForm(form);
      location.hash = `job=${job.id}`;
    } else if (name === 'bench') this.#say(takeBench(form));
    else if (name === 'carry' && this.#job !== undefined && carried !== null) {
      await showCarried(carried, this.#job, textOf(new FormData(form), 'tree'));
    } else if (name === 'unit') await this.#keepUnit(form);
    else {
      const drafts = readJobForm(form, pressed);
      if (typeof drafts === 'string') this.#say(drafts);
      else if (await this.#write(drafts)) {
        if (!['proof', 'close'].includes(name)) form.reset();
      }
    }
  }

  async #keepUnit(form: HTMLFormElement): Promise<void> {
    const isWritten = await this.#write(readUnitForm(form));
    const said = form.querySelector('[data-kept]');
    if (said !== null && isWritten) said.textContent = 'Saved.';
  }

  async #write(drafts: readonly EventDraft[]): Promise<boolean> {
    if (this.#job === undefined || drafts.length === 0) return false;
    this.#draw(await record(this.#job, drafts));
    this.#say('Saved.');
    // Not waited for: the form is emptied at once, so that nothing typed after the press goes with it.
    void this.#attempt(() => this.#tellCondition());
    return true;
  }

  readonly #press = (event: Event): void => {
    const button = event.target instanceof Element ? event.target.closest<HTMLElement>('[data-act]') : null;
    const act = button?.dataset['act'];
    if (act !== undefined) void this.#attempt(() => this.#act(act));
    const line = event.target instanceof Element ? event.target.closest<HTMLElement>('[data-restore]') : null;
    const id = line?.dataset['restore'];
    if (id !== undefined) void this.#attempt(() => this.#restore(id));
  };

  async #restore(id: string): Promise<void> {
    if (this.#job === undefined) return;
    const undos = findUndosOf(await readJob(this.#job), id);
    await this.#write(undos.map(({ id: of }) => ({ kind: 'undo', of })));
  }

  async #act(act: string): Promise<void> {
    if (act === 'save-all') await saveFile();
    else if (act === 'persist') {
      const isKept = await navigator.storage.persist();
      await fillRoom(this);
      this.#say(
        isKept ? 'The browser will not clear it by itself.' : 'The browser did not agree: save the jobs as a file.',
      );
    } else if (this.#job !== undefined) {
      const { drafts = [], said } = await doAct(this, act, declareUnit(await readJob(this.#job)));
      await this.#write(drafts);
      if (act === 'remove') {
        this.#job = undefined;
        await this.#showList();
      }
      if (said !== undefined) this.#say(said);
    }
  }

  readonly #change = (event: Event): void => {
    const field = event.target;
    if (field instanceof HTMLSelectElement) {
      const part = field.dataset['partStatus'];
      const status = readPartStatus(field.value);
      if (part !== undefined && status !== undefined) {
        void this.#attempt(async () => void (await this.#write([{ kind: 'part', part, status }])));
      }
    }
    const form =
      field instanceof Element ? field.closest<HTMLFormElement>('[data-view="job"] [data-form="unit"]') : null;
    // Kept as it is left: nobody scrolls down to the button with an iron in the hand.
    if (form !== null) void this.#attempt(() => this.#keepUnit(form));
    else if (field instanceof HTMLInputElement && field.type === 'file') {
      void this.#attempt(() => this.#take(field));
    }
  };

  async #take(field: HTMLInputElement): Promise<void> {
    const files = [...(field.files ?? [])];
    const [first] = files;
    if (field.name === 'import' && first !== undefined) {
      this.#say('Importing …');
      const { said, history } = await importFile(first);
      await this.#showList(history);
      this.#say(said);
    } else if (this.#job !== undefined && field.form !== null) {
      const caption = textOf(new FormData(field.form), 'caption');
      for (const file of files) this.#say((await keepPhoto(this.#job, file, caption)).message);
      field.form.reset();
      await this.#refresh();
    }
    field.value = '';
  }

  readonly #input = (event: Event): void => {
    const form = event.target instanceof Element ? event.target.closest<HTMLFormElement>('[data-form="proof"]') : null;
    if (form !== null) updateProofForm(form);
  };

  readonly #toggle = ({ target }: Event): void => {
    if (target instanceof HTMLDetailsElement && target.open && target.dataset['part'] === 'board')
      void this.#attempt(() => this.#openBoard());
  };

  /** The drawing of the board is made again for each job, and while nothing in it waits to be saved. */
  async #openBoard(): Promise<void> {
    const place = this.querySelector<HTMLElement>('[data-board]');
    const id = this.#job;
    if (place === null || id === undefined) return;
    const [{ openBoardEditor }, { placement }] = await Promise.all([import('./board-editor.ts'), readJob(id)]);
    const points = [...this.querySelectorAll<HTMLOptionElement>('[data-form="point"] option')];
    openBoardEditor(place, {
      job: id,
      placement,
      points: points.map(({ value, text }) => ({ slug: value, title: text.trim() })),
      save: async (drawn) => this.#write([{ kind: 'placement', ...(drawn === undefined ? {} : { placement: drawn }) }]),
    });
  }

  async #tellCondition(): Promise<void> {
    const condition = await findCondition();
    if (condition !== 'kept') this.#say(`${sayCondition(condition)} Save the job as a file.`);
  }

  #say(text: string): void {
    this.querySelector('[data-notices]')?.replaceChildren(...(text === '' ? [] : [makeElement('p', {}, text)]));
  }

  async #attempt(act: () => Promise<void>): Promise<void> {
    try {
      await act();
    } catch {
      this.#say('That did not work. Nothing that was written before is lost.');
    }
  }
}

customElements.define('bench-log', BenchLog);
