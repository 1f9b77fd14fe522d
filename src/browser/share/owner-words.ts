/** What the owner says in words of their own: for posts only, never part of a link. */
export interface OwnerWords {
  readonly unit: string;
  readonly symptom: string;
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
  return { unit: textIn('unit'), symptom: textIn('symptom'), notes: textIn('notes'), format: textIn('format') };
}

function fieldsOf(panel: ParentNode): readonly Field[] {
  return [...panel.querySelectorAll<Field>('.post-words input, .post-words select, .post-words textarea')];
}

function isTouched(field: Field): boolean {
  if (field instanceof HTMLSelectElement) return field.selectedOptions[0]?.defaultSelected === false;
  return field.value !== field.defaultValue;
}

function restore(field: Field): void {
  try {
    const kept = placeFor(field).getItem(keyOf(field));
    const isOption =
      !(field instanceof HTMLSelectElement) || [...field.options].some((option) => option.value === kept);
    if (kept !== null && isOption) field.value = kept;
  } catch {
    // Storage is refused: the field stays empty.
  }
}

function remember(field: Field): void {
  try {
    placeFor(field).setItem(keyOf(field), field.value);
  } catch {
    // The field itself still holds it until the page is left.
  }
}

function placeFor(field: Field): Storage {
  return field.name === 'format' ? localStorage : sessionStorage;
}

function keyOf({ name }: Field): string {
  return `halfsplit.post.${name}`;
}
