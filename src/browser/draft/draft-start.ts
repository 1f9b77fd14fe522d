import { makeTreeTemplate } from '#compiler/tree-template.ts';
import { draftFromRepair, readRepairSeed, untitled } from '#core/post/draft.ts';
import { read, write } from '../kit/storage.ts';
import { basePath } from '../page-data.ts';
import { keepDraft, type KeptDraft, previousDrafts, recallDraft, setAside } from './kept-drafts.ts';

/** A new tree: the template of `npm run new`, every gap marked. */
export const newTree: string = makeTreeTemplate({ block: 'power', slug: untitled, title: 'A title of a few words' });

/** What the page opens with, and what has to be said about it. */
export interface DraftStart {
  readonly draft: KeptDraft;
  readonly notice: string;
}

/**
 * A repair that another page handed over, else the draft that was open last, else a new tree. A draft that gives way to a
 * repair is set aside first.
 */
export function chooseStart(): DraftStart {
  const kept = recallDraft();
  const other = kept ?? { name: untitled, text: newTree };
  const seed = takeSeed();
  if (seed === undefined) return { draft: other, notice: '' };
  const repair = readRepairSeed(seed);
  if (repair === undefined) {
    return { draft: other, notice: 'The finished repair could not be read. Your draft is as you left it.' };
  }
  if (kept !== undefined && kept.text !== newTree) setAside(kept);
  const draft = { name: untitled, text: draftFromRepair(repair) };
  keepDraft(draft);
  return { draft, notice: 'Begun from the finished repair. What only you can know is marked “Replace this:”.' };
}

/** The text behind a choice of “Start from”: `new`, `tree/<slug>` or `previous/<number>`. Undefined where it cannot be had. */
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

/** Taken once: a page that is opened again goes on with the draft. */
function takeSeed(): string | undefined {
  const text = read('draftSeed');
  write('draftSeed', undefined);
  return text;
}
