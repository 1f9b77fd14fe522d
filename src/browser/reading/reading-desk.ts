import { type Answer, readingsIn } from '#core/answer/answer.ts';
import { type BenchTree, targetAt, targetOn } from '#core/answer/bench-tree.ts';
import { findSafeAnswer } from '#core/answer/judge-answer.ts';
import { nextAfter } from '#core/answer/lead.ts';
import type { Outcome } from '#core/model/fault-tree.ts';
import type { Target } from '#core/model/target.ts';
import { printWord } from '#core/model/target-text.ts';
import { printLinkReading, printReading } from '#core/quantity/reading.ts';
import { judgeInstrument } from '#core/reading/advice.ts';
import { fieldsOf, measuredFields, sayFormula } from '#core/reading/formula.ts';
import {
  describeJudgement,
  describeReading,
  instrumentFor,
  judgeWith,
  readEntry,
} from '#core/reading/judge-reading.ts';
import type { Judgement } from '#core/reading/judgement.ts';
import { findImplausible } from '#core/reading/plausible.ts';
import { makeButton, makeElement } from '../kit/elements.ts';
import { noteEvents } from '../recorder/notes.ts';
import type { WalkPage } from '../walk/walk-page.ts';
import { Desk, type DeskField } from './desk.ts';
import { drawScale } from './draw-scale.ts';

/** Milliseconds without a key before the verdict is read out: not every figure on the way is a reading. */
const quietMilliseconds = 400;
const saidMilliseconds = 5000;

/** Readings judged against a target: live verdict with its scale, and the ways on. Several fields where the target is computed. */
export class ReadingDesk extends Desk {
  readonly #verdict = makeElement('div', { class: 'verdict' });
  readonly #said = makeElement('p', { class: 'only-heard', role: 'status' });
  /** What was typed when the person said that the display does show it. */
  #sure = '';
  #timer: ReturnType<typeof setTimeout> | undefined;

  constructor(field: DeskField, bench: BenchTree) {
    const inputs = [...field.querySelectorAll('input')];
    super(field, bench, inputs, inputs[0]?.id ?? 'reading');
    field.append(this.problem, this.pad, this.#verdict, this.#said, this.choice.element);
  }

  get #target(): Target | undefined {
    const { node, stage } = this.field.place;
    const proved = this.field.dataset['proves'];
    return proved === undefined ? targetAt(this.bench, node, stage) : targetOn(proved, this.bench);
  }

  protected targetOf(input: HTMLInputElement): Target | undefined {
    const target = this.#target;
    return target && fieldsOf(target)[this.inputs.indexOf(input)];
  }

  protected fill(readings: readonly string[]): void {
    const target = this.#target;
    const entry = target && readEntry(readings, target);
    if (entry?.kind !== 'readings' || entry.readings.length < readings.length) return;
    for (const [index, reading] of entry.readings.entries()) {
      const input = this.inputs[index];
      const isLeftOut = target?.entered[index]?.isOptional === true && reading.kind === 'number' && reading.value === 0;
      if (input !== undefined && !isLeftOut) input.value = printReading(reading);
    }
    this.#sure = this.#typed.join();
  }

  get #typed(): readonly string[] {
    return this.inputs.map(({ value }) => value.trim());
  }

  protected render(): void {
    const target = this.#target;
    const { page } = this;
    if (target === undefined || page === undefined) return;
    const texts = this.#typed;
    const entry = readEntry(texts, target);
    const classes = this.bench.references.instrumentClasses;
    const instrument = instrumentFor(entry, target, this.instrument, classes);
    this.choice.show(this.instrument, measuredFields(target)[0] ?? target, instrument);
    const judged = judgeWith(entry, target, this.instrument, classes);
    const isOpen = texts.every((text) => text === '') || (entry.kind === 'problem' && texts[entry.at] === '');
    const problem = !isOpen && judged.kind === 'problem' ? judged.problem.message : '';
    this.problem.textContent = problem;
    const wrong = entry.kind === 'problem' ? entry.at : 0;
    for (const [index, input] of this.inputs.entries())
      input.setAttribute('aria-invalid', String(problem !== '' && index === wrong));
    if (judged.kind === 'problem' || entry.kind !== 'readings') {
      this.#showNothing(page, problem, isOpen ? this.#sayField(target, texts, instrument) : '');
      return;
    }
    const slip = findImplausible(entry.readings, target, page.unit?.supplyVolts);
    if (slip !== undefined && this.#sure !== texts.join()) {
      this.#ask(page, slip, texts);
      return;
    }
    const answer = this.answerOf(entry.readings.map(printLinkReading));
    if (!this.#isProof) page.hold({ answer, verdict: judged.verdict });
    this.#showJudgement(judged, target, page, answer, describeReading(judged, entry, target));
  }

  #showNothing(page: WalkPage, problem: string, hint: string): void {
    page.hold(undefined);
    this.markProposed([]);
    this.#verdict.replaceChildren(...(hint === '' ? [] : [makeElement('p', { class: 'hint' }, hint)]));
    this.#sayLater(problem === '' ? hint : problem);
  }

  /** Before everything is typed: whether the instrument can judge this target at all, and how the result is computed. */
  #sayField(
    target: Target,
    texts: readonly string[],
    instrument: Parameters<typeof judgeInstrument>[1] | undefined,
  ): string {
    const suitability = instrument === undefined ? '' : judgeInstrument(target, instrument).text;
    if (target.computed === undefined)
      return suitability === '' ? 'Type what the display shows, every digit of it.' : suitability;
    const missing = target.entered.find(({ isOptional }, index) => !isOptional && (texts[index] ?? '') === '');
    const wanted = missing === undefined ? '' : `Next: ${missing.name}. `;
    return `${wanted}This page computes ${sayFormula(target.computed, target.entered)}. ${suitability}`.trim();
  }

  /** Such a reading can hardly be: the range switch and the prefix are looked at before it is taken. */
  #ask(page: WalkPage, slip: string, texts: readonly string[]): void {
    page.hold(undefined);
    this.markProposed([]);
    const look = 'Look at the range switch and at the prefix on the display, then at what you typed.';
    this.#verdict.replaceChildren(
      makeElement('p', { class: 'words' }, 'Can that be?'),
      makeElement('p', { class: 'read' }, `${slip} ${look}`),
      makeElement(
        'p',
        { class: 'moves' },
        this.#makeAgain('Type it again'),
        makeButton('The display does show it', 'press plain sure', () => {
          this.#sure = texts.join();
          this.render();
        }),
      ),
    );
    this.#sayLater(`Can that be? ${slip} ${look}`);
  }

  #makeAgain(text: string): HTMLElement {
    return makeButton(text, 'press plain', () => {
      for (const input of this.inputs) input.value = '';
      this.render();
      this.inputs[0]?.focus();
    });
  }

  #showJudgement(judged: Judgement, target: Target, page: WalkPage, answer: Answer, reading: string): void {
    const words = describeJudgement(judged);
    const isDecided = judged.verdict !== 'too-close';
    const settling = judged.settle.map(({ text }) => text);
    const notes = judged.notes.map(({ text }) => text).filter((text) => !settling.includes(text));
    this.markProposed(isDecided ? [judged.verdict] : judged.isEvidence ? listLikely(judged) : []);
    this.#verdict.replaceChildren(
      makeElement('p', { class: 'words' }, words),
      makeElement('p', { class: 'read' }, reading),
      drawScale(target, judged.value, judged.uncertainty, judged.verdict),
      ...(this.#isProof ? this.#makeProof(page, target, `${words} ${reading}`) : this.#makeWayOn(judged, page, answer)),
      ...listTexts('notes', undefined, notes),
      ...(isDecided ? [] : this.#makeRemedies(judged, settling)),
    );
    this.#sayLater([words, reading, ...notes].join(' '));
  }

  get #isProof(): boolean {
    return this.field.dataset['proves'] !== undefined;
  }

  /** At a cause nothing leads on: what was read goes into the job as a note. */
  #makeProof(page: WalkPage, target: Target, said: string): readonly HTMLElement[] {
    const result = makeElement('p', { class: 'kept', role: 'status' });
    const part = this.field.dataset['part'] === 'prove' ? 'Proof' : 'Before the repair';
    const save = makeButton('Save the reading', 'press take', () => {
      noteEvents(page.map, page.state, [{ kind: 'note', text: `${part}, ${target.title}: ${said}` }]);
      save.disabled = true;
      import('../recorder/drain-notes.ts')
        .then(({ drainNotes }) => drainNotes())
        .then(() => {
          window.dispatchEvent(new Event('job-touched'));
          result.textContent = 'Saved in the log.';
        })
        .catch(() => {
          result.textContent = 'It could not be saved in the log now; the next page tries again.';
        });
    });
    return [save, result];
  }

  /** Where the verdict leads, as one press; a reading that decides nothing can be kept, and the reader stays. */
  #makeWayOn(judged: Judgement, page: WalkPage, answer: Answer): readonly HTMLElement[] {
    const { node, stage } = this.field.place;
    const isKept = page.state.answers.some(
      (one) =>
        one.node === node &&
        one.stage === stage &&
        one.tree === undefined &&
        one.value === answer.value &&
        readingsIn(one).join() === readingsIn(answer).join() &&
        one.instrument === answer.instrument,
    );
    const keep = (text: string): HTMLElement => makeButton(text, 'press take', () => this.put(page, answer));
    const kept = (text: string): HTMLElement => makeElement('p', { class: 'kept' }, text);
    if (judged.verdict === 'too-close') {
      if (!judged.isEvidence || this.#findSafe(judged) !== undefined) return [];
      return [
        isKept
          ? kept('Saved as too close to call. It still counts for what it shows.')
          : keep('Save as too close to call'),
      ];
    }
    const take = `Use this reading: ${printWord(judged.verdict).toLowerCase()}`;
    if (stage !== undefined) return [isKept ? kept('Saved.') : keep(take)];
    const state = this.stateWith(page, answer);
    const to = nextAfter(answer, state, page.map.nodes, () => judged.verdict);
    if (to === undefined) return [keep(take)];
    return [
      makeElement(
        'a',
        { class: 'press take', href: page.addressIn(to, state), 'data-to': to },
        makeElement('span', { class: 'label' }, take),
      ),
    ];
  }

  /** Where one of the answers hands over because of a danger, that is the one to take in doubt, and the reading is not just kept. */
  #makeRemedies(judged: Judgement, settling: readonly string[]): readonly HTMLElement[] {
    const safe = this.#findSafe(judged);
    const label = safe === undefined ? '' : (safe.says ?? safe.when.map(printWord).join(' or '));
    return [
      ...listTexts('settle', judged.isEvidence ? 'What would settle it' : 'First', settling),
      makeElement(
        'p',
        { class: 'moves' },
        this.#makeAgain('Measure again'),
        makeButton('Another instrument', 'press plain', () => this.choice.focus()),
      ),
      ...(this.#isProof
        ? []
        : [
            safe === undefined
              ? makeElement('p', { class: 'hint' }, 'Or choose an answer below; your reading is saved with it.')
              : makeElement(
                  'p',
                  {},
                  `If you are still in doubt, press “${label}” below: it is the safe choice, and your reading is saved with it.`,
                ),
          ]),
    ];
  }

  #findSafe(judged: Judgement): Outcome | undefined {
    return findSafeAnswer(this.bench.tree, this.field.place.node, listLikely(judged));
  }

  protected finish(): void {
    this.#verdict.querySelector<HTMLElement>('.take')?.click();
  }

  #sayLater(text: string): void {
    clearTimeout(this.#timer);
    this.#timer = setTimeout(() => {
      this.#said.textContent = text;
      // Read out once: a screen reader that goes on down the page finds it only where it is seen.
      this.#timer = setTimeout(() => this.#said.replaceChildren(), saidMilliseconds);
    }, quietMilliseconds);
  }
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
