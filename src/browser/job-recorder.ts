// Looks at once how this page was reached.
import './recorder/arrival.ts';
import { read, write } from './kit/storage.ts';
import type { Recorder } from './recorder/recorder.ts';

/**
 * `<job-recorder>`: lets the bench log grow by itself. The answers of a diagnosis travel in the fragment of the address; whatever is
 * new or changed there since this tab saw it last goes into the open job, with its time and instrument. An answer counts as taken back
 * only by Back, Start again or Undo: going back in the browser is reading, not undoing. An address that was not reached by a link or
 * press of this site in this tab (recorder/arrival.ts) writes nothing until its reader answers something. The working part is loaded when there is something to do.
 */
class JobRecorder extends HTMLElement {
  #recorder: Promise<Recorder> | undefined;

  connectedCallback(): void {
    for (const name of ['pageshow', 'walk-read']) window.addEventListener(name, this.#look);
    window.addEventListener('job-touched', () => this.#begin(({ tellAll }) => tellAll()));
    window.addEventListener('job-mains', () => this.#begin(({ tellMains }) => tellMains()));
    this.#look();
  }

  readonly #look = (): void => {
    if (this.#isNeeded()) this.#begin(() => undefined);
  };

  /** Once it is there it listens for itself. */
  #begin(first: (recorder: Recorder) => void): void {
    if (this.#recorder !== undefined) return;
    this.#recorder = import('./recorder/recorder.ts').then(({ Recorder: Working }) => new Working(this));
    void this.#recorder.then(first);
  }

  #isNeeded(): boolean {
    if (location.hash === '#step' || location.hash === '#sheet') return false;
    if (read('jobOpen') !== undefined) return true;
    const tree = this.dataset['tree'];
    const first = read('firstSeen', tree);
    if (first !== undefined) return first !== location.hash;
    return !write('firstSeen', location.hash, tree) && document.referrer.startsWith(`${location.origin}/`);
  }
}

customElements.define('job-recorder', JobRecorder);
