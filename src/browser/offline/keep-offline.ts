import { holdsAnswers } from '#core/offline/holds-answers.ts';
import { basePath } from '../page-data.ts';
import { askWorker } from './ask-worker.ts';
import { sayStored } from './say-stored.ts';
import { watchVersions } from './watch-versions.ts';

/** Offers of new versions: fetched where there is a version already, which has them stored, and else with the first offer. */
const loadOffers = (): Promise<typeof import('./offer-version.ts')> => import('./offer-version.ts');

/**
 * Stores the site for offline use, says whether that is done, and offers new versions. The policy stands in
 * src/offline/worker.ts. Where anything is refused, the page goes on as it would without.
 */
export async function keepOffline(): Promise<void> {
  if (!('DecompressionStream' in window)) {
    sayStored('failed');
    return;
  }
  const container = navigator.serviceWorker;
  try {
    const before = await container.getRegistration(basePath());
    let hadVersion = before !== undefined && before.active !== null;
    if (hadVersion) void loadOffers().catch(ignoreMissing);
    container.addEventListener('controllerchange', () => {
      // The first worker of all finds pages of its own version.
      if (hadVersion) void loadOffers().then(({ meetNewVersion }) => meetNewVersion(), ignoreMissing);
      hadVersion = true;
    });
    container.addEventListener('message', replyAtWork);
    // Without network an older worker may be there all the same.
    const registration =
      (await container
        .register(`${basePath()}sw.js`, { scope: basePath(), updateViaCache: 'none' })
        .catch(() => undefined)) ?? (await container.getRegistration(basePath()));
    if (registration !== undefined) {
      watchVersions(registration, () => void loadOffers().then(({ offerVersion }) => offerVersion(), ignoreMissing));
    }
    const first = registration?.installing;
    if (registration === undefined || (registration.active === null && !(await isInstalled(first))))
      sayStored('failed');
    else await report((await container.ready).active);
  } catch {
    sayStored('failed');
  }
}

/** Not to be had now: the next page offers the version that waits. */
function ignoreMissing(): void {}

/** Tells a waiting worker whether somebody is at work in this window. */
function replyAtWork({ data, ports }: MessageEvent<{ readonly type?: unknown } | null>): void {
  if (data?.type === 'at-work') ports[0]?.postMessage(holdsAnswers(location.hash));
}

async function isInstalled(first: ServiceWorker | null | undefined): Promise<boolean> {
  if (first === null || first === undefined) return true;
  sayStored('not-yet');
  return new Promise((resolve) => {
    first.addEventListener('statechange', () => {
      if (first.state === 'redundant') resolve(false);
      else if (first.state === 'activated') resolve(true);
    });
  });
}

async function report(active: ServiceWorker | null): Promise<void> {
  if (active === null) return;
  const { isComplete } = await askWorker(active, { type: 'report' });
  sayStored(isComplete ? 'ready' : 'not-yet');
}
