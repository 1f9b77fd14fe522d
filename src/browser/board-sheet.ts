import type { BoardData } from '#core/share/board-data.ts';
import { basePath } from './page-data.ts';

export type BoardSheet = BoardData;

const fetched = new Map<string, Promise<BoardSheet | undefined>>();

/** The sheet of a board, fetched once; undefined where it cannot be had. */
export function fetchBoardSheet(slug: string): Promise<BoardSheet | undefined> {
  const known = fetched.get(slug);
  if (known !== undefined) return known;
  const request = read(`${basePath()}data/boards/${slug}.json`);
  fetched.set(slug, request);
  return request;
}

async function read(address: string): Promise<BoardSheet | undefined> {
  try {
    const answer = await fetch(address);
    // Our own build wrote it: a parsed boundary.
    return answer.ok ? ((await answer.json()) as BoardSheet) : undefined;
  } catch {
    return undefined;
  }
}
