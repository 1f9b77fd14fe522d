import { holdsAnswers } from '#core/offline/holds-answers.ts';
import type { WorkerAnswers, WorkerQuestion } from '#core/offline/worker-message.ts';
import { trustScript } from '../kit/trusted.ts';
import { basePath } from '../page-data.ts';

const notYet = 'not stored yet.';
const failed = 'not stored in this browser. With the network on, everything works.';
/** An installed worker that may take over at once does so within this time; one that is left then waits. */
const settleMilliseconds = 200;

/**
 * Stores the site for offline use, says whether that is done, and offers new versions. The policy is in
 * src/offline/worker.ts. If the browser refuses anything, the page goes on as it would without.
 */
export async function keepOffline(): Promise<void> {
  try {
    sayStored('DecompressionStream' in window && (await isStored()) ? await askWhatIsStored() : failed);
  } catch {
    sayStored(failed);
  }
}

/** Registers the worker and watches it; true when a version of it is there. */
async function isStored(): Promise<boolean> {
  const container = navigator.serviceWorker;
  let hadVersion = (await container.getRegistration(basePath()))?.active != null;
  // A page of a stored version has the notices stored; without the network it could not fetch them later.
  if (hadVersion) withNotices(() => undefined);
  container.addEventListener('controllerchange', () => {
    // The first worker of all finds pages of its own version.
    if (hadVersion) withNotices(({ meetNewVersion }) => meetNewVersion());
    hadVersion = true;
  });
  container.addEventListener('message', replyAtWork);
  // Without the network, registering fails, and an older worker may be there all the same.
  const registration =
    (await container
      .register(trustScript(`${basePath()}sw.js`), { scope: basePath(), updateViaCache: 'none' })
      .catch(() => undefined)) ?? (await container.getRegistration(basePath()));
  if (registration === undefined) return false;
  watchVersions(registration);
  const { active, installing } = registration;
  if (active !== null || installing === null) return true;
  sayStored(notYet);
  // Said aloud when it is done; on every later page it is only there to be read.
  document.querySelector('[data-stored]')?.setAttribute('role', 'status');
  return new Promise((resolve) => {
    installing.addEventListener('statechange', () => {
      if (['redundant', 'activated'].includes(installing.state)) resolve(installing.state === 'activated');
    });
  });
}

async function askWhatIsStored(): Promise<string> {
  const { active } = await navigator.serviceWorker.ready;
  if (active === null) return notYet;
  const { isComplete, hasDrafting, blocks } = await askWorker(active, { type: 'report' });
  if (!isComplete) return notYet;
  if (blocks.length > 0 && document.querySelector('[data-block]') !== null) {
    void import('./choose-blocks.ts').then(({ chooseBlocks }) =>
      chooseBlocks(blocks, async (block, isWanted) => {
        return (await askWorker(active, { type: 'store-block', block, isWanted })).blocks;
      }),
    );
  }
  const ofTrees = blocks.length > 0 ? 'trees that were not opened (choose under Trees), ' : '';
  return `ready. Not stored: ${ofTrees}${hasDrafting ? '' : 'drafting, '}authors’ guide, trees on paper.`;
}

/** Says in the foot of the page what is true of offline use. */
function sayStored(state: string): void {
  document.querySelector('[data-stored]')?.replaceChildren(`Works offline: ${state}`);
}

/**
 * Offers the version that waits, now or later while this page is open. By hand: the library for it would be a sixth of the
 * script that a page may load.
 */
function watchVersions(registration: ServiceWorkerRegistration): void {
  const offer = (): void => withNotices(({ offerVersion }) => offerVersion(askWorker));
  const watch = (worker: ServiceWorker | null): void =>
    worker?.addEventListener('statechange', () => {
      if (worker.state !== 'installed') return;
      setTimeout(() => {
        if (registration.waiting === worker) offer();
      }, settleMilliseconds);
    });
  if (registration.waiting !== null) offer();
  watch(registration.installing);
  registration.addEventListener('updatefound', () => watch(registration.installing));
}

/** Asks the offline worker. It is of our own build and gives the answer of the question's name. */
function askWorker<Q extends WorkerQuestion>(worker: ServiceWorker, question: Q): Promise<WorkerAnswers[Q['type']]> {
  return new Promise((resolve) => {
    const { port1, port2 } = new MessageChannel();
    port1.onmessage = ({ data }: MessageEvent<WorkerAnswers[Q['type']]>) => resolve(data);
    worker.postMessage(question, [port2]);
  });
}

/** If the notices cannot be loaded now, the next page shows them. */
function withNotices(show: (notices: typeof import('./notices.ts')) => void): void {
  void import('./notices.ts').then(show, () => undefined);
}

/** Tells a waiting worker whether somebody is at work in this window. */
function replyAtWork({ data, ports }: MessageEvent<{ readonly type?: unknown } | null>): void {
  if (data?.type === 'at-work') ports[0]?.postMessage(holdsAnswers(location.hash));
}
