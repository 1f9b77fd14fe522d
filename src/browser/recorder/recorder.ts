import { addressOf } from '#core/link/address.ts';
import { parseLinkState, printLinkState } from '#core/link/fragment.ts';
import { namesOf } from '#core/link/tree-map.ts';
import { findCondition, type LogCondition, sayCondition } from '../log/event-log.ts';
import type { UnitFact } from '../job-memory.ts';
import { findOpenJob, isJobHere, isUnitInDoubt } from '../open-job.ts';
import { markJobHere, sayTreeUnit, noteArrival, noteWayOut } from './tell-unit.ts';
import { basePath, readTreeMap } from '../page-data.ts';
import { answerAsked, drainNotes, findAskedJob } from './drain-notes.ts';
import { makeLines } from './make-lines.ts';
import { noteCarried } from './notes.ts';
import { showOfJob } from './show-of-job.ts';

/** The working part of `<job-recorder>`, loaded once there is something to write or an open job to show. */
export class Recorder {
  readonly #root: HTMLElement;
  readonly #map = readTreeMap();
  #queue: Promise<void> = Promise.resolve();
  #writing = 0;

  constructor(root: HTMLElement, jobBefore: string | undefined) {
    this.#root = root;
    root.append(...makeLines(addressOf({ kind: 'log' }, basePath())));
    const tree = this.#map?.slug;
    if (tree !== undefined) {
      if (noteArrival(tree, jobBefore, location.hash.includes('='))) window.dispatchEvent(new Event('unit-said'));
      for (const press of ['click', 'auxclick'])
        document.addEventListener(press, ({ target }) => {
          const link = target instanceof Element ? target.closest('main a[href]') : null;
          // Those of a drawing are of another kind, and lead nowhere but into this tree.
          if (link instanceof HTMLAnchorElement) noteWayOut(tree, link);
        });
    }
    root.addEventListener('click', ({ target }) => {
      if (!(target instanceof Element)) return;
      if (target.closest('[data-job-save]') !== null)
        void import('../log/files.ts').then(({ saveFile }) => saveFile(findOpenJob()?.id));
      if (target.closest('[data-job-take]') !== null) void this.#take();
      if (target.closest('[data-job-again]') !== null) void this.update();
      const choice = target.closest<HTMLElement>('[data-job-choice]');
      if (choice !== null) void this.#answerAsked(choice.dataset['jobChoice'] === 'new');
    });
  }

  /** Writes what was noted, one after the other, and shows what the open job says. */
  update(): Promise<void> {
    this.#writing += 1;
    this.#show();
    this.#queue = this.#queue.then(() => this.#write());
    return this.#queue;
  }

  async #answerAsked(isNew: boolean): Promise<void> {
    try {
      await answerAsked(isNew, this.#map?.slug);
      // What is known of the unit, and what is not known any more, decides which cautions stand on the page.
      window.dispatchEvent(new Event('unit-said'));
    } finally {
      await this.update();
    }
  }

  get #isInDoubt(): boolean {
    return this.#map !== undefined && isUnitInDoubt(this.#map.slug);
  }

  /** The reader said where the mains is, or named a chip: that is a fact of the open job. */
  async tellUnit(fact: UnitFact): Promise<void> {
    const job = findOpenJob();
    if (job === undefined || this.#isInDoubt || !isJobHere(job.id)) return;
    const isKnown =
      fact.kind === 'chip'
        ? job.chips[fact.chip] === fact.part
        : (fact.mains ?? job.mains) === job.mains && (fact.plugged ?? job.plugged) === job.plugged;
    if (isKnown) return;
    try {
      const { record } = await import('../log/job-desk.ts');
      await record(job.id, [fact]);
    } catch {
      this.#show('failed');
    }
  }

  async #write(): Promise<void> {
    let condition: LogCondition | 'failed' = 'failed';
    const wasInDoubt = this.#isInDoubt;
    try {
      await drainNotes();
      if (this.#isInDoubt !== wasInDoubt) window.dispatchEvent(new Event('unit-said'));
      condition = await findCondition();
    } catch {
      // The notes stay for the next page, and for “Try again”.
    }
    this.#writing -= 1;
    this.#show(condition);
  }

  /** A new symptom in the same job: what was measured before and still holds goes into the address. */
  async #take(): Promise<void> {
    const job = findOpenJob();
    const map = this.#map;
    const said = this.#root.querySelector('[data-job-carried]');
    if (job === undefined || map === undefined || said === null) return;
    markJobHere(job);
    sayTreeUnit(job.id, map.slug, 'same');
    window.dispatchEvent(new Event('unit-said'));
    try {
      const { findCarried, sayCarried } = await import('../log/carry-view.ts');
      const answers = (await findCarried(job.id, map.slug))?.answers ?? [];
      said.textContent = sayCarried(answers);
      if (answers.length === 0) return;
      const { state } = parseLinkState(location.hash, namesOf(map));
      noteCarried(map, { ...state, answers });
      location.hash = printLinkState({ ...state, answers });
    } catch {
      said.textContent = 'They could not be read now.';
    }
  }

  #show(condition: LogCondition | 'failed' = 'kept'): void {
    const job = findOpenJob();
    const asked = findAskedJob() ?? (this.#isInDoubt ? job?.id : undefined);
    this.#root.hidden = job === undefined && condition === 'kept' && this.#writing === 0;
    const find = (name: string): HTMLElement | null => this.#root.querySelector(`[data-job-${name}]`);
    const link = this.#root.querySelector<HTMLAnchorElement>('[data-job-link]');
    if (link !== null && job !== undefined) {
      link.hash = `job=${job.id}`;
      link.textContent = job.name;
    }
    // Told as kept only once it is.
    find('said')?.replaceChildren(this.#writing > 0 ? 'Saving in your bench log:' : 'Saved in your bench log:');
    find('kept')?.toggleAttribute('hidden', job === undefined || condition !== 'kept' || asked !== undefined);
    find('ask')?.toggleAttribute('hidden', asked === undefined);
    find('asked')?.replaceChildren(job?.name ?? '');
    const isAnswered =
      this.#map === undefined || parseLinkState(location.hash, namesOf(this.#map)).state.answers.length > 0;
    find('carry')?.toggleAttribute('hidden', isAnswered || (job?.answers ?? 0) === 0);
    find('failed')?.toggleAttribute('hidden', condition !== 'failed');
    const lasting = condition === 'failed' ? '' : sayCondition(condition);
    find('lasting')?.toggleAttribute('hidden', lasting === '');
    find('condition')?.replaceChildren(lasting);
    if (job !== undefined && !this.#isInDoubt) showOfJob(job);
  }
}
