import { isTransformer } from '#core/model/supply.ts';
import type { MainsExposure } from '#core/model/library.ts';
import { findOpenJob } from './open-job.ts';
import {
  isPluggedInJob,
  mainsExposure,
  plugMark,
  readMarks,
  rememberMainsExposure,
  rememberMarks,
} from './job-memory.ts';
import type { UnitSheet } from './unit-sheet.ts';

/**
 * What mains asks of a unit whose file or job says where its mains is, with power on: with the case open, and with it closed. What is
 * known is confirmed, not asked.
 */
const declared: Readonly<Partial<Record<MainsExposure, string>>> = {
  'inside-bare': 'Mains parts are bare in this unit: not for this step. Is every one covered now?',
  'inside-covered': 'Every mains part of this unit is said to be covered. Is it so?',
};
const declaredShut = 'Mains is inside this unit. Does its case stay shut?';

/**
 * Shows each caution in full the first time it concerns this unit in this job, then as one line. A danger is a gate: its question comes
 * first and the step is held back until it was answered; once at a step with power off or the case closed, once with power on and the
 * case open. The others are known once the step was answered, or when the reader folds them. What a set-up brings then stands in its list.
 */
export class CautionGate {
  readonly #root: HTMLElement;
  readonly #onChange: () => void;
  #unit: UnitSheet | undefined;
  #slug: string | undefined;

  constructor(root: HTMLElement, onChange: () => void) {
    this.#root = root;
    this.#onChange = onChange;
    root.addEventListener('click', (event) => this.#onClick(event));
  }

  /** Draws the gate for the unit that the address names, by its sheet once that is there. */
  update(slug: string | undefined, unit: UnitSheet | undefined): void {
    this.#slug = slug;
    this.#unit = unit;
    const exposure = this.#exposure();
    // What the job knows from another day, this tab knows from here on.
    if (isPluggedInJob(slug) && !readMarks(slug).has(plugMark)) rememberMarks(slug, [plugMark]);
    const known = readMarks(slug);
    let isGated = false;
    for (const box of this.#root.querySelectorAll<HTMLElement>('.caution')) {
      const { caution: name = '' } = box.dataset;
      const isKnown =
        (box.dataset['optional'] !== undefined && known.has(unusedMark)) ||
        marksOf(box, exposure).some((mark) => known.has(mark));
      box.hidden =
        name === plugMark
          ? isKnown || exposure === 'outside'
          : (name === 'mains' && exposure === 'outside' && box.dataset['derived'] !== undefined) ||
            (unit?.hasTube === false && name.startsWith('picture-tube')) ||
            (isTransformer(unit?.supplyKind) && box.dataset['spared'] !== undefined);
      const isOpen = !isKnown && !box.hidden;
      const isGate: boolean = isOpen && !isGated && hasGate(box);
      if (box.dataset['ofSetup'] !== undefined) this.#root.querySelector(isOpen ? '.cautions' : '.setups')?.append(box);
      box.classList.toggle('read', !isOpen);
      box.classList.toggle('gate-now', isGate);
      const details = box.querySelector('details');
      if (details !== null) details.open = isOpen;
      if (name === 'mains') this.#confirm(box, exposure);
      isGated ||= isGate;
    }
    for (const press of this.#root.querySelectorAll<HTMLElement>('[data-acknowledge="outside"]'))
      press.hidden = declared[exposure] !== undefined;
    this.#root.toggleAttribute('data-gated', isGated);
    this.#root.querySelector('.cautions > .closing')?.toggleAttribute('hidden', known.has(closingMark));
    this.#setStrap(exposure);
  }

  /**
   * The unit's word goes before the reader's, but not before a reader's that mains parts are bare; where neither knows, the open job
   * may know that they are.
   */
  #exposure(): MainsExposure {
    const said = mainsExposure();
    if (said === 'inside-bare') return said;
    const exposure = this.#unit?.mains ?? said;
    return exposure === 'unknown' && findOpenJob()?.mains === 'inside-bare' ? 'inside-bare' : exposure;
  }

  #confirm(box: HTMLElement, exposure: MainsExposure): void {
    const { state } = box.dataset;
    const words = state === 'off' ? undefined : declared[exposure];
    const question = box.querySelector<HTMLElement>('.question');
    if (question === null) return;
    question.dataset['built'] ??= question.textContent ?? '';
    question.textContent = words === undefined ? question.dataset['built'] : state === 'live' ? words : declaredShut;
  }

  #onClick(event: MouseEvent): void {
    const { target } = event;
    if (!(target instanceof Element)) return;
    const box = target.closest<HTMLElement>('.caution');
    const press = target.closest<HTMLElement>('[data-acknowledge]');
    if (box !== null && press !== null) {
      event.preventDefault();
      const { acknowledge = '' } = press.dataset;
      if (acknowledge === 'outside' || acknowledge === 'inside-covered') rememberMainsExposure(acknowledge);
      else if (acknowledge !== '') rememberMarks(this.#slug, acknowledge.split(' '));
      // Where nothing but a scope will do, the page asks again when it is opened again.
      if (acknowledge === unusedMark) box.dataset['optional'] = '';
      else this.#know(box);
      this.#onChange();
      // A screen reader reads on from here: first the cautions that are not read yet, then the step.
      const next = this.#root.querySelector<HTMLElement>(
        '.gate-now summary, .cautions > .caution:not(.read, [hidden]) summary, .step > .heading',
      );
      if (next?.matches('summary') !== true) next?.setAttribute('tabindex', '-1');
      next?.focus();
      next?.scrollIntoView({ block: 'nearest' });
    } else if (target.closest('.outcome, .take, .step-on, [type="submit"]') !== null) {
      this.#know(...this.#root.querySelectorAll<HTMLElement>('.caution:not(:has(.gate), [hidden])'));
    } else if (box !== null && target.closest('summary') !== null) this.#know(...(hasGate(box) ? [] : [box]));
  }

  #know(...boxes: readonly HTMLElement[]): void {
    const exposure = this.#exposure();
    rememberMarks(this.#slug, [...boxes.flatMap((box) => marksOf(box, exposure).slice(0, 1)), closingMark]);
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

/** No scope is used: lets pass where the step can be done without. */
const unusedMark = 'scope-ground:unused';

/** What closes the first grave cautions stands once for a unit and its job. */
const closingMark = 'closing';

function hasGate(box: HTMLElement): boolean {
  return box.querySelector('.gate') !== null;
}

/**
 * By what a caution is known here; the first is what is remembered. The bare slug counts everywhere; `slug:covered` was answered with
 * power on and the case open while mains parts were covered; `slug:shut` at any gentler step.
 */
function marksOf({ dataset, classList }: HTMLElement, exposure: MainsExposure): readonly string[] {
  const { caution: slug = '', state } = dataset;
  if (!classList.contains('danger') || slug === plugMark) return [slug];
  if (state !== 'live') return [`${slug}:shut`, `${slug}:covered`, slug];
  return slug === 'mains' && exposure !== 'inside-bare' && exposure !== 'unknown' ? [`${slug}:covered`, slug] : [slug];
}
