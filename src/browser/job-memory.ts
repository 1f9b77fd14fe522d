import type { MainsExposure } from '#core/model/library.ts';

/**
 * What is remembered while one unit is on the bench, in this tab only:
 * which stop cautions were read, and where the unit's mains is.
 * Where the browser refuses storage, it is remembered until the page is left.
 */
const fallback = new Map<string, string>();

const readKey = 'halfsplit.cautions-read';
const mainsKey = 'halfsplit.mains';

/** Marks of the cautions read, as caution-gate.ts writes them. */
export function cautionsRead(): ReadonlySet<string> {
  return new Set((recall(readKey) ?? '').split(' ').filter((slug) => slug !== ''));
}

export function rememberCautionRead(mark: string): void {
  remember(readKey, [...cautionsRead(), mark].join(' '));
}

export function mainsExposure(): MainsExposure {
  const kept = recall(mainsKey);
  return kept === 'outside' || kept === 'inside-covered' || kept === 'inside-bare' ? kept : 'unknown';
}

/** Remembers it in this tab; `<job-recorder>` hears of it and writes it into the open job. */
export function rememberMainsExposure(exposure: MainsExposure): void {
  remember(mainsKey, exposure);
  window.dispatchEvent(new Event('job-mains'));
}

function recall(key: string): string | undefined {
  try {
    return sessionStorage.getItem(key) ?? undefined;
  } catch {
    return fallback.get(key);
  }
}

function remember(key: string, value: string): void {
  fallback.set(key, value);
  try {
    sessionStorage.setItem(key, value);
  } catch {
    // Kept in `fallback`.
  }
}
