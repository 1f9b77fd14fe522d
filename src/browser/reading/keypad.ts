import { type Key, type KeypadKeys, pressKey } from '#core/reading/keypad.ts';
import { makeElement } from '../kit/elements.ts';

/**
 * A keypad for one thumb: figures, decimal point, sign, over-range, erase, and the units that suit the reading. It leaves the focus where
 * it is, so that no screen keyboard comes up; from the keyboard it is one stop, with the arrow keys inside.
 */
export function makeKeypad(
  input: () => HTMLInputElement | undefined,
  { units, hasSign, hasOverRange }: KeypadKeys,
): HTMLElement {
  const ownKeyboard = makeElement(
    'button',
    { type: 'button', 'data-own-keyboard': true, 'aria-pressed': 'false' },
    'abc',
  );
  ownKeyboard.setAttribute('aria-label', 'Use the screen keyboard');
  const column = units.map((unit): HTMLElement => makeKey(unit, { kind: 'unit', text: unit }, 'unit-key'));
  const aside = [
    makeKey('⌫', { kind: 'erase' }, 'aside', 'Erase'),
    ...(hasSign ? [makeKey('±', { kind: 'sign' }, 'aside', 'Turn the sign')] : []),
    ...(hasOverRange ? [makeKey('OL', { kind: 'word', text: 'OL' }, 'aside', 'OL, over range')] : []),
    ownKeyboard,
  ];
  const figures = ['7', '8', '9', '4', '5', '6', '1', '2', '3', '0', '.'].map((text) =>
    makeKey(text, { kind: 'figure', text }, 'figure', text === '.' ? 'Decimal point' : undefined),
  );
  const pad = makeElement(
    'div',
    { class: 'keypad', role: 'group', 'aria-label': 'Keypad' },
    makeElement('div', { class: 'figures' }, ...figures),
    makeElement('div', { class: 'units' }, ...column),
    makeElement('div', { class: 'asides' }, ...aside),
  );
  const buttons = [...figures, ...column, ...aside];
  for (const [index, button] of buttons.entries()) button.tabIndex = index === 0 ? 0 : -1;
  // The focus stays where it was: else every key would bring the screen keyboard up or put it away.
  pad.addEventListener('pointerdown', (event) => event.preventDefault());
  pad.addEventListener('keydown', (event) => moveFocus(event, buttons));
  ownKeyboard.addEventListener('click', () => {
    const field = input();
    const isOn = ownKeyboard.getAttribute('aria-pressed') !== 'true';
    ownKeyboard.setAttribute('aria-pressed', String(isOn));
    if (field === undefined) return;
    field.inputMode = isOn ? 'text' : 'none';
    field.blur();
    if (isOn) field.focus();
  });
  return pad;

  function makeKey(face: string, key: Key, className: string, name?: string): HTMLButtonElement {
    const button = makeElement('button', { type: 'button', class: className, 'aria-label': name }, face);
    button.addEventListener('click', () => {
      const field = input();
      if (field === undefined) return;
      field.value = pressKey(field.value, key);
      field.dispatchEvent(new Event('input', { bubbles: true }));
    });
    return button;
  }
}

const steps: Readonly<Record<string, number>> = { ArrowRight: 1, ArrowDown: 1, ArrowLeft: -1, ArrowUp: -1 };

function moveFocus(event: KeyboardEvent, buttons: readonly HTMLElement[]): void {
  const step = Object.hasOwn(steps, event.key) ? steps[event.key] : undefined;
  const at = event.target instanceof HTMLElement ? buttons.indexOf(event.target) : -1;
  if (step === undefined || at < 0) return;
  event.preventDefault();
  const next = buttons[(at + step + buttons.length) % buttons.length];
  for (const button of buttons) button.tabIndex = button === next ? 0 : -1;
  next?.focus();
}
