// The little that every page loads: storing for offline use begins when the page has loaded and the browser is idle.
// Not under `astro dev`, which has no worker and would be hidden behind an old one.
if (import.meta.env.PROD && 'serviceWorker' in navigator) {
  navigator.serviceWorker.addEventListener('message', ({ data }: MessageEvent<{ readonly type?: unknown } | null>) => {
    if (data?.type !== 'missing-part') return;
    void import('./offline-parts.ts').then(({ showMissingPart }) => showMissingPart());
  });
  const start = () => void import('./keep-offline.ts').then(({ keepOffline }) => keepOffline());
  window.addEventListener('load', () => {
    if ('requestIdleCallback' in window) requestIdleCallback(start, { timeout: 2000 });
    else setTimeout(start, 200);
  });
}
