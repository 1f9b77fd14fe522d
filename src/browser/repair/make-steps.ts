import { addressOf } from '#core/link/address.ts';
import { makeElement } from '../kit/elements.ts';
import { basePath } from '../page-data.ts';

/** What can be done to a part without changing it: value in the log, and words. */
const disturbances = [
  ['reseated', 'Reseated: plug, socket, card'],
  ['cleaned', 'Cleaned'],
  ['warmed', 'Warmed'],
  ['cooled', 'Cooled'],
  ['flexed', 'Flexed, tapped, moved'],
] as const;

/** The steps behind “I have done this repair”: the proof, and what follows from each of its results. All of them hidden. */
export function makeSteps(tree: string): readonly HTMLElement[] {
  const log = addressOf({ kind: 'log' }, basePath());
  return [
    makeStep(
      'prove',
      makeElement(
        'p',
        {},
        'Written down. Now prove it as said above, with the same target as before, and look at the symptom itself. What is it now?',
      ),
      makeRow(makeResult('works', 'Cured'), makeResult('same', 'The same'), makeResult('worse', 'Worse or different')),
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
        makeResult('cured', 'A part was changed, or a joint made anew'),
        makeResult('disturbed', 'Only disturbed'),
      ),
    ),
    makeDisturbedForm(),
    makeStep(
      'by-disturbance',
      makeElement(
        'p',
        {},
        makeElement('strong', {}, 'Cured by disturbance: the cause is not proved.'),
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
        'Then it was not this part, or not this part alone, or the new part is bad. The address now says that this repair did not cure; your readings stay.',
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
        'Nothing of that? Then it is a new symptom of the same job. Its readings that this repair cannot have changed are on the job’s sheet and can be taken along.',
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
      ...disturbances.map(([value, text]) =>
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
        maxlength: '300',
        autocomplete: 'off',
        placeholder: 'plug J4, IC3 in its socket',
      }),
    ),
    makeElement('button', { type: 'submit', class: 'press' }, 'Write it down'),
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
