import { findNode } from '#core/model/node.ts';
import { parseReading } from '#core/quantity/parse-reading.ts';
import { printLinkReading, printReading, type Reading } from '#core/quantity/reading.ts';
import { chooseInstrument } from '#core/reading/instrument.ts';
import { compareSiblings, describeSiblings, proposeOutcomes, type SiblingComparison } from '#core/reading/siblings.ts';
import { type Answer, withAnswer } from '#core/answer/answer.ts';
import { type BenchTree, targetAt } from '#core/answer/bench-tree.ts';
import { listKeys } from '#core/reading/keypad.ts';
import type { Target } from '#core/model/target.ts';
import { makeButton, makeElement } from '../kit/elements.ts';
import type { WalkPage } from '../walk/walk-page.ts';
import { type InstrumentChoice, makeInstrumentChoice } from './instrument-choice.ts';
import { findInstrument } from './instrument-memory.ts';
import { makeKeypad } from './keypad.ts';
import { markProposed } from './mark-proposed.ts';
import type { DeskField } from './reading-desk.ts';

/** What equal neighbours may be compared by, where the check has no target that says it. */
const comparable = [
  { quantity: 'resistance', unit: 'Ω', title: 'ohms' },
  { quantity: 'voltage-dc', unit: 'V', title: 'volts dc' },
  { quantity: 'voltage-pp', unit: 'mVpp', title: 'millivolts peak to peak' },
  { quantity: 'time', unit: 'µs', title: 'microseconds' },
  { quantity: 'temperature', unit: '°C', title: 'degrees' },
] as const;

/** Several equal neighbours read one after another: the odd one out is named, and the outcome that says so is proposed. */
export class SiblingDesk {
  readonly #field: DeskField;
  readonly #inputs: readonly HTMLInputElement[];
  readonly #messages: readonly HTMLElement[];
  readonly #said = makeElement('p', { class: 'words', role: 'status' });
  readonly #problem = makeElement('p', { class: 'problem' });
  readonly #kept = makeElement('p', { role: 'status' });
  readonly #pad = makeElement('div');
  readonly #unit: HTMLSelectElement;
  readonly #choice: InstrumentChoice;
  #bench: BenchTree;
  #page: WalkPage | undefined;
  #instrument: string | undefined;
  #last: HTMLInputElement | undefined;
  #shown = '';

  constructor(field: DeskField, bench: BenchTree, count: number) {
    this.#field = field;
    this.#bench = bench;
    const { node } = field.place;
    const numbers = Array.from({ length: Math.min(Math.max(2, count), 40) }, (_, index) => index + 1);
    this.#inputs = numbers.map((number) =>
      makeElement('input', {
        id: `sibling-${number}`,
        type: 'text',
        inputmode: 'decimal',
        autocomplete: 'off',
        enterkeyhint: 'next',
        'aria-describedby': 'sibling-problem',
      }),
    );
    this.#problem.id = 'sibling-problem';
    this.#messages = numbers.map(() => makeElement('span', { class: 'tag' }));
    this.#unit = makeElement(
      'select',
      { id: 'sibling-unit', autocomplete: 'off' },
      ...comparable.map(({ quantity, title }) => makeElement('option', { value: quantity }, title)),
    );
    const found = findNode(bench.tree, node);
    this.#unit.value = found?.kind === 'check' && found.power === 'on' ? 'voltage-dc' : 'resistance';
    this.#unit.addEventListener('change', () => {
      this.#pad.replaceChildren();
      this.#render();
    });
    this.#choice = makeInstrumentChoice('sibling', bench.references.instrumentClasses, (name) => {
      this.#instrument = name;
      this.#render();
    });
    const hasTarget = targetAt(bench, node) !== undefined;
    field.append(
      ...(hasTarget
        ? []
        : [
            makeElement(
              'p',
              { class: 'entry' },
              makeElement('label', { for: 'sibling-unit' }, 'What you read'),
              this.#unit,
            ),
          ]),
      makeElement(
        'ol',
        { class: 'siblings' },
        ...this.#inputs.map((input, index) =>
          makeElement(
            'li',
            {},
            makeElement('label', { for: input.id }, `${index + 1}`),
            input,
            this.#messages[index] ?? '',
          ),
        ),
      ),
      this.#problem,
      this.#said,
      this.#pad,
      this.#choice.element,
      makeButton('Keep these readings', 'press plain keep', () => this.#keep()),
      this.#kept,
    );
    for (const [index, input] of this.#inputs.entries()) this.#listen(input, this.#inputs[index + 1]);
    field.classList.add('open');
    field.querySelector('[data-keys]')?.setAttribute('aria-expanded', 'true');
    this.#point(this.#inputs[0]);
  }

  update(page: WalkPage, bench: BenchTree): void {
    this.#page = page;
    this.#bench = bench;
    const { node } = this.#field.place;
    const own = page.state.answers.find((one) => one.tree === undefined && one.node === node);
    const named = [own?.instrument, this.#instrument, page.state.instrument];
    this.#instrument = findInstrument(named, bench.references.instrumentClasses);
    this.#fill(own?.readings ?? []);
    this.#render();
  }

  /** What the fragment holds comes into empty fields once; what is typed stays. */
  #fill(readings: readonly string[]): void {
    const text = readings.join(',');
    if (text === '' || text === this.#shown) return;
    this.#shown = text;
    this.#guessQuantity(readings);
    for (const [index, input] of this.#inputs.entries()) {
      const reading = readings[index];
      if (input.value.trim() !== '' || reading === undefined) continue;
      const parsed = parseReading(reading, this.#target());
      input.value = parsed.kind === 'reading' ? printReading(parsed.reading) : reading;
    }
  }

  /** A link carries the unit with each reading, so the first of them says what was read. */
  #guessQuantity(readings: readonly string[]): void {
    const fitting = comparable.find((one) =>
      readings.some((text) => parseReading(text, one).kind === 'reading' && text !== 'OL'),
    );
    if (fitting !== undefined) this.#unit.value = fitting.quantity;
  }

  #listen(input: HTMLInputElement, next: HTMLInputElement | undefined): void {
    input.addEventListener('focus', () => this.#point(input));
    input.addEventListener('pointerdown', (event) => {
      this.#point(input);
      if (event.pointerType === 'touch') input.inputMode = 'none';
    });
    input.addEventListener('input', () => this.#render());
    input.addEventListener('keydown', (event) => {
      if (event.key === 'Enter' && !event.isComposing)
        (next ?? this.#field.querySelector<HTMLElement>('.keep'))?.focus();
    });
  }

  #target(): Target {
    const { node } = this.#field.place;
    const own = targetAt(this.#bench, node);
    const chosen = comparable.find(({ quantity }) => quantity === this.#unit.value) ?? comparable[0];
    return own ?? { ...bareTarget, quantity: chosen.quantity, unit: chosen.unit, slug: chosen.quantity };
  }

  #readings(): readonly (Reading | undefined)[] {
    const target = this.#target();
    return this.#inputs.map((input) => {
      const parsed = parseReading(input.value, target);
      return parsed.kind === 'reading' ? parsed.reading : undefined;
    });
  }

  #render(): void {
    const page = this.#page;
    if (page === undefined) return;
    const target = this.#target();
    if (this.#pad.childElementCount === 0) {
      const keypad = makeKeypad(() => this.#last, listKeys(target));
      const next = makeButton('Next', 'next-key', () => this.#step());
      keypad.querySelector('.asides')?.append(next);
      this.#pad.append(keypad);
    }
    this.#choice.show(this.#instrument, target, 0);
    this.#showProblems(target);
    const readings = this.#readings();
    const given = readings.flatMap((reading, index) => (reading === undefined ? [] : [{ reading, index }]));
    const instrument = chooseInstrument(this.#instrument, target, this.#bench.references.instrumentClasses);
    const compared = compareSiblings(
      given.map(({ reading }) => reading),
      target,
      instrument,
    );
    const odd = compared.odd.map((position) => given[position]?.index ?? -1);
    this.#said.textContent =
      given.length < 2
        ? 'Read at least two, one after another.'
        : describeSiblings(compared, odd, this.#inputs.length - given.length);
    for (const [index, message] of this.#messages.entries()) {
      const isOdd = odd.includes(index);
      message.textContent = isOdd ? 'odd one out' : '';
      message.closest('li')?.classList.toggle('odd', isOdd);
    }
    this.#propose(page, compared, given.length);
  }

  #showProblems(target: Target): void {
    const wrong = this.#inputs.flatMap((input, index) => {
      const parsed = input.value.trim() === '' ? undefined : parseReading(input.value, target);
      const isWrong = parsed?.kind === 'problem';
      input.setAttribute('aria-invalid', String(isWrong));
      return isWrong ? [`${index + 1}: ${parsed.problem.message}`] : [];
    });
    this.#problem.textContent = wrong[0] ?? '';
  }

  #propose(page: WalkPage, compared: SiblingComparison, count: number): void {
    const { node } = this.#field.place;
    const words = (page.map.nodes.find(({ id }) => id === node)?.links ?? []).flatMap((way) => way.words);
    const proposed = count < this.#inputs.length ? [] : proposeOutcomes(compared.kind, words);
    markProposed(this.#field, proposed);
    page.hold(count === 0 ? undefined : { answer: this.#answer(), verdict: 'too-close' });
  }

  #answer(): Answer {
    const { node } = this.#field.place;
    const readings = this.#readings().flatMap((reading) => (reading === undefined ? [] : [printLinkReading(reading)]));
    const named = this.#instrument === undefined ? {} : { instrument: this.#instrument };
    return { tree: undefined, node, stage: undefined, value: readings[0] ?? '', readings, ...named };
  }

  #keep(): void {
    const page = this.#page;
    const answer = this.#answer();
    if (page === undefined || (answer.readings?.length ?? 0) < 2) return;
    this.#shown = answer.readings?.join(',') ?? '';
    page.put(
      withAnswer(this.#instrument === undefined ? page.state : { ...page.state, instrument: this.#instrument }, answer),
    );
    this.#kept.textContent = 'Kept. Now press the outcome that fits.';
  }

  #step(): void {
    const at = this.#last === undefined ? -1 : this.#inputs.indexOf(this.#last);
    const next = this.#inputs[at + 1] ?? this.#inputs[0];
    this.#point(next);
    next?.scrollIntoView({ block: 'nearest' });
  }

  /** The field that the keypad types into. */
  #point(wanted: HTMLInputElement | undefined): void {
    this.#last = wanted;
    for (const input of this.#inputs) input.closest('li')?.classList.toggle('now', input === wanted);
  }
}

/** Neighbours are compared with each other; no limits are needed. */
const bareTarget: Target = {
  slug: '',
  title: '',
  quantity: 'resistance',
  unit: 'Ω',
  nominal: undefined,
  bands: [],
  words: [],
  compare: 'value',
  sign: 'positive',
  conditions: '',
  instruments: [],
  source: '',
  status: 'practice',
  variants: {},
  sourceResistanceOhms: undefined,
  misreads: [],
  relativeTo: undefined,
  prose: [],
};
