import type { MainsExposure } from '#core/model/library.ts';
import { cautionsRead, mainsExposure, rememberCautionRead, rememberMainsExposure } from './job-memory.ts';

const exposures: readonly (readonly [MainsExposure, string])[] = [
  ['outside', 'No: a separate supply feeds it, no mains in this case'],
  ['inside-covered', 'Yes, and every mains part is covered'],
  ['inside-bare', 'Yes, and mains tags are bare'],
  ['unknown', 'I do not know'],
];

/**
 * Shows each stop caution as the whole first screen until it was read in this job, then as one line;
 * a danger stays open above the step until it was read.
 * Whoever has no board chosen is asked once where the mains is; `outside` takes the mains caution off powered checks.
 */
export class CautionGate {
  readonly #root: HTMLElement;
  readonly #onChange: () => void;

  constructor(root: HTMLElement, onChange: () => void) {
    this.#root = root;
    this.#onChange = onChange;
    root.addEventListener('click', (event) => this.#onClick(event));
  }

  /** Draws the gate for the exposure a board states, or the one the reader gave. */
  update(boardExposure: MainsExposure | undefined): void {
    const exposure = boardExposure ?? mainsExposure();
    const read = cautionsRead();
    let isGated = false;
    for (const box of this.#root.querySelectorAll<HTMLElement>('.caution')) {
      const slug = box.dataset['caution'] ?? '';
      const isOutside = slug === 'mains' && exposure === 'outside' && box.hasAttribute('data-from-power');
      box.hidden = isOutside;
      const isOpen = !box.classList.contains('care') && !read.has(slug) && !isOutside;
      const isGate: boolean = isOpen && !isGated && box.classList.contains('stop');
      box.classList.toggle('read', !isOpen);
      box.classList.toggle('gate-now', isGate);
      box.querySelector('.gate')?.removeAttribute('hidden');
      const details = box.querySelector('details');
      if (details !== null) details.open = isOpen;
      if (isGate && slug === 'mains' && boardExposure === undefined) this.#askExposure(box);
      isGated ||= isGate;
    }
    this.#root.toggleAttribute('data-gated', isGated);
    this.#setStrap(exposure);
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
    if (link === null) return;
    event.preventDefault();
    const chosen = link.closest('.caution')?.querySelector<HTMLInputElement>('input[name="exposure"]:checked');
    const exposure = exposures.map(([value]) => value).find((value) => value === chosen?.value);
    if (exposure !== undefined) rememberMainsExposure(exposure);
    rememberCautionRead(link.dataset['acknowledge'] ?? '');
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
