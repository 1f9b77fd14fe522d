import type { Library } from '#core/model/library.ts';
import { type CompiledContent, compileContent, type ContentFile } from '#compiler/compile-content.ts';
import { loadContent } from '#compiler/load.ts';

interface ReadContent extends CompiledContent {
  readonly files: readonly ContentFile[];
}

let kept: ReadContent | undefined;

/** All content under `root`, compiled once per build; `forgetContent` lets the next call read it again. */
export function readContent(root: string = process.cwd()): ReadContent {
  if (kept === undefined) {
    const files = loadContent(root);
    kept = { files, ...compileContent(files) };
  }
  return kept;
}

export function forgetContent(): void {
  kept = undefined;
}

/** The compiled library that every page reads. */
export function loadLibrary(): Library {
  return readContent().library;
}
