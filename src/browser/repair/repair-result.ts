import { makeElement } from '../kit/elements.ts';
import { read } from '../kit/storage.ts';
import { defineWithMap } from '../page-data.ts';
import './photo-taker.ts';
import type { RepairSteps } from './repair-steps.ts';

/**
 * `<repair-result>`, on the sheet of a cause: the repair done, what was fitted, whether that was tested, and what came of it. Cured leads
 * to the proof, and by disturbance alone it is a result of its own; the same goes into the address as `did=`, from which the page plans on; worse or different brings up what rework does.
 * What it does is loaded when it is first pressed, or when a job is open that may wait for its answer here.
 */
class RepairResult extends HTMLElement {
  #steps: Promise<RepairSteps> | undefined;

  connectedCallback(): void {
    this.append(...makeForm());
    this.hidden = false;
    this.addEventListener('submit', (event) => {
      event.preventDefault();
      const form = event.target;
      if (form instanceof HTMLFormElement) void this.#load().then((steps) => steps.send(form));
    });
    this.addEventListener('click', ({ target }) => {
      const pressed = target instanceof Element ? target.closest<HTMLElement>('[data-result], [data-rework]') : null;
      if (pressed !== null) void this.#load().then((steps) => steps.press(pressed));
    });
    if (read('jobOpen') !== undefined) void this.#load();
  }

  #load(): Promise<RepairSteps> {
    this.#steps ??= import('./repair-steps.ts').then(({ RepairSteps: Steps }) => new Steps(this));
    return this.#steps;
  }
}

/** The first question of `<repair-result>`: what was fitted, and that it is done. */
function makeForm(): readonly HTMLElement[] {
  const choose = (value: string, label: string, checked?: true): HTMLElement =>
    makeElement('label', {}, makeElement('input', { type: 'radio', name: 'tested', value, checked }), ` ${label}`);
  return [
    makeElement('h2', {}, 'After the repair'),
    makeElement(
      'form',
      { 'data-step': 'done' },
      makeElement(
        'label',
        {},
        'Part fitted, if any ',
        makeElement('input', {
          name: 'part',
          dir: 'auto',
          maxlength: '300',
          autocomplete: 'off',
          placeholder: '1000 µF 16 V 105 °C',
        }),
      ),
      makeElement(
        'fieldset',
        {},
        makeElement('legend', {}, 'Was the new part tested before it went in?'),
        choose('yes', 'Yes'),
        ' ',
        choose('no', 'No', true),
      ),
      makeElement('button', { type: 'submit', class: 'press' }, 'I have done this repair'),
    ),
    makeElement('p', { role: 'status', 'data-said': true }),
  ];
}

defineWithMap('repair-result', RepairResult);
