import { Workbox } from 'workbox-window';
import { holdsAnswers } from '#core/offline/holds-answers.ts';
import { basePath } from '../page-data.ts';
import { askWorker } from './ask-worker.ts';
import { meetNewVersion, offerVersion } from './offer-version.ts';
import { sayStored } from './offline-parts.ts';

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
    container.addEventListener('controllerchange', () => {
      // The first worker of all finds pages of its own version.
      if (hadVersion) meetNewVersion();
      hadVersion = true;
    });
    container.addEventListener('message', replyAtWork);
    const workbox = new Workbox(`${basePath()}sw.js`, { scope: basePath(), updateViaCache: 'none' });
    workbox.addEventListener('waiting', offerVersion);
    // Without network an older worker may be there all the same.
    const registration =
      (await workbox.register().catch(() => undefined)) ?? (await container.getRegistration(basePath()));
    const first = registration?.installing;
    if (registration === undefined || (registration.active === null && !(await isInstalled(first))))
      sayStored('failed');
    else await report((await container.ready).active);
  } catch {
    sayStored('failed');
  }
}

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
