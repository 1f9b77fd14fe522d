import { type DraftCompiler, openDraftCompiler } from '#compiler/compile-draft.ts';
import type { Problem } from '#compiler/problem.ts';
import type { TreeWorth } from '#core/diagnosis/tree/measure-worth.ts';
import { measureByLetters } from '#core/figure/label.ts';
import type { FaultTree } from '#core/model/fault-tree.ts';
import type { DraftData } from './draft-data.ts';

/** What the page asks of the worker. */
export type DraftQuestion =
  | { readonly kind: 'check'; readonly text: string; readonly file: string }
  | { readonly kind: 'draw'; readonly tree: FaultTree }
  | { readonly kind: 'weigh'; readonly tree: FaultTree };

export type DraftRequest =
  { readonly kind: 'open'; readonly data: DraftData } | { readonly number: number; readonly question: DraftQuestion };

/** A draft after reading, as it crosses to the page. */
export interface ReadDraft {
  readonly tree: FaultTree | undefined;
  readonly problems: readonly Problem[];
  readonly lineOfNode: ReadonlyMap<string, number>;
}

/** `done` answers `open`; the rest carry their question's number. */
export type DraftReply =
  | { readonly kind: 'done' }
  | { readonly kind: 'failed'; readonly number: number }
  | { readonly kind: 'checked'; readonly number: number; readonly draft: ReadDraft }
  | { readonly kind: 'drawn'; readonly number: number; readonly drawing: string }
  | { readonly kind: 'weighed'; readonly number: number; readonly worth: TreeWorth };

let compiler: DraftCompiler | undefined;
let measure = measureByLetters({});

// Whatever is pasted is read here, beside the page, which ends this worker when it takes too long.
addEventListener('message', async ({ data }: MessageEvent<DraftRequest>) => {
  if ('kind' in data) {
    compiler = openDraftCompiler(data.data.library);
    measure = measureByLetters(data.data.letterWidths);
    postMessage({ kind: 'done' } satisfies DraftReply);
    return;
  }
  const { number, question } = data;
  try {
    postMessage(await answer(number, question));
  } catch {
    postMessage({ kind: 'failed', number } satisfies DraftReply);
  }
});

async function answer(number: number, question: DraftQuestion): Promise<DraftReply> {
  if (question.kind === 'draw') {
    const { drawTree } = await import('#core/figure/lay-out.ts');
    const drawing = drawTree(question.tree, measure, { idPrefix: 'draft', findAddress: () => undefined });
    return { kind: 'drawn', number, drawing };
  }
  if (compiler === undefined) return { kind: 'failed', number };
  if (question.kind === 'check') {
    return { kind: 'checked', number, draft: compiler.compile(question.text, question.file) };
  }
  const { measureWorth } = await import('#core/diagnosis/tree/measure-worth.ts');
  return { kind: 'weighed', number, worth: measureWorth(question.tree, compiler.references) };
}
