/** An installed worker that may take over at once does so within this time; one that is left then waits. */
const settleMilliseconds = 200;

/**
 * Calls `offer` for the version that waits, now or later while this page is open. By hand: the library for it would be a sixth of the
 * script that a page may load.
 */
export function watchVersions(registration: ServiceWorkerRegistration, offer: () => void): void {
  if (registration.waiting !== null) offer();
  const watch = (worker: ServiceWorker | null): void =>
    worker?.addEventListener('statechange', () => {
      if (worker.state !== 'installed') return;
      setTimeout(() => {
        if (registration.waiting === worker) offer();
      }, settleMilliseconds);
    });
  watch(registration.installing);
  registration.addEventListener('updatefound', () => watch(registration.installing));
}
