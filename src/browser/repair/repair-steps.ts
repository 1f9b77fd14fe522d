import { reworkFaults } from '#core/log/rework-faults.ts';
import { type Disturbance, disturbances, type EventDraft, type EventOf } from '#core/log/event.ts';
import { addressOf } from '#core/link/address.ts';
import { describeResult, describeTouched } from '#core/log/describe-event.ts';
import type { RepairDone } from '#core/log/job.ts';
import { sayProposal } from '#core/log/proof.ts';
import { makeButton, makeElement } from '../kit/elements.ts';
import { NodeWalk } from '../node-walk.ts';
import { findOpenJob, isUnitInDoubt } from '../open-job.ts';
import { basePath } from '../page-data.ts';
import { drainNotes } from '../recorder/drain-notes.ts';
import { noteEvents } from '../recorder/notes.ts';
import { listenToRepair } from '../walk/after-repair.ts';

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
    else void this.#showRecorded().catch(() => undefined);
  }

  /** What came of this repair stands here again when the reader comes back. */
  async #showRecorded(): Promise<void> {
    const done = (await this.#readRepairs()).findLast(
      ({ event }) => event.tree === this.#tree && event.cause === this.#cause,
    );
    if (done?.result === undefined) return;
    const { part } = done.event;
    this.#say(`Recorded: repair done${part === undefined ? '' : `, fitted: ${part}`}; ${describeResult(done.result)}.`);
    this.#show(done.result.result === 'cured-by-disturbance' ? 'by-disturbance' : done.result.result);
    if (done.result.result === 'cured-by-disturbance') await this.#showTouched(describeTouched(done.result));
    const again = makeButton('I did this repair again', 'press plain', () => {
      again.remove();
      delete this.#root.dataset['cured'];
      this.#say('');
      this.#show('done');
    });
    this.#root.append(again);
  }

  async #readRepairs(): Promise<readonly RepairDone[]> {
    const open = findOpenJob();
    if (open === undefined || isUnitInDoubt(this.#tree)) return [];
    const { readJob } = await import('../log/job-desk.ts');
    return (await readJob(open.id)).repairs;
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
    if (result === 'works') void this.#try(() => this.#works());
    if (result === 'disturbed') this.#show(result);
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

  /** Whether something was changed is asked only where no part was named. */
  async #works(): Promise<void> {
    const done = (await this.#readRepairs()).find(({ event }) => event.id === this.#repair);
    if (done?.event.part === undefined) this.#show('works');
    else await this.#answer('cured');
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
    await this.#showTouched(describeTouched(result));
  }

  async #showTouched(text: string): Promise<void> {
    const touched = this.#root.querySelector('[data-touched]');
    if (touched !== null) touched.textContent = text;
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
      this.#say('This could not be saved in the log now; the next page tries again. Go on without it.');
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

type Disturbed = Pick<EventOf<'result'>, 'result' | 'acts' | 'touched'>;

/** What the form says was disturbed; a text where it says nothing. */
function readDisturbance(form: HTMLFormElement): Disturbed | string {
  const fields = new FormData(form);
  const named = fields.getAll('acts');
  const acts: readonly Disturbance[] = disturbances.filter((act) => named.includes(act));
  const touched = String(fields.get('touched') ?? '')
    .trim()
    .slice(0, 300);
  if (acts.length === 0 && touched === '') return 'Say what was done to it, or what was touched.';
  return {
    result: 'cured-by-disturbance',
    ...(acts.length === 0 ? {} : { acts: [...acts] }),
    ...(touched === '' ? {} : { touched }),
  };
}

/** What can be done to a part without changing it: value in the log, and words. */
const disturbanceWords = [
  ['reseated', 'Reseated: plug, socket, card'],
  ['cleaned', 'Cleaned'],
  ['warmed', 'Warmed'],
  ['cooled', 'Cooled'],
  ['flexed', 'Flexed, tapped, moved'],
] as const;

/** The steps behind “I have done this repair”: the proof, and what follows from each of its results. All of them hidden. */
function makeSteps(tree: string): readonly HTMLElement[] {
  const log = addressOf({ kind: 'log' }, basePath());
  return [
    makeStep(
      'prove',
      makeElement(
        'p',
        {},
        'Saved. Now prove it as said above, with the same target as before, and look at the symptom itself. What is it now?',
      ),
      makeRow(
        makeResult('works', 'Repaired'),
        makeResult('same', 'The same'),
        makeResult('worse', 'Worse or different'),
      ),
    ),
    makeStep(
      'works',
      makeElement(
        'p',
        {},
        makeElement('strong', {}, 'Was a part changed, or was it only disturbed?'),
        ' A plug pulled and put back, a contact cleaned, a board warmed or flexed can hide a fault for days. Then the cause is not proved, and the log says so.',
      ),
      makeRow(
        makeResult('cured', 'A part was changed, or a joint soldered again'),
        makeResult('disturbed', 'Only disturbed'),
      ),
    ),
    makeDisturbedForm(),
    makeStep(
      'by-disturbance',
      makeElement(
        'p',
        {},
        makeElement('strong', {}, 'Works after a disturbance: the cause is not proved.'),
        ' Touched: ',
        makeElement('span', { 'data-touched': true }),
        '.',
      ),
      makeElement('p', { 'data-proposed': true }),
      makeElement(
        'p',
        {},
        'If it comes back, disturb one of these at a time, each with the unit switched off, unplugged and proved discharged, and look after each: that names the place. Nothing is pressed, tapped or moved on a live mains side. ',
        makeElement('span', { class: 'status' }, '(common bench practice)'),
      ),
      makeRow(
        makeElement('a', { class: 'press', 'data-job': 'proof', href: log }, 'Work out the proof before closing'),
      ),
    ),
    makeStep(
      'cured',
      makeElement(
        'p',
        {},
        makeElement('strong', {}, 'Not done yet.'),
        ' How long it must run depends on how the fault showed: always, every few hours, or in some starts out of many.',
      ),
      makeRow(
        makeElement('a', { class: 'press', 'data-job': 'proof', href: log }, 'Work out the proof and close the job'),
      ),
    ),
    makeStep(
      'same',
      makeElement(
        'p',
        {},
        'Then it was not this part, or not this part alone, or the new part is bad. The address now says that this repair did not help; your readings stay.',
      ),
      makeRow(
        makeElement(
          'a',
          { class: 'press', 'data-tree': true, href: addressOf({ kind: 'tree', tree }, basePath()) },
          'Go on in this tree',
        ),
      ),
    ),
    makeStep(
      'worse',
      makeElement(
        'p',
        {},
        makeElement('strong', {}, 'Switch off and unplug.'),
        ' Wait, and prove it discharged before any hand goes in. First suspect the work just done; tick what you find.',
      ),
      makeElement('ul', { class: 'rework' }),
      makeElement('p', { class: 'status' }, '(common bench practice)'),
      makeElement(
        'p',
        {},
        'None of these? Then it is a new symptom of the same job. Readings that this repair cannot have changed are in the job; the new tree can use them.',
      ),
      makeRow(
        makeElement('a', { class: 'press', href: addressOf({ kind: 'home' }, basePath()) }, 'Search the new symptom'),
        makeElement('a', { class: 'press plain', 'data-job': true, href: log }, 'Open the job'),
      ),
    ),
  ];
}

function makeStep(name: string, ...parts: readonly HTMLElement[]): HTMLElement {
  return makeElement('div', { 'data-step': name, hidden: true }, ...parts);
}

function makeDisturbedForm(): HTMLElement {
  return makeElement(
    'form',
    { 'data-step': 'disturbed', 'data-disturbed': true, hidden: true },
    makeElement(
      'fieldset',
      {},
      makeElement('legend', {}, 'What was done to it?'),
      ...disturbanceWords.map(([value, text]) =>
        makeElement(
          'label',
          {},
          makeElement('input', { type: 'checkbox', name: 'acts', value, autocomplete: 'off' }),
          ` ${text}`,
        ),
      ),
    ),
    makeElement(
      'label',
      {},
      'What was touched, all of it ',
      makeElement('input', {
        name: 'touched',
        dir: 'auto',
        maxlength: '300',
        autocomplete: 'off',
        placeholder: 'plug J4, IC3 in its socket',
      }),
    ),
    makeElement('button', { type: 'submit', class: 'press' }, 'Save'),
  );
}

function makeRow(...parts: readonly HTMLElement[]): HTMLElement {
  return makeElement('p', { class: 'row' }, ...parts);
}

function makeResult(result: 'works' | 'cured' | 'disturbed' | 'same' | 'worse', text: string): HTMLElement {
  return makeElement(
    'button',
    { type: 'button', class: 'press plain', 'data-result': result, [`data-${result}`]: true },
    text,
  );
}
