import type { UnitData } from '#core/model/limits.ts';
import { fetchOnce } from './kit/fetch-once.ts';
import { basePath } from './page-data.ts';

export type UnitSheet = UnitData;

/** The sheet of a unit; undefined where it cannot be fetched. Our own build wrote it: a parsed boundary. */
export function fetchUnitSheet(slug: string): Promise<UnitSheet | undefined> {
  return fetchOnce(`${basePath()}data/units/${slug}.json`, (value) => value as UnitSheet);
}
