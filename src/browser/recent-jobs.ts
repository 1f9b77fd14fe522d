import { addressOf } from '#core/link/address.ts';
import { makeElement } from './kit/elements.ts';
import { read } from './kit/storage.ts';
import { basePath } from './page-data.ts';

/** Fills the first page's section of recent jobs; it stays hidden where there are none. */
export function showRecentJobs(section: HTMLElement): void {
  const jobs = readRecentJobs();
  section.hidden = jobs.length === 0;
  section.querySelector('ul')?.replaceChildren(
    ...jobs.map(({ id, name, state }) => {
      const link = makeElement('a', { href: `${addressOf({ kind: 'log' }, basePath())}#job=${id}`, dir: 'auto' }, name);
      return makeElement('li', {}, link, ' ', makeElement('bdi', {}, state));
    }),
  );
}

export interface RecentJob {
  readonly id: string;
  readonly name: string;
  readonly state: string;
}

/** The jobs changed last, as the log keeps them for this page; hostile until read. */
export function readRecentJobs(): readonly RecentJob[] {
  try {
    const value: unknown = JSON.parse(read('recentJobs') ?? '[]');
    if (!Array.isArray(value)) return [];
    return value.slice(0, 3).flatMap((item: unknown) => {
      const { id, name, state } = Object(item) as Readonly<Record<string, unknown>>;
      const isJob = typeof id === 'string' && /^[A-Za-z0-9~._-]{1,80}$/.test(id) && typeof name === 'string';
      return isJob
        ? [{ id, name: name.slice(0, 80), state: typeof state === 'string' ? state.slice(0, 120) : '' }]
        : [];
    });
  } catch {
    return [];
  }
}
