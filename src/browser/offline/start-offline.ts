import type { Missing } from '#core/offline/worker-message.ts';

// The little that every page loads: storing for offline use begins when the page has loaded and is drawn.
// Not under `astro dev`, which has no worker and would be hidden behind an old one.
if (import.meta.env.PROD && 'serviceWorker' in navigator) {
  navigator.serviceWorker.addEventListener(
    'message',
    ({ data }: MessageEvent<Missing | { readonly type?: never } | null>) => {
      if (data?.type === 'missing') void import('./notices.ts').then(({ showMissing }) => showMissing(data.isPage));
    },
  );
  const begin = (): void => {
    setTimeout(() => void import('./keep-offline.ts').then(({ keepOffline }) => keepOffline()), 500);
  };
  // Beside a script that waits for its data this one may come after the page has loaded.
  if (document.readyState === 'complete') begin();
  else window.addEventListener('load', begin);
}
