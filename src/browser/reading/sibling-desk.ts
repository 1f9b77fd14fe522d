import { type BenchTree, targetAt } from '#core/answer/bench-tree.ts';
import { findNode } from '#core/model/node.ts';
import type { Target } from '#core/model/target.ts';
import { parseReading } from '#core/quantity/parse-reading.ts';
import { printLinkReading, printReading } from '#core/quantity/reading.ts';
import { chooseInstrument } from '#core/reading/instrument.ts';
import { compareSiblings, describeSiblings, proposeOutcomes } from '#core/reading/siblings.ts';
import { makeButton, makeElement } from '../kit/elements.ts';
import { Desk, type DeskField } from './desk.ts';

/** What equal neighbours may be compared by, where the check has no target that says it. */
const comparable = [
  { quantity: 'resistance', unit: 'Ω', title: 'ohms' },
  { quantity: 'voltage-dc', unit: 'V', title: 'volts dc' },
  { quantity: 'voltage-pp', unit: 'mVpp', title: 'millivolts peak to peak' },
  { quantity: 'time', unit: 'µs', title: 'microseconds' },
  { quantity: 'temperature', unit: '°C', title: 'degrees' },
] as const;

/** Several equal neighbours read one after another: the odd one out is named, and the outcome that says so is proposed. */
export class SiblingDesk extends Desk {
  readonly #said = makeElement('p', { class: 'words', role: 'status' });
  readonly #kept = makeElement('p', { role: 'status' });
  readonly #quantity: HTMLSelectElement;

  constructor(field: DeskField, bench: BenchTree, count: number) {
    const rows = Array.from({ length: Math.min(Math.max(2, count), 40) }, (_, index) => makeRow(index + 1));
    super(
      field,
      bench,
      rows.flatMap((row) => [...row.querySelectorAll('input')]),
      'sibling',
    );
    const found = findNode(bench.tree, field.place.node);
    this.#quantity = makeElement(
      'select',
      { id: 'sibling-unit', autocomplete: 'off' },
      ...comparable.map(({ quantity, title }) => makeElement('option', { value: quantity }, title)),
    );
    this.#quantity.value = found?.kind === 'check' && found.power !== 'off' ? 'voltage-dc' : 'resistance';
    this.#quantity.addEventListener('change', () => {
      this.point(this.inputs[0]);
      this.render();
    });
    const asked = makeElement('label', { for: 'sibling-unit' }, 'What you read');
    field.append(
      ...(targetAt(bench, field.place.node) === undefined
        ? [makeElement('p', { class: 'entry' }, asked, this.#quantity)]
        : []),
      makeElement('ol', { class: 'siblings' }, ...rows),
      this.problem,
      this.#said,
      this.pad,
      this.choice.element,
      makeButton('Save these readings', 'press plain keep', () => this.#keep()),
      this.#kept,
    );
    this.point(this.inputs[0]);
  }

  protected targetOf(): Target {
    const chosen = comparable.find(({ quantity }) => quantity === this.#quantity.value) ?? comparable[0];
    return (
      targetAt(this.bench, this.field.place.node) ?? {
        ...bareTarget,
        quantity: chosen.quantity,
        unit: chosen.unit,
        slug: chosen.quantity,
      }
    );
  }

  /** A link carries the unit with each reading, so the first of them says what was read. */
  protected fill(readings: readonly string[]): void {
    const fitting = comparable.find((one) =>
      readings.some((text) => parseReading(text, one).kind === 'reading' && text !== 'OL'),
    );
    if (fitting !== undefined) this.#quantity.value = fitting.quantity;
    for (const [index, input] of this.inputs.entries()) {
      const parsed = parseReading(readings[index] ?? '', this.targetOf());
      input.value = parsed.kind === 'reading' ? printReading(parsed.reading) : (readings[index] ?? '');
    }
  }

  protected render(): void {
    const { page } = this;
    if (page === undefined) return;
    const target = this.targetOf();
    const parsed = this.inputs.map(({ value }) => (value.trim() === '' ? undefined : parseReading(value, target)));
    const problems = parsed.map((one) => (one?.kind === 'problem' ? one.problem.message : ''));
    const wrong = problems.findIndex((text) => text !== '');
    this.problem.textContent = wrong < 0 ? '' : `${wrong + 1}: ${problems[wrong]}`;
    const given = parsed.flatMap((one, index) => (one?.kind === 'reading' ? [{ reading: one.reading, index }] : []));
    const instrument = chooseInstrument(this.instrument, target, this.bench.references.instrumentClasses);
    this.choice.show(this.instrument, target, instrument);
    const compared = compareSiblings(
      given.map(({ reading }) => reading),
      target,
      instrument,
    );
    const odd = compared.odd.map((position) => given[position]?.index ?? -1);
    const missing = this.inputs.length - given.length;
    this.#said.textContent =
      given.length < 2 ? 'Read at least two, one after another.' : describeSiblings(compared, odd, missing);
    for (const [index, input] of this.inputs.entries()) {
      input.setAttribute('aria-invalid', String(problems[index] !== ''));
      const row = input.closest('li');
      row?.classList.toggle('odd', odd.includes(index));
      row?.querySelector('.tag')?.replaceChildren(odd.includes(index) ? 'odd one out' : '');
    }
    const links = page.map.nodes.find(({ id }) => id === this.field.place.node)?.links ?? [];
    const words = links.flatMap((way) => way.words);
    this.markProposed(missing > 0 ? [] : proposeOutcomes(compared.kind, words));
    const answer = this.answerOf(given.map(({ reading }) => printLinkReading(reading)));
    page.hold(given.length === 0 ? undefined : { answer, verdict: 'too-close' });
    this.#keep = () => {
      if (given.length < 2) return;
      this.put(page, answer);
      this.#kept.textContent = 'Saved. Now press the answer that fits.';
    };
  }

  #keep: () => void = () => undefined;

  protected finish(): void {
    this.field.querySelector<HTMLElement>('.keep')?.focus();
  }
}

function makeRow(number: number): HTMLElement {
  const id = `sibling-${number}`;
  return makeElement(
    'li',
    {},
    makeElement('label', { for: id }, String(number)),
    makeElement('input', { id, type: 'text', inputmode: 'decimal', autocomplete: 'off', enterkeyhint: 'next' }),
    makeElement('span', { class: 'tag' }),
  );
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
  entered: [],
  computed: undefined,
  ownValues: [],
  prose: [],
};
