import type { Prose } from '#core/model/prose.ts';

/** Prose of plain paragraphs. */
export function say(...paragraphs: readonly string[]): Prose {
  return paragraphs.map((text) => ({ kind: 'paragraph', parts: [{ kind: 'text', text }] }));
}
