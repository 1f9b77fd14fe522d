import type { Outcome } from '#core/model/fault-tree.ts';
import type { Target } from '#core/model/target.ts';
import { printWord } from '#core/model/target-text.ts';
import { parseReading } from '#core/quantity/parse-reading.ts';
import { printLinkReading, printReading, type Reading } from '#core/quantity/reading.ts';
import { chooseInstrument } from '#core/reading/instrument.ts';
import { describeJudgement, judgeWith, readEntry, sizeOf } from '#core/reading/judge-reading.ts';
import type { Judgement } from '#core/reading/judgement.ts';
import { type Answer, isWord, withAnswer } from '#core/answer/answer.ts';
import { nextAfter } from '#core/answer/lead.ts';
import { type BenchTree, targetAt } from '#core/answer/bench-tree.ts';
import { findSafeAnswer } from '#core/answer/judge-answer.ts';
import { listKeys } from '#core/reading/keypad.ts';
import { makeButton, makeElement } from '../kit/elements.ts';
import type { WalkPage } from '../walk/walk-page.ts';
import { describeField, describeReading } from './describe-reading.ts';
import { drawScale } from './draw-scale.ts';
import { type InstrumentChoice, makeInstrumentChoice } from './instrument-choice.ts';
import { findInstrument } from './instrument-memory.ts';
import { makeKeypad } from './keypad.ts';
import { markProposed } from './mark-proposed.ts';

/** Milliseconds without a key before the verdict is read out: not every figure on the way is a reading. */
const quietMilliseconds = 400;

/** What the field becomes once it is used: fetched with the first press or focus, or where the fragment holds its reading. */
export interface Desk {
  readonly update: (page: WalkPage) => void;
}

/** The element that a desk works in: the check or path it belongs to, and the stage. */
export interface DeskField extends HTMLElement {
  readonly place: { readonly node: string; readonly stage: string | undefined };
}

/** A reading field in use: keypad, instrument, live verdict with its scale, and the ways on. */
export class ReadingDesk {
  readonly #field: DeskField;
  readonly #input: HTMLInputElement;
  readonly #problem = makeElement('p', { class: 'problem' });
  readonly #verdict = makeElement('div', { class: 'verdict' });
  readonly #said = makeElement('p', { class: 'only-heard', role: 'status' });
  readonly #pad = makeElement('div');
  readonly #choice: InstrumentChoice;
  #bench: BenchTree;
  #page: WalkPage | undefined;
  #instrument: string | undefined;
  #taken = '';
  #timer: ReturnType<typeof setTimeout> | undefined;

  constructor(field: DeskField, bench: BenchTree) {
    this.#field = field;
    this.#bench = bench;
    const input = field.querySelector('input');
    if (input === null) throw new Error('A reading field without a field.');
    this.#input = input;
    this.#problem.id = `${input.id}-problem`;
    input.setAttribute('aria-describedby', this.#problem.id);
    this.#choice = makeInstrumentChoice(input.id, bench.references.instrumentClasses, (name) => {
      this.#instrument = name;
      this.#render();
    });
    field.append(this.#problem, this.#pad, this.#verdict, this.#said, this.#choice.element);
    input.addEventListener('input', () => this.#render());
    input.addEventListener('keydown', (event) => {
      if (event.key === 'Enter' && !event.isComposing) this.#take();
    });
    const keys = field.querySelector('[data-keys]');
    keys?.addEventListener('click', () => this.#showPad(keys.getAttribute('aria-expanded') !== 'true'));
    this.#showPad(true);
    field.classList.add('open');
  }

  update(page: WalkPage, bench: BenchTree): void {
    this.#page = page;
    this.#bench = bench;
    const { node, stage } = this.#field.place;
    const own = page.state.answers.find((one) => one.tree === undefined && one.node === node && one.stage === stage);
    const named = [own?.instrument, this.#instrument, page.state.instrument];
    this.#instrument = findInstrument(named, bench.references.instrumentClasses);
    const read = own === undefined ? undefined : isWord(own.value) ? own.readings?.[0] : own.value;
    // What the fragment holds comes into the field once; what is typed after that stays.
    if (read !== undefined && read !== this.#taken && this.#input.value.trim() === '')
      this.#input.value = this.#print(read);
    this.#taken = read ?? '';
    const target = this.#target();
    if (target !== undefined && this.#pad.childElementCount === 0)
      this.#pad.append(makeKeypad(() => this.#input, listKeys(target)));
    this.#render();
  }

  #target(): Target | undefined {
    const { node, stage } = this.#field.place;
    return targetAt(this.#bench, node, stage);
  }

  #print(text: string): string {
    const target = this.#target();
    const parsed = target === undefined ? undefined : parseReading(text, target);
    return parsed?.kind === 'reading' ? printReading(parsed.reading) : text;
  }

  #showPad(isShown: boolean): void {
    this.#pad.hidden = !isShown;
    this.#field.querySelector('[data-keys]')?.setAttribute('aria-expanded', String(isShown));
  }

  #render(): void {
    const target = this.#target();
    const page = this.#page;
    if (target === undefined || page === undefined) return;
    const text = this.#input.value;
    const entry = readEntry(text, target);
    const classes = this.#bench.references.instrumentClasses;
    this.#choice.show(this.#instrument, target, sizeOf(entry, target));
    const judged = judgeWith(entry, target, this.#instrument, classes);
    const isEmpty = text.trim() === '';
    const problem = !isEmpty && judged.kind === 'problem' ? judged.problem.message : '';
    this.#problem.textContent = problem;
    this.#input.setAttribute('aria-invalid', String(problem !== ''));
    if (isEmpty || judged.kind === 'problem' || entry.kind !== 'reading') {
      page.hold(undefined);
      markProposed(this.#field, []);
      const inUse = chooseInstrument(this.#instrument, target, classes);
      const hint = isEmpty ? describeField(target, inUse) : '';
      this.#verdict.replaceChildren(...(hint === '' ? [] : [makeElement('p', { class: 'hint' }, hint)]));
      this.#sayLater(problem === '' ? hint : problem);
      return;
    }
    const answer = this.#answerOf(entry.reading);
    page.hold({ answer, verdict: judged.verdict });
    this.#showJudgement(judged, target, page, answer, describeReading(judged, entry.reading, target));
  }

  #answerOf(reading: Reading): Answer {
    const { node, stage } = this.#field.place;
    const value = printLinkReading(reading);
    const named = this.#instrument === undefined ? {} : { instrument: this.#instrument };
    return { tree: undefined, node, stage, value, ...named };
  }

  #showJudgement(judged: Judgement, target: Target, page: WalkPage, answer: Answer, reading: string): void {
    const words = describeJudgement(judged);
    const isDecided = judged.verdict !== 'too-close';
    markProposed(this.#field, isDecided ? [judged.verdict] : judged.isEvidence ? listLikely(judged) : []);
    this.#verdict.replaceChildren(
      makeElement('p', { class: 'words' }, words),
      makeElement('p', { class: 'read' }, reading),
      drawScale(target, judged.value, judged.uncertainty, judged.verdict, `${words} ${reading}`),
      ...this.#makeWayOn(judged, page, answer),
      ...listTexts(
        'notes',
        undefined,
        judged.notes.map(({ text }) => text),
      ),
      ...(isDecided ? [] : this.#makeRemedies(judged)),
    );
    this.#sayLater([words, reading, ...judged.notes.map(({ text }) => text)].join(' '));
  }

  /** Where the verdict leads, as one press; a reading that decides nothing can be kept, and the reader stays. */
  #makeWayOn(judged: Judgement, page: WalkPage, answer: Answer): readonly HTMLElement[] {
    const { node, stage } = this.#field.place;
    const state = withAnswer(withInstrument(page, this.#instrument), answer);
    const isKept = page.state.answers.some(
      (one) =>
        one.node === node &&
        one.stage === stage &&
        one.tree === undefined &&
        one.value === answer.value &&
        one.instrument === answer.instrument,
    );
    const keep = (text: string): HTMLElement => makeButton(text, 'press take', () => page.put(state));
    if (judged.verdict === 'too-close') {
      if (!judged.isEvidence || this.#findSafe(judged) !== undefined) return [];
      if (isKept) return [makeElement('p', { class: 'kept' }, 'Kept as it is: it counts for what it says.')];
      return [keep('Keep it as it is')];
    }
    const name = printWord(judged.verdict);
    if (stage !== undefined)
      return isKept ? [makeElement('p', { class: 'kept' }, 'Taken.')] : [keep(`Take it: ${name}`)];
    const to = nextAfter(answer, state, page.map.nodes, () => judged.verdict);
    if (to === undefined) return [keep(`Take it: ${name}`)];
    const link = makeElement(
      'a',
      { class: 'press take', href: page.addressIn(to, state) },
      makeElement('span', { class: 'label' }, `Take it: ${name}`),
      makeElement('span', { class: 'detail' }, page.map.nodes.find(({ id }) => id === to)?.title ?? ''),
    );
    return [link];
  }

  #makeRemedies(judged: Judgement): readonly HTMLElement[] {
    const again = makeButton('Measure again', 'press plain', () => {
      this.#input.value = '';
      this.#render();
      this.#input.focus();
    });
    const other = makeButton('Another instrument', 'press plain', () => this.#choice.focus());
    return [
      ...listTexts(
        'settle',
        judged.isEvidence ? 'What would settle it' : 'First',
        judged.settle.map(({ text }) => text),
      ),
      makeElement('p', { class: 'moves' }, again, other),
      this.#makeAdvice(judged),
    ];
  }

  /** Where one of the answers hands over because of a danger, that is the one to take in doubt, and the reading is not just kept. */
  #makeAdvice(judged: Judgement): HTMLElement {
    const safe = this.#findSafe(judged);
    if (safe === undefined) {
      const decide = 'Or decide yourself: press the outcome below, and your reading goes along.';
      return makeElement('p', { class: 'hint' }, decide);
    }
    const label = safe.says ?? safe.when.map(printWord).join(' or ');
    const advice = `Still in doubt: press “${label}” below. It is the safe side, and your reading goes along.`;
    return makeElement('p', {}, advice);
  }

  #findSafe(judged: Judgement): Outcome | undefined {
    return findSafeAnswer(this.#bench.tree, this.#field.place.node, listLikely(judged));
  }

  #take(): void {
    this.#verdict.querySelector<HTMLElement>('.take')?.click();
  }

  #sayLater(text: string): void {
    clearTimeout(this.#timer);
    this.#timer = setTimeout(() => {
      this.#said.textContent = text;
    }, quietMilliseconds);
  }
}

function withInstrument({ state }: WalkPage, name: string | undefined): WalkPage['state'] {
  return name === undefined ? state : { ...state, instrument: name };
}

/** Bands that the reading leaves open. */
function listLikely({ probabilities }: Judgement): readonly string[] {
  return probabilities.filter(({ probability }) => probability >= 0.05).map(({ band }) => band);
}

function listTexts(className: string, heading: string | undefined, texts: readonly string[]): readonly HTMLElement[] {
  if (texts.length === 0) return [];
  const list = makeElement('ul', { class: className }, ...texts.map((text) => makeElement('li', {}, text)));
  return heading === undefined ? [list] : [makeElement('h3', {}, heading), list];
}
