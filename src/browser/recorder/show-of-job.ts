import { textLimits } from '#core/log/event.ts';
import type { JobBrief } from '#core/log/job-brief.ts';
import { addressOf } from '#core/link/address.ts';
import { makeButton, makeElement } from '../kit/elements.ts';
import { findOpenJob } from '../open-job.ts';
import { basePath } from '../page-data.ts';

/** Puts into a check or cause what the open job says of it: the person's own name of the point, and what must not be lost. */
export function showOfJob(job: JobBrief): void {
  for (const place of document.querySelectorAll<HTMLElement>('[data-point]')) showOwnName(place, job);
  const step = document.querySelector('.node.alone[data-risky] > .step');
  document.querySelector('.keep-note')?.remove();
  if (step === null || job.keep === undefined) return;
  step.prepend(
    makeElement(
      'section',
      { class: 'keep-note', 'aria-label': 'Must not be lost' },
      makeElement('p', {}, makeElement('b', {}, 'Must not be lost: '), makeElement('bdi', {}, job.keep)),
      makeElement(
        'p',
        {},
        'Is it saved? This step can lose it for ever. ',
        makeElement(
          'a',
          { href: addressOf({ kind: 'caution', slug: 'irreplaceable-data' }, basePath()) },
          'How to save it first',
        ),
      ),
    ),
  );
}

/** What stands beside a point of this unit, so that drawing it again takes the earlier one away. */
const shown = new WeakMap<HTMLElement, HTMLElement>();

/** Shows beside a test point what the person calls it on the unit of the open job, and lets them say so on the step's own page. */
function showOwnName(place: HTMLElement, job: JobBrief): void {
  const point = place.dataset['point'] ?? '';
  const before = shown.get(place);
  // What is being typed stays; the next drawing follows when it is kept or left.
  if (before !== undefined && before.querySelector('form') !== null) return;
  before?.remove();
  const own = Object.hasOwn(job.points, point) ? job.points[point] : undefined;
  const canName = place.closest('.node.alone') !== null;
  if (point === '' || (own === undefined && !canName)) return;
  const box = makeElement('div', { class: 'own-name' });
  if (own !== undefined)
    box.append(makeElement('p', {}, 'You call this point: ', makeElement('b', { dir: 'auto' }, own)));
  if (canName) {
    const text = own === undefined ? 'Name it for this unit' : 'Change the name';
    box.append(makeButton(text, 'press plain', () => askName(place, box, point, own ?? '')));
  }
  // A paragraph holds no block.
  if (place.matches('p')) place.after(box);
  // Until it has one, where the point is told.
  else ((own === undefined ? place.querySelector('details.place') : null) ?? place).append(box);
  shown.set(place, box);
}

function askName(place: HTMLElement, box: HTMLElement, point: string, own: string): void {
  const field = makeElement('input', {
    name: 'name',
    dir: 'auto',
    maxlength: String(textLimits.line),
    autocomplete: 'off',
  });
  field.value = own;
  field.placeholder = 'left leg of the blue coil';
  const said = makeElement('p', { role: 'status' });
  const label = makeElement('label', {}, 'On this unit I call it', field);
  const keep = makeElement('button', { type: 'submit', class: 'press' }, 'Save the name');
  const leave = makeButton('Cancel', 'press plain', () => drawAgain(place, box));
  const form = makeElement('form', { class: 'log-form' }, label, makeElement('p', { class: 'row' }, keep, leave), said);
  form.addEventListener('submit', (event) => {
    event.preventDefault();
    void keepName(point, field.value.trim()).then(
      () => drawAgain(place, box),
      () => {
        said.textContent = 'The name could not be saved in the log. It is still in the field.';
      },
    );
  });
  box.replaceChildren(form);
  field.focus();
}

/** An empty name takes the earlier one away. */
async function keepName(point: string, name: string): Promise<void> {
  const job = findOpenJob();
  if (job === undefined) throw new Error('No job is open any more.');
  const { record } = await import('../log/job-desk.ts');
  await record(job.id, [{ kind: 'point', point, ...(name === '' ? {} : { name }) }]);
}

/** Every place of that point on the page follows; the focus goes back to where it was. */
function drawAgain(place: HTMLElement, box: HTMLElement): void {
  const job = findOpenJob();
  box.replaceChildren();
  if (job === undefined) return;
  for (const other of document.querySelectorAll<HTMLElement>('[data-point]')) showOwnName(other, job);
  shown.get(place)?.querySelector('button')?.focus();
}
