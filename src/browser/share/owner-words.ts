/** What the owner says in words of their own: for posts only, never part of a link. Kept in this tab. */
export interface OwnerWords {
  readonly unit: string;
  readonly symptom: string;
  readonly notes: string;
}

const key = 'halfsplit.words';
const formatKey = 'halfsplit.post-format';

/** Fills the fields with what this tab remembers, and remembers what is typed; the chosen format in this browser. */
export function keepOwnerWords(panel: ParentNode): void {
  for (const field of fieldsOf(panel)) {
    const isFormat = field.name === 'format';
    const kept = recall(isFormat ? 'localStorage' : 'sessionStorage', isFormat ? formatKey : `${key}.${field.name}`);
    if (kept !== null && (!isFormat || hasOption(field, kept))) field.value = kept;
    field.addEventListener('change', () => {
      remember(
        isFormat ? 'localStorage' : 'sessionStorage',
        isFormat ? formatKey : `${key}.${field.name}`,
        field.value,
      );
    });
  }
}

/** What stands in the fields now. */
export function readOwnerWords(panel: ParentNode): OwnerWords & { readonly format: string } {
  const textIn = (name: string): string => fieldsOf(panel).find((field) => field.name === name)?.value ?? '';
  return { unit: textIn('unit'), symptom: textIn('symptom'), notes: textIn('notes'), format: textIn('format') };
}

function fieldsOf(panel: ParentNode): readonly (HTMLInputElement | HTMLSelectElement | HTMLTextAreaElement)[] {
  return [
    ...panel.querySelectorAll<HTMLInputElement | HTMLSelectElement | HTMLTextAreaElement>(
      '.words input, .words select, .words textarea',
    ),
  ];
}

function hasOption(field: HTMLElement, value: string): boolean {
  return field instanceof HTMLSelectElement && [...field.options].some((option) => option.value === value);
}

function recall(place: 'localStorage' | 'sessionStorage', name: string): string | null {
  try {
    return window[place].getItem(name);
  } catch {
    return null;
  }
}

function remember(place: 'localStorage' | 'sessionStorage', name: string, value: string): void {
  try {
    window[place].setItem(name, value);
  } catch {
    // The field itself still holds it until the page is left.
  }
}
