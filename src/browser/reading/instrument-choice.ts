import type { InstrumentClass } from '#core/model/instrument-class.ts';
import type { Target } from '#core/model/target.ts';
import { listInstruments, nameOwnAccuracy, parseAccuracy, readOwnAccuracy } from '#core/reading/instrument.ts';
import { makeElement } from '../kit/elements.ts';
import { write } from '../kit/storage.ts';

const ownValue = 'own';

/** Choice of the instrument a reading is taken with: classes that measure it, or the reader's own accuracy. */
export interface InstrumentChoice {
  readonly element: HTMLElement;
  readonly focus: () => void;
  /** Shows the instrument in use for a target; `name` is what was chosen, undefined where nothing was. */
  readonly show: (name: string | undefined, target: Target, inUse: InstrumentClass | undefined) => void;
}

export function makeInstrumentChoice(
  id: string,
  classes: ReadonlyMap<string, InstrumentClass>,
  choose: (name: string) => void,
): InstrumentChoice {
  let shown = '';
  const select = makeElement('select', { id: `${id}-with`, autocomplete: 'off' });
  const accuracy = makeElement('input', {
    id: `${id}-accuracy`,
    type: 'text',
    autocomplete: 'off',
    placeholder: '0.5 % + 2',
    'aria-describedby': `${id}-accuracy-said`,
  });
  const said = makeElement('span', { id: `${id}-accuracy-said`, class: 'hint' });
  const own = makeElement(
    'p',
    { class: 'own-accuracy' },
    makeElement('label', { for: accuracy.id }, 'Its accuracy, as its leaflet prints it '),
    accuracy,
    said,
  );
  select.addEventListener('change', () => {
    own.hidden = select.value !== ownValue;
    if (select.value === ownValue) readOwn();
    else keep(select.value);
  });
  accuracy.addEventListener('input', readOwn);
  const element = makeElement(
    'div',
    { class: 'instrument-choice' },
    makeElement('label', { for: select.id }, 'Read with'),
    select,
    own,
  );
  return { element, focus: () => select.focus(), show };

  function keep(name: string): void {
    write('instrument', name);
    choose(name);
  }

  function readOwn(): void {
    const read = parseAccuracy(accuracy.value);
    const isEmpty = accuracy.value.trim() === '';
    said.textContent =
      read === undefined && !isEmpty
        ? 'Type per cent and counts, for example 0.5 % + 2.'
        : 'Per cent of the reading, plus counts of the last digit.';
    accuracy.setAttribute('aria-invalid', String(read === undefined && !isEmpty));
    if (read !== undefined) keep(nameOwnAccuracy(read));
  }

  function show(name: string | undefined, target: Target, inUse: InstrumentClass | undefined): void {
    const accuracyOf = name === undefined ? undefined : readOwnAccuracy(name);
    const state = `${target.slug} ${name ?? ''} ${inUse?.slug ?? ''}`;
    // Drawn again only where something changed: a list that is open must not be taken from under the thumb.
    if (state === shown) return;
    shown = state;
    const options = listInstruments(target, classes).map(({ slug, title }) =>
      makeElement('option', { value: slug }, title),
    );
    const nothing = inUse === undefined ? [makeElement('option', { value: '' }, 'Other meter (accuracy unknown)')] : [];
    select.replaceChildren(
      ...nothing,
      ...options,
      makeElement('option', { value: ownValue }, 'My own: I know its accuracy'),
    );
    select.value = accuracyOf === undefined ? (inUse?.slug ?? '') : ownValue;
    own.hidden = accuracyOf === undefined;
    if (accuracyOf !== undefined && accuracy !== document.activeElement) {
      accuracy.value = `${accuracyOf.percent} % + ${accuracyOf.counts}`;
    }
  }
}
