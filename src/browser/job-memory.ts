import type { MainsExposure } from '#core/model/library.ts';
import { read, write } from './kit/storage.ts';

// What is remembered while one unit is on the bench, in this tab only.

/** Marks of the cautions read, as caution-gate.ts writes them. */
export function cautionsRead(): ReadonlySet<string> {
  return new Set((read('cautionsRead') ?? '').split(' ').filter((slug) => slug !== ''));
}

export function rememberCautionRead(mark: string): void {
  write('cautionsRead', [...cautionsRead(), mark].join(' '));
}

export function mainsExposure(): MainsExposure {
  const kept = read('mains');
  return kept === 'outside' || kept === 'inside-covered' || kept === 'inside-bare' ? kept : 'unknown';
}

/** Remembers it in this tab; `<job-recorder>` hears of it and writes it into the open job. */
export function rememberMainsExposure(exposure: MainsExposure): void {
  write('mains', exposure);
  window.dispatchEvent(new Event('job-mains'));
}
