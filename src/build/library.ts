import type { Library } from '#core/model/library.ts';
import { compileContent } from '#compiler/compile-content.ts';
import { loadContent } from '#compiler/load.ts';

let kept: Library | undefined;

/** All content, compiled once per build and anew in `dev` after a save. */
export function loadLibrary(): Library {
  kept ??= compileContent(loadContent(process.cwd())).library;
  return kept;
}

/** Lets the next `loadLibrary` read content/ again. */
export function forgetLibrary(): void {
  kept = undefined;
}
