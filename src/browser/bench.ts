import type { MainsHertz } from '#core/model/limits.ts';
import { read, write } from './kit/storage.ts';

/** What the person at this browser owns: kept once, for all jobs. */
export interface OwnBench {
  /** Slugs of instrument families; undefined where nothing was said, as where no box is ticked. */
  readonly instruments: readonly string[] | undefined;
  readonly mainsHertz: MainsHertz | undefined;
}

/** The bench kept in this browser. Hostile until read: what does not fit counts as not said. */
export function readBench(): OwnBench {
  const value = parse(read('bench'));
  if (typeof value !== 'object' || value === null) return { instruments: undefined, mainsHertz: undefined };
  const { instruments, mainsHertz } = value as { instruments?: unknown; mainsHertz?: unknown };
  return {
    // An empty list was kept by an earlier version where no box was ticked.
    instruments:
      Array.isArray(instruments) && instruments.length > 0
        ? instruments
            .filter((slug): slug is string => typeof slug === 'string' && /^[a-z0-9-]{1,40}$/.test(slug))
            .slice(0, 50)
        : undefined,
    mainsHertz: mainsHertz === 50 || mainsHertz === 60 ? mainsHertz : undefined,
  };
}

/** Keeps it; false where the browser refused, and then it lasts until the page is left. */
export function keepBench(bench: OwnBench): boolean {
  return write('bench', JSON.stringify(bench));
}

function parse(text: string | undefined): unknown {
  try {
    return text === undefined || text.length > 10_000 ? undefined : JSON.parse(text);
  } catch {
    return undefined;
  }
}
