import { read, write } from '../kit/storage.ts';

/** What the owner says in words of their own: for posts only, never part of a link. */
export interface OwnerWords {
  readonly unit: string;
  readonly symptom: string;
  readonly question: string;
  readonly notes: string;
}

type Field = HTMLInputElement | HTMLSelectElement | HTMLTextAreaElement;

/**
 * Fills the fields with what was said before, and remembers what is typed: words in this tab, the chosen format in this browser.
 * What was typed while this was on its way counts, and is remembered.
 */
export function keepOwnerWords(panel: ParentNode): void {
  for (const field of fieldsOf(panel)) {
    if (isTouched(field)) remember(field);
    else restore(field);
    field.addEventListener('input', () => remember(field));
  }
}

/** What stands in the fields now. */
export function readOwnerWords(panel: ParentNode): OwnerWords & { readonly format: string } {
  const textIn = (name: string): string => fieldsOf(panel).find((field) => field.name === name)?.value ?? '';
  return {
    unit: textIn('unit'),
    symptom: textIn('symptom'),
    question: textIn('question'),
    notes: textIn('notes'),
    format: textIn('format'),
  };
}

function fieldsOf(panel: ParentNode): readonly Field[] {
  return [...panel.querySelectorAll<Field>('.post-words input, .post-words select, .post-words textarea')];
}

function isTouched(field: Field): boolean {
  if (field instanceof HTMLSelectElement) return field.selectedOptions[0]?.defaultSelected === false;
  return field.value !== field.defaultValue;
}

function restore(field: Field): void {
  const kept = field.name === 'format' ? read('postFormat') : read('postWords', field.name);
  const isOption = !(field instanceof HTMLSelectElement) || [...field.options].some((option) => option.value === kept);
  if (kept !== undefined && isOption) field.value = kept;
}

function remember(field: Field): void {
  if (field.name === 'format') write('postFormat', field.value);
  else write('postWords', field.value, field.name);
}
