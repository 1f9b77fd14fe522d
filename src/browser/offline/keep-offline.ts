import { messageSW, Workbox } from 'workbox-window';
import type { WorkerAnswers, WorkerQuestion } from '#core/offline/worker-message.ts';
import { basePath } from '../page-data.ts';
import { isJobOpen } from './is-job-open.ts';
import { sayStored, showOffer } from './offline-parts.ts';

const laterKey = 'halfsplit.new-version-later';

/**
 * Stores the site for offline use, says whether that is done, and offers new versions (the policy: src/offline/worker.ts).
 * @param hadVersion whether a worker answered for this page when it was loaded
 */
export async function keepOffline(hadVersion: boolean): Promise<void> {
  if (!('DecompressionStream' in window)) return sayStored('failed');
  const workbox = new Workbox(`${basePath()}sw.js`, { scope: basePath(), updateViaCache: 'none' });
  let hasAsked = false;
  workbox.addEventListener('waiting', () =>
    offerVersion(() => {
      hasAsked = true;
    }),
  );
  navigator.serviceWorker.addEventListener('controllerchange', () => {
    if (hasAsked) location.reload();
    else if (hadVersion) offerReload();
    hadVersion = true;
  });
  try {
    const registration = await workbox.register();
    if (registration?.active === null) sayStored('not-yet');
    registration?.installing?.addEventListener('statechange', ({ target }) => {
      if (target instanceof ServiceWorker && target.state === 'redundant' && registration.active === null)
        sayStored('failed');
    });
    const { active } = await navigator.serviceWorker.ready;
    const report = active === null ? undefined : await ask(active, { type: 'report' });
    sayStored(report?.isComplete === true ? 'ready' : 'not-yet');
  } catch {
    // Storage refused, or the worker could not be had: whether an older one still answers decides what is true.
    const kept = navigator.serviceWorker.controller;
    const report = kept === null ? undefined : await ask(kept, { type: 'report' });
    sayStored(report?.isComplete === true ? 'ready' : 'failed');
  }
}

function offerVersion(noteAsked: () => void, isLater = recallLater()): void {
  const takeItNow = async () => {
    const waiting = (await navigator.serviceWorker.getRegistration(basePath()))?.waiting;
    if (!waiting) return location.reload();
    noteAsked();
    const { isTaken } = await ask(waiting, { type: 'take-over' });
    if (!isTaken) {
      showOffer({
        text: 'A diagnosis is open in another window of this site. Finish or close it there, then press again.',
        buttons: [{ label: 'Use it now', press: () => void takeItNow() }],
        isInSight: false,
      });
    }
  };
  const isInSight = !isLater && !isJobOpen() && document.querySelector('.bar') === null;
  showOffer({
    text: isJobOpen()
      ? 'A new version is ready. Nothing changes until you take it; your answers stay.'
      : 'A new version is ready.',
    buttons: [
      { label: 'Use it now', press: () => void takeItNow() },
      ...(isInSight
        ? [
            {
              label: 'Later',
              press: () => {
                rememberLater();
                offerVersion(noteAsked, true);
              },
            },
          ]
        : []),
    ],
    isInSight,
  });
}

function offerReload(): void {
  showOffer({
    text: 'A new version was taken in another window. This page is still the old one: load it anew when it suits you. Its address, and the answers in it, stay.',
    buttons: [{ label: 'Load this page anew', press: () => location.reload() }],
    isInSight: !isJobOpen(),
  });
}

/** Asks the worker; both are of our own build, and the worker gives the answer of the question's name. */
function ask<T extends WorkerQuestion['type']>(
  worker: ServiceWorker,
  question: { readonly type: T },
): Promise<WorkerAnswers[T]> {
  return messageSW(worker, question);
}

function recallLater(): boolean {
  try {
    return sessionStorage.getItem(laterKey) !== null;
  } catch {
    return false;
  }
}

function rememberLater(): void {
  try {
    sessionStorage.setItem(laterKey, 'yes');
  } catch {
    // Asked again on the next page.
  }
}
