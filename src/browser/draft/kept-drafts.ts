import { makeTreeTemplate } from '#compiler/tree-template.ts';
import { draftFromRepair, readRepairSeed, untitled } from '#core/post/draft.ts';
import { read, write } from '../kit/storage.ts';
import { basePath } from '../page-data.ts';

/** A draft as it is kept in this browser: the name of its file without the ending, and its text. */
export interface KeptDraft {
  readonly name: string;
  readonly text: string;
}

const today = new Date().toISOString().slice(0, 10);

/** A new tree: the template of `npm run new`, every gap marked. */
export const newTree: string = makeTreeTemplate({
  block: 'power',
  slug: untitled,
  title: 'A title of a few words',
  since: today,
});

const mostPrevious = 5;

/**
 * What the page opens with, and what it says about it: a repair that another page handed over, else the draft that was
 * open last, else a new tree. A draft that gives way to a repair is set aside first. The repair is taken once: a page that
 * is opened again goes on with the draft.
 */
export function chooseStart(): { readonly draft: KeptDraft; readonly notice: string } {
  const name = read('draftOpen') ?? untitled;
  const text = read('draft', name);
  const other = text === undefined ? { name: untitled, text: newTree } : { name, text };
  const seed = read('draftSeed');
  write('draftSeed', undefined);
  if (seed === undefined) return { draft: other, notice: '' };
  const repair = readRepairSeed(seed);
  if (repair === undefined) {
    return { draft: other, notice: 'The finished repair could not be read. Your draft has not changed.' };
  }
  if (other.text !== newTree) setAside(other);
  const draft = { name: untitled, text: draftFromRepair(repair, today) };
  keepDraft(draft);
  return { draft, notice: 'Started from the finished repair. Fill in each line marked “Replace this:”.' };
}

/** The text behind a choice of “Start from”: `new`, `tree/<slug>` or `previous/<number>`. Undefined if there is none. */
export async function findStart(choice: string): Promise<KeptDraft | undefined> {
  const [kind = '', name = ''] = choice.split('/');
  if (kind === 'previous') return previousDrafts()[Number(name)];
  if (kind !== 'tree') return { name: untitled, text: newTree };
  try {
    const response = await fetch(`${basePath()}data/source/${name}.mdx`);
    return response.ok ? { name, text: await response.text() } : undefined;
  } catch {
    return undefined;
  }
}

/** Keeps a draft as the open one. False if the browser refuses: its storage is off or full. */
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

/** Sets a draft aside before another replaces it, dropping old ones if there is no room. False if it could not be kept. */
export function setAside(draft: KeptDraft): boolean {
  const others = previousDrafts().filter(({ text }) => text !== draft.text);
  for (let most = mostPrevious - 1; most >= 0; most -= 1) {
    if (write('draftPrevious', JSON.stringify([draft, ...others.slice(0, most)]))) return true;
  }
  return false;
}

function isDraft(value: unknown): value is KeptDraft {
  const { name, text } = Object(value) as Readonly<Record<string, unknown>>;
  return typeof name === 'string' && typeof text === 'string';
}
