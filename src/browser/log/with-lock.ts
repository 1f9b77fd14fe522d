import { openDatabase } from './database.ts';

/**
 * Does something while no other tab does it under the same name. Where storage is refused so are locks, and no other tab could see what
 * is done: then it is simply done. Throws where `waitMilliseconds` pass before the other tab lets go.
 */
export async function withLock<Result>(
  name: string,
  act: () => Promise<Result>,
  waitMilliseconds?: number,
): Promise<Result> {
  if (!('locks' in navigator) || (await openDatabase()) === undefined) return act();
  const options = waitMilliseconds === undefined ? {} : { signal: AbortSignal.timeout(waitMilliseconds) };
  return navigator.locks.request(name, options, act);
}
