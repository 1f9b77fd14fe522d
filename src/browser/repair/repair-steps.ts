import { reworkFaults } from '#core/log/rework-faults.ts';
import type { EventDraft } from '#core/log/event.ts';
import { describeTouched } from '#core/log/describe-event.ts';
import { sayProposal } from '#core/log/proof.ts';
import { makeElement } from '../kit/elements.ts';
import { NodeWalk } from '../node-walk.ts';
import { findOpenJob } from '../open-job.ts';
import { drainNotes } from '../recorder/drain-notes.ts';
import { noteEvents } from '../recorder/notes.ts';
import { listenToRepair } from '../walk/after-repair.ts';
import { makeSteps } from './make-steps.ts';
import { readDisturbance } from './read-disturbance.ts';

/** What the parts of `<repair-result>` do once one of them was pressed. */
export class RepairSteps {
  readonly #root: HTMLElement;
  readonly #walk: NodeWalk | undefined;
  readonly #cause: string;
  #repair: string | undefined;
  #isBusy = false;

  constructor(root: HTMLElement) {
    this.#root = root;
    this.#cause = root.dataset['cause'] ?? '';
    const walk = root.closest('node-walk');
    this.#walk = walk instanceof NodeWalk ? walk : undefined;
    root.querySelector('form')?.after(...makeSteps(this.#tree));
    if (this.#walk !== undefined) listenToRepair(this.#walk, this.#walk);
    root.addEventListener('click', this.#goOn);
    this.#repair = this.#findUnproved();
    if (this.#repair !== undefined) this.#show('prove');
  }

  /** The way on in this tree is the check that the page suggests, once it does. */
  readonly #goOn = ({ target }: Event): void => {
    const link = target instanceof Element ? target.closest<HTMLAnchorElement>('a[data-tree]') : null;
    const next = this.#walk?.querySelector<HTMLAnchorElement>('[data-likely]:not([hidden]) a.step-on');
    if (link !== null && next !== null && next !== undefined) link.href = next.href;
  };

  /** A form was sent: the repair is done, or what was disturbed is named. */
  send(form: HTMLFormElement): void {
    void this.#try(() => (form.dataset['disturbed'] === undefined ? this.#done(form) : this.#disturbed(form)));
  }

  /** A button or a box was pressed. */
  press(pressed: HTMLElement): void {
    const { result, rework: fault } = pressed.dataset;
    if (result === 'works' || result === 'disturbed') this.#show(result);
    if (result === 'cured' || result === 'same' || result === 'worse') void this.#try(() => this.#answer(result));
    if (fault !== undefined && pressed instanceof HTMLInputElement) {
      void this.#try(() => this.#write([{ kind: 'rework', fault, isFound: pressed.checked }]));
    }
  }

  get #tree(): string {
    return this.#walk?.map.slug ?? '';
  }

  #findUnproved(): string | undefined {
    const unproved = findOpenJob()?.unproved ?? {};
    const key = `${this.#tree}/${this.#cause}`;
    return Object.hasOwn(unproved, key) ? unproved[key] : undefined;
  }

  async #try(act: () => Promise<void>): Promise<void> {
    if (this.#isBusy) return;
    this.#isBusy = true;
    try {
      await act();
    } catch {
      this.#say(
        'A part of the page could not be fetched or the log could not be read. Reload the page; the address keeps your answers.',
      );
    }
    this.#isBusy = false;
  }

  async #done(form: HTMLFormElement): Promise<void> {
    const fields = new FormData(form);
    const part = String(fields.get('part') ?? '').trim();
    const tested = String(fields.get('tested') ?? '');
    await this.#write([
      {
        kind: 'repair',
        tree: this.#tree,
        cause: this.#cause,
        title: (document.querySelector('.node.alone .heading')?.textContent ?? '').trim().slice(0, 300) || this.#cause,
        ...(part === '' ? {} : { part: part.slice(0, 300) }),
        tested: part === '' ? 'no-part' : tested === 'yes' ? 'yes' : 'no',
      },
    ]);
    this.#repair = this.#findUnproved();
    this.#show('prove');
  }

  async #answer(result: 'cured' | 'same' | 'worse'): Promise<void> {
    if (this.#repair !== undefined) await this.#write([{ kind: 'result', repair: this.#repair, result }]);
    this.#show(result);
  }

  /** It works, and nothing was changed: what was touched goes into the log, and the proof is proposed. */
  async #disturbed(form: HTMLFormElement): Promise<void> {
    const result = readDisturbance(form);
    if (typeof result === 'string') {
      this.#say(result);
      return;
    }
    this.#say('');
    if (this.#repair !== undefined) await this.#write([{ kind: 'result', repair: this.#repair, ...result }]);
    this.#show('by-disturbance');
    const touched = this.#root.querySelector('[data-touched]');
    if (touched !== null) touched.textContent = describeTouched(result);
    const open = findOpenJob();
    const proposed = this.#root.querySelector('[data-proposed]');
    if (open === undefined || proposed === null) return;
    const { readJob } = await import('../log/job-desk.ts');
    proposed.textContent = sayProposal(await readJob(open.id));
  }

  /** Whatever becomes of the writing, the next step is shown. */
  async #write(drafts: readonly EventDraft[]): Promise<void> {
    if (this.#walk === undefined) return;
    noteEvents(this.#walk.map, this.#walk.state, drafts);
    try {
      await drainNotes();
      window.dispatchEvent(new Event('job-touched'));
      const open = findOpenJob();
      if (open !== undefined) this.#leadToJob(open.id);
    } catch {
      this.#say('This could not be written into the log now; the next page tries again. Go on without it.');
    }
  }

  /** Links to the job; `data-job` may name the part of it that is to stand open. */
  #leadToJob(id: string): void {
    for (const link of this.#root.querySelectorAll<HTMLAnchorElement>('a[data-job]')) {
      const part = link.dataset['job'] ?? '';
      link.hash = `job=${id}${part === '' ? '' : `/${part}`}`;
    }
  }

  #show(step: string): void {
    for (const part of this.#root.querySelectorAll<HTMLElement>('[data-step]'))
      part.hidden = part.dataset['step'] !== step;
    if (step === 'worse') this.#listRework();
    if (step === 'cured' || step === 'by-disturbance') this.#endPlanning();
    const open = findOpenJob();
    if (open !== undefined) this.#leadToJob(open.id);
    for (const link of this.#root.querySelectorAll<HTMLAnchorElement>('a[data-tree]')) link.hash = location.hash;
    const shown = this.#root.querySelector<HTMLElement>(`[data-step="${step}"]`);
    shown?.setAttribute('tabindex', '-1');
    if (document.activeElement !== null && this.#root.contains(document.activeElement)) shown?.focus();
  }

  /** Cured: what is likely and what comes next is asked no more on this page. */
  #endPlanning(): void {
    this.#root.dataset['cured'] = '';
    this.#root.closest('node-walk')?.querySelector('[data-likely]')?.toggleAttribute('hidden', true);
  }

  #listRework(): void {
    this.#root.querySelector('.rework')?.replaceChildren(
      ...reworkFaults.map(({ id, title, look }) => {
        const box = makeElement('input', { type: 'checkbox', 'data-rework': id, autocomplete: 'off' });
        const label = makeElement('label', {}, box, makeElement('b', {}, title));
        return makeElement('li', {}, label, makeElement('span', {}, look));
      }),
    );
  }

  #say(text: string): void {
    const said = this.#root.querySelector('[data-said]');
    if (said !== null) said.textContent = text;
  }
}
