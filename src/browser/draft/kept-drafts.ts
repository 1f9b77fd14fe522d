import { read, write } from '../kit/storage.ts';

/** A draft as it is kept in this browser: the name of its file without the ending, and its text. */
export interface KeptDraft {
  readonly name: string;
  readonly text: string;
}

const mostPrevious = 5;

/** The draft that was open last, or undefined where there is none or storage is refused. */
export function recallDraft(): KeptDraft | undefined {
  const name = read('draftOpen');
  const text = name === undefined ? undefined : read('draft', name);
  return name === undefined || text === undefined ? undefined : { name, text };
}

/** Keeps a draft as the open one. False where the browser refuses: its storage is off or full. */
export function keepDraft({ name, text }: KeptDraft): boolean {
  return write('draft', text, name) && write('draftOpen', name);
}

/** Drops what is kept under a name that the draft no longer has. */
export function forgetDraft(name: string): void {
  write('draft', undefined, name);
}

/** Drafts that were replaced, the newest first, at most five. */
export function previousDrafts(): readonly KeptDraft[] {
  try {
    const value: unknown = JSON.parse(read('draftPrevious') ?? '[]');
    return Array.isArray(value) ? value.filter(isDraft).slice(0, mostPrevious) : [];
  } catch {
    return [];
  }
}

/** Sets a draft aside before another takes its place. False where it could not be kept. */
export function setAside(draft: KeptDraft): boolean {
  const others = previousDrafts().filter(({ text }) => text !== draft.text);
  for (let most = mostPrevious - 1; most >= 0; most -= 1) {
    if (write('draftPrevious', JSON.stringify([draft, ...others.slice(0, most)]))) return true;
  }
  return false;
}

function isDraft(value: unknown): value is KeptDraft {
  return (
    typeof value === 'object' &&
    value !== null &&
    'name' in value &&
    typeof value.name === 'string' &&
    'text' in value &&
    typeof value.text === 'string'
  );
}
