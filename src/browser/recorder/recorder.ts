import { type Answer, printAnswerValue } from '#core/answer/answer.ts';
import { parseLinkState, printLinkState } from '#core/link/fragment.ts';
import { namesOf, type TreeMap } from '#core/link/tree-map.ts';
import { forgetNoted, noteWalk } from '../log/noted-walks.ts';
import type { Walked } from '../log/record-walk.ts';
import { read, write } from '../kit/storage.ts';
import { findOpenJob, isJobHere, markJobHere } from '../open-job.ts';
import { mainsExposure } from '../job-memory.ts';
import { basePath, readTreeMap } from '../page-data.ts';
import { arrivedFragment, markWalkedHere } from './arrival.ts';

/** What this tab saw last in each tree, and the job it told. */
type Walks = Readonly<Record<string, Seen>>;

type Condition = 'kept' | 'full' | 'refused' | 'failed';

interface Seen {
  readonly answers: readonly Answer[];
  readonly told: string;
}

/** After so long a pause the open job may be another unit: ask before anything is written into it. */
const freshMilliseconds = 12 * 3_600_000;

/** The working part of `<job-recorder>`, loaded once there is something to write or an open job to show. */
export class Recorder {
  readonly #root: HTMLElement;
  readonly #map: TreeMap | undefined = readTreeMap();
  /** Waits to be written: for the reader's word on which unit it is, or after a failure. */
  #pending: Walked | undefined;
  /** The note of a walk that could not be written, and waits as pending again. */
  #failed: string | undefined;
  /** What this page saw last, written or not. */
  #last: Seen | undefined;
  #queue: Promise<void> = Promise.resolve();
  #writing = 0;
  /** Readings of the job that were taken along into this tree. */
  #carried: readonly Answer[] = [];

  constructor(root: HTMLElement) {
    this.#root = root;
    if (this.#map === undefined) return;
    // `<node-walk>` tells every reading of the fragment by this name, whether a link, a press or the browser's Back changed it.
    window.addEventListener('walk-read', this.#read);
    window.addEventListener('pageshow', this.#read);
    window.addEventListener('job-touched', this.tellAll);
    window.addEventListener('job-mains', this.tellMains);
    // Before the press is answered: what it takes out of the address is then known to be taken back.
    document.addEventListener('click', this.#press, true);
    this.#read();
    this.#showJob();
    void import('../log/record-noted.ts').then(({ recordLeftOver }) => recordLeftOver()).catch(() => undefined);
  }

  readonly #press = (event: Event): void => {
    const pressed =
      event.target instanceof Element
        ? event.target.closest('[data-back], [data-restart], [data-walked] button')
        : null;
    if (pressed !== null) write('takeBack', '1');
    if (event.target instanceof Element && event.target.closest('[data-job-save]') !== null) {
      void import('../log/files.ts').then(({ saveFile }) => saveFile(findOpenJob()?.id));
    }
    if (event.target instanceof Element && event.target.closest('[data-job-take]') !== null) void this.#take();
    const button = event.target instanceof Element ? event.target.closest<HTMLElement>('[data-job-choice]') : null;
    if (button !== null) void this.#tell(button.dataset['jobChoice'] === 'new');
  };

  readonly #read = (): void => {
    const map = this.#map;
    if (map === undefined || location.hash === '#step' || location.hash === '#sheet') return;
    const { state } = parseLinkState(location.hash, namesOf(map));
    const answers = state.answers.filter(({ tree }) => tree === undefined);
    const before = this.#findBefore(map);
    const told = before?.told ?? '';
    const open = findOpenJob();
    const isEmpty = state.answers.length === 0 && told === '' && (open?.answers ?? 0) > 0;
    this.#root.querySelector('[data-job-carry]')?.toggleAttribute('hidden', !isEmpty);
    this.#last = { answers, told };
    const isTakenBack = read('takeBack') !== undefined;
    // A press takes back what it takes out itself, nothing that is missing in an address opened later.
    write('takeBack', undefined);
    const added = answers.filter((answer) => !before?.answers.some((given) => isSame(given, answer)));
    const removed = isTakenBack
      ? (before?.answers ?? []).filter((given) => !answers.some((answer) => keyOf(answer) === keyOf(given)))
      : [];
    if (before === undefined || (added.length === 0 && (removed.length === 0 || told === ''))) {
      // What is being written is remembered once it is written: leaving the page meanwhile must not lose it.
      if (this.#writing === 0 && this.#pending === undefined) {
        keepWalk(map.slug, answers, told);
        if (told !== '') markWalkedHere();
      }
      return;
    }
    const waiting = this.#pending?.added.filter((given) => answers.some((answer) => isSame(given, answer))) ?? [];
    this.#pending = {
      map,
      state,
      added: [...waiting, ...added],
      removed: [...(this.#pending?.removed ?? []), ...removed],
      isFirst: open === undefined || told !== open.id,
      carried: this.#carried,
    };
    if (open !== undefined && !isJobHere(open.id) && Date.now() - open.changedAt > freshMilliseconds)
      this.#ask(open.name);
    else void this.#tell(false);
  };

  /**
   * What this tab knew before: on this page, on one before it, or when it came into the tree; undefined where it knew nothing. What an
   * address from outside brought along counts as known and not told, wherever the tab had been before.
   */
  #findBefore(map: TreeMap): Seen | undefined {
    if (this.#last !== undefined) return this.#last;
    if (arrivedFragment !== undefined) return seeFragment(arrivedFragment, map);
    const walks = readWalks();
    if (Object.hasOwn(walks, map.slug)) return walks[map.slug];
    const first = read('firstSeen', map.slug);
    if (first !== undefined) return seeFragment(first, map);
    // A tab that can remember nothing: whoever comes from another sheet of this site has walked.
    const hasWalked = !canRemember() && document.referrer.startsWith(`${location.origin}/`);
    return hasWalked ? { answers: [], told: '' } : undefined;
  }

  /** A new symptom in the same job: what was measured before and still holds goes into the address. */
  async #take(): Promise<void> {
    const job = findOpenJob();
    const map = this.#map;
    const said = this.#root.querySelector('[data-job-carried]');
    if (job === undefined || map === undefined || said === null) return;
    markJobHere(job);
    try {
      const { findCarried, sayCarried } = await import('../log/carry-view.ts');
      const answers = (await findCarried(job.id, map.slug))?.answers ?? [];
      this.#carried = answers;
      said.textContent = sayCarried(answers);
      const { state } = parseLinkState(location.hash, namesOf(map));
      if (answers.length > 0) location.hash = printLinkState({ ...state, answers });
    } catch {
      said.textContent = 'They could not be read now.';
    }
  }

  /** Another part of the page wrote into the job: what led here belongs there too. */
  readonly tellAll = (): void => {
    if (this.#map === undefined) return;
    const { state } = parseLinkState(location.hash, namesOf(this.#map));
    this.#pending ??= { map: this.#map, state, added: [], removed: [], isFirst: true };
    void this.#tell(false);
  };

  /** The reader said where the mains is: that is a fact of the open job. */
  readonly tellMains = (): void => {
    const job = findOpenJob();
    const mains = mainsExposure();
    if (job === undefined || !isJobHere(job.id) || job.mains === mains) return;
    const { id } = job;
    void import('../log/job-desk.ts')
      .then(({ record }) => record(id, [{ kind: 'intake', mains }]))
      .catch(() => this.#showJob('failed'));
  };

  /** One after the other: two at once would write the same answer twice. */
  #tell(isNew: boolean): Promise<void> {
    const walked = this.#pending;
    if (walked === undefined) return this.#queue;
    this.#pending = undefined;
    this.#root.querySelector('[data-job-ask]')?.setAttribute('hidden', '');
    this.#writing += 1;
    // What failed before is noted anew.
    if (this.#failed !== undefined) forgetNoted(this.#failed);
    this.#failed = undefined;
    const key = noteWalk({ walked, isNew, at: Date.now() });
    this.#showJob();
    this.#queue = this.#queue.then(() => this.#write(walked, key));
    return this.#queue;
  }

  async #write(walked: Walked, key: string): Promise<void> {
    let condition: Condition = 'failed';
    try {
      const { recordNoted } = await import('../log/record-noted.ts');
      const id = await recordNoted(key);
      const job = findOpenJob();
      if (job !== undefined) markJobHere(job);
      const answers = walked.state.answers.filter(({ tree }) => tree === undefined);
      this.#last = { answers: this.#last?.answers ?? answers, told: id };
      keepWalk(walked.map.slug, answers, id);
      markWalkedHere();
      const { findCondition } = await import('../log/event-log.ts');
      condition = await findCondition();
    } catch {
      // Where the reader has answered more meanwhile, the note alone holds this one, for the next page.
      if (this.#pending === undefined) {
        this.#pending = walked;
        this.#failed = key;
      }
    }
    this.#writing -= 1;
    this.#showJob(condition);
  }

  #ask(name: string): void {
    this.#root.hidden = false;
    this.#root.querySelector('[data-job-ask]')?.removeAttribute('hidden');
    const shown = this.#root.querySelector('[data-job-asked]');
    if (shown !== null) shown.textContent = name;
  }

  #showJob(condition: Condition = 'kept'): void {
    const job = findOpenJob();
    this.#root.hidden = job === undefined && condition === 'kept' && this.#pending === undefined;
    const link = this.#root.querySelector<HTMLAnchorElement>('[data-job-link]');
    if (link !== null && job !== undefined) {
      link.hash = `job=${job.id}`;
      link.textContent = job.name;
    }
    const said = this.#root.querySelector('[data-job-said]');
    // Told as kept only once it is.
    if (said !== null)
      said.textContent = this.#writing > 0 ? 'Being written into your bench log:' : 'Kept in your bench log:';
    this.#root.querySelector('[data-job-kept]')?.toggleAttribute('hidden', job === undefined || condition !== 'kept');
    for (const box of this.#root.querySelectorAll<HTMLElement>('[data-job-trouble]')) {
      box.hidden = box.dataset['jobTrouble'] !== condition;
    }
    if (job !== undefined) void import('./show-of-job.ts').then(({ showOfJob }) => showOfJob(job, basePath()));
  }
}

function seeFragment(fragment: string, map: TreeMap): Seen {
  const { state } = parseLinkState(fragment, namesOf(map));
  return { answers: state.answers.filter(({ tree }) => tree === undefined), told: '' };
}

function keepWalk(tree: string, answers: readonly Answer[], told: string): void {
  write('walks', JSON.stringify({ ...readWalks(), [tree]: { answers, told } }));
}

/** Whether anything outlives the page in this tab. */
function canRemember(): boolean {
  return write('takeBack', read('takeBack'));
}

/** Written by this tab alone: a parsed boundary. What is no longer readable counts as nothing seen. */
function readWalks(): Walks {
  try {
    return (JSON.parse(read('walks') ?? '{}') ?? {}) as Walks;
  } catch {
    return {};
  }
}

function isSame(one: Answer, other: Answer): boolean {
  return keyOf(one) === keyOf(other) && printAnswerValue(one) === printAnswerValue(other);
}

function keyOf({ node, stage }: Answer): string {
  return stage === undefined ? node : `${node}/${stage}`;
}
