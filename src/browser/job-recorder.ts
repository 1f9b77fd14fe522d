import { canKeep, listNames, read } from './kit/storage.ts';
import { defineWithMap, readTreeMap } from './page-data.ts';
import { noteAddress, noteRegained } from './recorder/notes.ts';
import type { Recorder } from './recorder/recorder.ts';

/**
 * `<job-recorder>`: lets the bench log grow by itself. Each press that answers, takes back or repairs leaves a note where it happens
 * (recorder/notes.ts); here the notes become events of the open job, and the page shows that job. An address writes nothing by itself,
 * wherever it comes from, but for an answer that a press of this tab had taken back and the browser's Back puts in again. The working
 * part is loaded when there is something to do.
 */
class JobRecorder extends HTMLElement {
  /** The job that was open when the page came: only that one can be of another unit than the page's. */
  readonly #jobBefore = read('jobOpen');
  #recorder: Promise<Recorder> | undefined;

  connectedCallback(): void {
    window.addEventListener('pageshow', ({ persisted }) => this.#look(persisted));
    window.addEventListener('hashchange', () => this.#look(true));
    window.addEventListener('press-noted', () => this.#look());
    window.addEventListener('job-touched', () => this.#look());
    window.addEventListener('job-unit', (event) => {
      if (event instanceof CustomEvent) void this.#load().then((recorder) => recorder.tellUnit(event.detail));
    });
    // Where nothing outlives a page, what its reader answered on the page before is in the address alone.
    const map = canKeep('note') ? undefined : readTreeMap();
    if (map !== undefined && document.referrer.startsWith(`${location.origin}/`)) noteAddress(map);
    this.#look(isBackOrForward());
  }

  #look(mayRegain = false): void {
    const map = mayRegain ? readTreeMap() : undefined;
    if (map !== undefined) noteRegained(map);
    if (read('jobOpen') !== undefined || listNames('note').length > 0)
      void this.#load().then((recorder) => recorder.update());
  }

  #load(): Promise<Recorder> {
    this.#recorder ??= import('./recorder/recorder.ts').then(
      ({ Recorder: Working }) => new Working(this, this.#jobBefore),
    );
    return this.#recorder;
  }
}

function isBackOrForward(): boolean {
  const [entry] = performance.getEntriesByType('navigation');
  return entry instanceof PerformanceNavigationTiming && entry.type === 'back_forward';
}

defineWithMap('job-recorder', JobRecorder);
