import { parseLinkState, printLinkState } from '#core/share/link-state.ts';
import { namesOf } from '#core/share/tree-map.ts';
import type { EventDraft } from '#core/bench-log/event.ts';
import { findOpenJob } from './open-job.ts';
import { readTreeMap } from './page-data.ts';

/**
 * `<repair-result>`, on the sheet of a cause: the repair done, what was fitted, whether that was tested, and what came of it. Cured leads
 * to the proof; the same goes into the address as `did=`, from which the page plans on; worse or different brings up what rework does.
 */
class RepairResult extends HTMLElement {
  readonly #map = readTreeMap();
  readonly #cause = this.dataset['cause'] ?? '';
  #repair: string | undefined;
  #isBusy = false;

  connectedCallback(): void {
    if (this.#map === undefined) return;
    this.hidden = false;
    this.querySelector('form')?.addEventListener('submit', (event) => {
      event.preventDefault();
      void this.#try(() => this.#done());
    });
    this.addEventListener('click', (event) => {
      const pressed = event.target instanceof Element ? event.target.closest<HTMLElement>('[data-result]') : null;
      const result = pressed?.dataset['result'];
      if (result === 'cured' || result === 'same' || result === 'worse') void this.#try(() => this.#answer(result));
    });
    this.addEventListener('change', (event) => {
      const box = event.target instanceof HTMLInputElement ? event.target : undefined;
      const fault = box?.dataset['rework'];
      if (fault !== undefined && box !== undefined) {
        void this.#try(() => this.#write([{ kind: 'rework', fault, isFound: box.checked }]));
      }
    });
    const open = findOpenJob();
    const key = `${this.#map.slug}/${this.#cause}`;
    this.#repair = open !== undefined && Object.hasOwn(open.unproved, key) ? open.unproved[key] : undefined;
    if (this.#repair !== undefined) this.#show('prove');
  }

  async #try(act: () => Promise<void>): Promise<void> {
    if (this.#isBusy) return;
    this.#isBusy = true;
    try {
      await act();
    } catch {
      this.#say('This could not be written into the log; the page works on without it.');
    }
    this.#isBusy = false;
  }

  async #done(): Promise<void> {
    const form = this.querySelector('form');
    if (form === null || this.#map === undefined) return;
    const fields = new FormData(form);
    const part = String(fields.get('part') ?? '').trim();
    const tested = String(fields.get('tested') ?? '');
    await this.#write([
      {
        kind: 'repair',
        tree: this.#map.slug,
        cause: this.#cause,
        title: (document.querySelector('.node.alone .heading')?.textContent ?? '').trim().slice(0, 300) || this.#cause,
        ...(part === '' ? {} : { part: part.slice(0, 300) }),
        tested: part === '' ? 'no-part' : tested === 'yes' ? 'yes' : 'no',
      },
    ]);
    this.#repair = findOpenJob()?.unproved[`${this.#map.slug}/${this.#cause}`];
    this.#show('prove');
  }

  async #answer(result: 'cured' | 'same' | 'worse'): Promise<void> {
    if (this.#repair !== undefined) await this.#write([{ kind: 'result', repair: this.#repair, result }]);
    if (result !== 'cured') this.#markDone(result);
    this.#show(result);
  }

  #markDone(result: 'same' | 'worse'): void {
    if (this.#map === undefined) return;
    const { state } = parseLinkState(location.hash, namesOf(this.#map));
    const did = [...state.did.filter((cause) => cause !== this.#cause), this.#cause];
    const next = { ...state, did, ...(result === 'worse' ? { worsened: this.#cause } : {}) };
    location.hash = printLinkState(next);
  }

  async #write(drafts: readonly EventDraft[]): Promise<void> {
    const { openOrBegin, record } = await import('./log/job-desk.ts');
    const id = await openOrBegin();
    await record(id, drafts);
    window.dispatchEvent(new Event('job-touched'));
    for (const link of this.querySelectorAll<HTMLAnchorElement>('a[data-job]')) link.hash = `job=${id}`;
  }

  #show(step: string): void {
    for (const part of this.querySelectorAll<HTMLElement>('[data-step]')) part.hidden = part.dataset['step'] !== step;
    const open = findOpenJob();
    if (open !== undefined) {
      for (const link of this.querySelectorAll<HTMLAnchorElement>('a[data-job]')) link.hash = `job=${open.id}`;
    }
    for (const link of this.querySelectorAll<HTMLAnchorElement>('a[data-tree]')) link.hash = location.hash;
    const shown = this.querySelector<HTMLElement>(`[data-step="${step}"]`);
    shown?.setAttribute('tabindex', '-1');
    if (document.activeElement !== null && this.contains(document.activeElement)) shown?.focus();
  }

  #say(text: string): void {
    const said = this.querySelector('[data-said-repair]');
    if (said !== null) said.textContent = text;
  }
}

customElements.define('repair-result', RepairResult);
