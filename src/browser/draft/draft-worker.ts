import { type DraftCompiler, openDraftCompiler } from '#compiler/compile-draft.ts';
import type { DraftLibrary } from '#compiler/draft-library.ts';
import type { Problem } from '#compiler/problem.ts';
import type { TreeWorth } from '#core/diagnosis/tree/measure-worth.ts';
import { measureByLetters } from '#core/figure/label.ts';
import type { FaultTree } from '#core/model/fault-tree.ts';

/** What the drafting page fetches once: the library that drafts are judged against, and the graph's font in numbers. */
export interface DraftData {
  readonly library: DraftLibrary;
  /** Width of each letter of the sheet's font, in em. */
  readonly letterWidths: Readonly<Record<string, number>>;
}

export type DraftQuestion =
  | { readonly kind: 'check'; readonly text: string; readonly file: string }
  | { readonly kind: 'draw'; readonly tree: FaultTree }
  | { readonly kind: 'weigh'; readonly tree: FaultTree };

/** What the page sends: the library, then one question after another, each when the one before was answered. */
export type DraftRequest = { readonly kind: 'open'; readonly data: DraftData } | { readonly question: DraftQuestion };

/** A draft after reading, as it crosses to the page. */
export interface ReadDraft {
  readonly tree: FaultTree | undefined;
  readonly problems: readonly Problem[];
  readonly lineOfNode: ReadonlyMap<string, number>;
}

export type DraftAnswer =
  | { readonly kind: 'checked'; readonly draft: ReadDraft }
  | { readonly kind: 'drawn'; readonly drawing: string }
  | { readonly kind: 'weighed'; readonly worth: TreeWorth };

/** `done` replies to the library. */
export type DraftReply = DraftAnswer | { readonly kind: 'done' | 'failed' };

let compiler: DraftCompiler | undefined;
let measure = measureByLetters({});

// Whatever is pasted is read here, beside the page, which ends this worker when it takes too long.
addEventListener('message', async ({ data }: MessageEvent<DraftRequest>) => {
  postMessage(await reply(data).catch(() => ({ kind: 'failed' }) satisfies DraftReply));
});

async function reply(request: DraftRequest): Promise<DraftReply> {
  if ('kind' in request) {
    compiler = openDraftCompiler(request.data.library);
    measure = measureByLetters(request.data.letterWidths);
    return { kind: 'done' };
  }
  const { question } = request;
  if (question.kind === 'draw') {
    const { drawTree } = await import('#core/figure/lay-out.ts');
    const drawing = drawTree(question.tree, measure, { idPrefix: 'draft', findAddress: () => undefined });
    return { kind: 'drawn', drawing };
  }
  if (compiler === undefined) return { kind: 'failed' };
  if (question.kind === 'check') return { kind: 'checked', draft: compiler.compile(question.text, question.file) };
  const { measureWorth } = await import('#core/diagnosis/tree/measure-worth.ts');
  return { kind: 'weighed', worth: measureWorth(question.tree, compiler.references) };
}
