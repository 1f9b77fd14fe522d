import type { FaultTree } from '#core/model/fault-tree.ts';
import { openWalkData, type WalkData } from '#core/share/walk-data.ts';
import { basePath } from '../page-data.ts';

const fetched = new Map<string, Promise<FaultTree | undefined>>();

/** A tree by its slug, fetched once; undefined where it cannot be had, as offline or under a name that is gone. */
export function loadTree(slug: string): Promise<FaultTree | undefined> {
  const known = fetched.get(slug);
  if (known !== undefined) return known;
  const request = read(slug);
  fetched.set(slug, request);
  return request;
}

async function read(slug: string): Promise<FaultTree | undefined> {
  try {
    const answer = await fetch(`${basePath()}data/walks/${encodeURIComponent(slug)}.json`);
    // Written by our own build: a parsed boundary.
    return answer.ok ? openWalkData((await answer.json()) as WalkData).tree : undefined;
  } catch {
    return undefined;
  }
}
