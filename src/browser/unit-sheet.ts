import type { UnitData } from '#core/share/unit-data.ts';
import { basePath } from './page-data.ts';

export type UnitSheet = UnitData;

const fetched = new Map<string, Promise<UnitSheet | undefined>>();

/** The sheet of a unit, fetched once; undefined where it cannot be had. */
export function fetchUnitSheet(slug: string): Promise<UnitSheet | undefined> {
  const known = fetched.get(slug);
  if (known !== undefined) return known;
  const request = read(`${basePath()}data/units/${slug}.json`);
  fetched.set(slug, request);
  return request;
}

async function read(address: string): Promise<UnitSheet | undefined> {
  try {
    const answer = await fetch(address);
    // Our own build wrote it: a parsed boundary.
    return answer.ok ? ((await answer.json()) as UnitSheet) : undefined;
  } catch {
    return undefined;
  }
}
