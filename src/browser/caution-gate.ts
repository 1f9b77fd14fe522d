import type { MainsExposure } from '#core/model/library.ts';
import { cautionsRead, mainsExposure, rememberCautionRead, rememberMainsExposure } from './job-memory.ts';
import { findOpenJob } from './open-job.ts';

const exposures: readonly (readonly [MainsExposure, string])[] = [
  ['outside', 'No: a separate supply feeds it, no mains in this case'],
  ['inside-covered', 'Yes, and every mains part is covered'],
  ['inside-bare', 'Yes, and mains tags are bare'],
  ['unknown', 'I do not know'],
];

/** At a step with power on and the case open: what is said first, and what the button to go on says. */
const besideBare: Readonly<Partial<Record<MainsExposure, readonly [note: string, goOn: string]>>> = {
  'inside-bare': ['Mains parts are bare: this step is not for this unit.', 'Every mains part is covered now: go on'],
  unknown: [
    'You do not know where the mains is. It counts as bare, and this step is not for this unit.',
    'I have looked, every mains part is covered: go on',
  ],
};

/**
 * Shows each stop caution as the whole first screen until it was read in this job, then as one line; at the first step with power on
 * and the case open it is asked for again. A danger stays open above the step until it was read.
 * A reader who has chosen no unit is asked once where the mains is; `outside` takes the mains caution off powered checks.
 */
export class CautionGate {
  readonly #root: HTMLElement;
  readonly #onChange: () => void;
  #unit: MainsExposure | undefined;

  constructor(root: HTMLElement, onChange: () => void) {
    this.#root = root;
    this.#onChange = onChange;
    root.addEventListener('click', (event) => this.#onClick(event));
    root.addEventListener('change', ({ target }) => {
      const box = target instanceof Element ? target.closest<HTMLElement>('.caution') : null;
      if (box !== null) sayBeside(box, this.#exposure(chosenIn(box)));
    });
  }

  /** Draws the gate for the exposure a unit states, or the one the reader gave. */
  update(unitExposure: MainsExposure | undefined): void {
    this.#unit = unitExposure;
    const exposure = this.#exposure();
    const read = cautionsRead();
    let isGated = false;
    for (const box of this.#root.querySelectorAll<HTMLElement>('.caution')) {
      const slug = box.dataset['caution'] ?? '';
      const isOutside = slug === 'mains' && exposure === 'outside' && box.hasAttribute('data-from-power');
      box.hidden = isOutside;
      const isRead = marksOf(box, exposure).some((mark) => read.has(mark));
      const isOpen = (box.classList.contains('danger') || box.classList.contains('warning')) && !isRead && !isOutside;
      const isGate: boolean = isOpen && !isGated && box.classList.contains('danger');
      box.classList.toggle('read', !isOpen);
      box.classList.toggle('gate-now', isGate);
      box.querySelector('.gate')?.removeAttribute('hidden');
      const details = box.querySelector('details');
      if (details !== null) details.open = isOpen;
      if (isGate && slug === 'mains' && unitExposure === undefined) this.#askExposure(box);
      // The unit came after the question: it has answered.
      box.querySelector('fieldset')?.toggleAttribute('hidden', unitExposure !== undefined);
      sayBeside(box, this.#exposure(chosenIn(box)));
      isGated ||= isGate;
    }
    this.#root.toggleAttribute('data-gated', isGated);
    this.#setStrap(exposure);
  }

  /**
   * The unit's word goes before the reader's, but not before a reader's that mains parts are bare; where neither knows, the open job
   * may know that they are.
   */
  #exposure(said: MainsExposure = mainsExposure()): MainsExposure {
    if (said === 'inside-bare') return said;
    const exposure = this.#unit ?? said;
    return exposure === 'unknown' && findOpenJob()?.mains === 'inside-bare' ? 'inside-bare' : exposure;
  }

  #askExposure(box: HTMLElement): void {
    if (box.querySelector('fieldset') !== null) return;
    const field = document.createElement('fieldset');
    const legend = document.createElement('legend');
    legend.textContent = 'Is the mains supply in the same case?';
    field.append(legend);
    for (const [value, text] of exposures) {
      const label = document.createElement('label');
      const input = document.createElement('input');
      input.type = 'radio';
      input.name = 'exposure';
      input.value = value;
      input.checked = value === mainsExposure();
      label.append(input, ` ${text}`);
      field.append(label);
    }
    box.querySelector('.gate')?.before(field);
  }

  #onClick(event: MouseEvent): void {
    const link = event.target instanceof Element ? event.target.closest<HTMLElement>('[data-acknowledge]') : null;
    const box = link?.closest<HTMLElement>('.caution');
    if (!box) return;
    event.preventDefault();
    const exposure = chosenIn(box);
    if (exposure !== undefined) rememberMainsExposure(exposure);
    rememberCautionRead(marksOf(box, this.#exposure())[0] ?? '');
    this.#onChange();
    const next =
      this.#root.querySelector<HTMLElement>('.gate-now summary') ??
      this.#root.querySelector<HTMLElement>('.caution:not(.read, [hidden]) summary') ??
      this.#root.querySelector<HTMLElement>('.heading');
    if (next?.matches('.heading') === true) next.setAttribute('tabindex', '-1');
    next?.focus();
    next?.scrollIntoView({ block: 'nearest' });
  }

  #setStrap(exposure: MainsExposure): void {
    for (const strap of this.#root.querySelectorAll<HTMLElement>('[data-strap]')) {
      strap.textContent =
        exposure === 'outside' || exposure === 'inside-covered'
          ? 'Strap on.'
          : 'Mains parts bare, or you do not know: strap off. Touch bare metal of the case before you touch a chip.';
    }
  }
}

/**
 * What counts as having read a caution here; the first is what reading it here is remembered as. The bare slug counts everywhere;
 * `slug:covered` was read with power on and the case open while mains parts were covered; `slug:shut` at any gentler step.
 */
function marksOf(box: HTMLElement, exposure: MainsExposure): readonly string[] {
  const slug = box.dataset['caution'] ?? '';
  if (!box.classList.contains('danger')) return [slug];
  if (box.dataset['openLive'] === undefined) return [`${slug}:shut`, `${slug}:covered`, slug];
  return slug === 'mains' && besideBare[exposure] === undefined ? [`${slug}:covered`, slug] : [slug];
}

/** What the reader has marked in this box and not yet pressed. */
function chosenIn(box: HTMLElement): MainsExposure | undefined {
  const chosen = box.querySelector<HTMLInputElement>('input[name="exposure"]:checked')?.value;
  return exposures.map(([value]) => value).find((value) => value === chosen);
}

/** Where the step is one with power on and the case open: says whether it is for this unit, and puts handing over first where it is not. */
function sayBeside(box: HTMLElement, exposure: MainsExposure): void {
  const note = box.querySelector<HTMLElement>('[data-bare]');
  const head = box.querySelector('[data-bare] strong');
  const go = box.querySelector<HTMLElement>('[data-acknowledge]');
  const refuse = box.querySelector<HTMLElement>('[data-refuse]');
  if (note === null || head === null || go === null || refuse === null) return;
  const words = besideBare[exposure];
  const isBare = words !== undefined;
  note.hidden = !isBare;
  head.textContent = words?.[0] ?? '';
  go.textContent = words?.[1] ?? 'I have read this; it is safe for me to go on';
  go.classList.toggle('plain', isBare);
  refuse.classList.toggle('plain', !isBare);
  const first = isBare ? refuse : go;
  // What has the focus keeps it where nothing moves.
  if (first.previousElementSibling !== null) first.parentElement?.prepend(first);
}
