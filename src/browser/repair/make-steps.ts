import { addressOf } from '#core/share/address.ts';
import { makeElement } from '../make-element.ts';
import { basePath } from '../page-data.ts';

/** The steps behind “I have done this repair”: the proof, and what follows from each of its three results. All of them hidden. */
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
      makeRow(makeResult('cured', 'Cured'), makeResult('same', 'The same'), makeResult('worse', 'Worse or different')),
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
        makeElement('a', { class: 'press', 'data-job': true, href: log }, 'Work out the proof and close the job'),
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

function makeRow(...parts: readonly HTMLElement[]): HTMLElement {
  return makeElement('p', { class: 'row' }, ...parts);
}

function makeResult(result: 'cured' | 'same' | 'worse', text: string): HTMLElement {
  return makeElement(
    'button',
    { type: 'button', class: 'press plain', 'data-result': result, [`data-${result}`]: true },
    text,
  );
}
