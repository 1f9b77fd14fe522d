import { type Answer, readingsIn, withAnswer } from '#core/answer/answer.ts';
import type { BenchTree } from '#core/answer/bench-tree.ts';
import type { Target } from '#core/model/target.ts';
import { listKeys } from '#core/reading/keypad.ts';
import { isInstrument } from '#core/reading/instrument.ts';
import { makeButton, makeElement } from '../kit/elements.ts';
import { read } from '../kit/storage.ts';
import type { WalkPage } from '../walk/walk-page.ts';
import { type InstrumentChoice, makeInstrumentChoice } from './instrument-choice.ts';
import { makeKeypad } from './keypad.ts';

/** The element that a desk works in: the check or path it belongs to, the stage, or the target whose proof is read here. */
export interface DeskField extends HTMLElement {
  readonly place: { readonly node: string; readonly stage: string | undefined };
}

/**
 * What a reading field becomes once it is used: fields for figures, a keypad for the one in use, the instrument. Only one keypad stands
 * open on a page, and none comes up for a mouse.
 */
export abstract class Desk {
  static #open: Desk | undefined;
  protected readonly field: DeskField;
  protected readonly inputs: readonly HTMLInputElement[];
  protected readonly problem = makeElement('p', { class: 'problem' });
  protected readonly pad = makeElement('div', { class: 'pad' });
  protected readonly choice: InstrumentChoice;
  protected bench: BenchTree;
  protected page: WalkPage | undefined;
  protected instrument: string | undefined;
  #last: HTMLInputElement | undefined;
  #shown = '';
  #units = '';

  constructor(field: DeskField, bench: BenchTree, inputs: readonly HTMLInputElement[], id: string) {
    this.field = field;
    this.bench = bench;
    this.inputs = inputs;
    this.problem.id = `${id}-problem`;
    this.choice = makeInstrumentChoice(id, bench.references.instrumentClasses, (name) => {
      this.instrument = name;
      this.render();
    });
    for (const [index, input] of inputs.entries()) {
      input.setAttribute('aria-describedby', this.problem.id);
      input.addEventListener('input', () => this.render());
      input.addEventListener('focus', () => this.point(input));
      input.addEventListener('pointerdown', ({ pointerType }) => {
        if (pointerType === 'touch' && !this.#isOwnKeyboardAsked) input.inputMode = 'none';
        this.point(input);
        if (pointerType !== 'mouse') this.#showPad(true);
      });
      input.addEventListener('keydown', ({ key, isComposing }) => {
        if (key !== 'Enter' || isComposing) return;
        const next = inputs[index + 1];
        if (next === undefined) this.finish();
        else next.focus();
      });
    }
    const keys = field.querySelector('[data-keys]');
    keys?.addEventListener('click', () => this.#showPad(this.pad.hidden !== false));
    this.#showPad(matchMedia('(pointer: coarse)').matches);
    field.classList.add('open');
  }

  /** Called with every change of the fragment or the unit. */
  update(page: WalkPage, bench: BenchTree): void {
    this.page = page;
    this.bench = bench;
    const { node, stage } = this.field.place;
    const own = page.state.answers.find((one) => one.tree === undefined && one.node === node && one.stage === stage);
    const names = [own?.instrument, this.instrument, page.state.instrument, read('instrument')];
    // Names that nobody knows are passed over, wherever they come from.
    this.instrument = names.find(
      (name) => name !== undefined && isInstrument(name, bench.references.instrumentClasses),
    );
    // What the fragment holds comes into empty fields once; what is typed after that stays.
    const readings = own === undefined ? [] : readingsIn(own);
    if (readings.join() !== this.#shown) {
      this.#shown = readings.join();
      if (this.inputs.every(({ value }) => value.trim() === '')) this.fill(readings);
    }
    this.point(this.#last ?? this.inputs[0]);
    this.render();
  }

  protected abstract render(): void;
  protected abstract fill(readings: readonly string[]): void;
  /** Enter in the last field. */
  protected abstract finish(): void;
  /** What is read in a field. */
  protected abstract targetOf(input: HTMLInputElement): Target | undefined;

  /** The answer that these readings are, and the state with it. */
  protected answerOf(readings: readonly string[]): Answer {
    const { node, stage } = this.field.place;
    const [value = ''] = readings;
    const named = this.instrument === undefined ? {} : { instrument: this.instrument };
    return { tree: undefined, node, stage, value, ...(readings.length > 1 ? { readings } : {}), ...named };
  }

  protected stateWith({ state }: WalkPage, answer: Answer): WalkPage['state'] {
    return withAnswer(this.instrument === undefined ? state : { ...state, instrument: this.instrument }, answer);
  }

  /** Puts the answer into the fragment, and does not fill its readings in again. */
  protected put(page: WalkPage, answer: Answer): void {
    this.#shown = readingsIn(answer).join();
    page.put(this.stateWith(page, answer));
  }

  /** The field that the keypad types into. */
  protected point(input: HTMLInputElement | undefined): void {
    this.#last = input;
    for (const one of this.inputs) one.parentElement?.classList.toggle('now', one === input && this.inputs.length > 1);
    const target = input === undefined ? undefined : this.targetOf(input);
    if (target === undefined || `${target.quantity} ${target.unit}` === this.#units) return;
    this.#units = `${target.quantity} ${target.unit}`;
    const keypad = makeKeypad(() => this.#last, listKeys(target));
    if (this.inputs.length > 1)
      keypad.querySelector('.asides')?.append(makeButton('Next', 'next-key', () => this.#step()));
    this.pad.replaceChildren(keypad);
  }

  #step(): void {
    const at = this.#last === undefined ? -1 : this.inputs.indexOf(this.#last);
    const next = this.inputs[at + 1] ?? this.inputs[0];
    this.point(next);
    next?.scrollIntoView({ block: 'nearest' });
  }

  get #isOwnKeyboardAsked(): boolean {
    return this.pad.querySelector('[data-own-keyboard][aria-pressed="true"]') !== null;
  }

  #showPad(isShown: boolean): void {
    if (isShown) {
      const before = Desk.#open;
      Desk.#open = this;
      if (before !== undefined && before !== this) before.#showPad(false);
    }
    this.pad.hidden = !isShown;
    this.field.classList.toggle('keyed', isShown);
    this.field.querySelector('[data-keys]')?.setAttribute('aria-expanded', String(isShown));
  }

  /**
   * Marks the outcomes that readings point to, by hatching and by the words “your reading”, and takes earlier marks away. At a stage
   * every band but `in` stands for bad.
   */
  protected markProposed(words: readonly string[]): void {
    const isStage = this.field.place.stage !== undefined;
    const root = this.field.closest<HTMLElement>(isStage ? 'li' : '[data-node]');
    const wanted = isStage ? words.map((word) => (word === 'in' ? 'good' : 'bad')) : words;
    for (const choice of root?.querySelectorAll<HTMLElement>('.outcome[data-answers], [data-mark]') ?? []) {
      const own = (choice.dataset['mark'] ?? choice.dataset['answers'] ?? '').split(' ');
      const isProposed = own.some((word) => wanted.includes(word)) && choice.dataset['stageBad'] === undefined;
      choice.classList.toggle('proposed', isProposed);
      const tag = choice.querySelector('.tag.of-reading');
      if (!isProposed) tag?.remove();
      else if (tag === null) choice.append(makeElement('span', { class: 'tag of-reading' }, 'your reading'));
    }
  }
}
