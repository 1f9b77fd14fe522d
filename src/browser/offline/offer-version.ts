import { holdsAnswers } from '#core/offline/holds-answers.ts';
import { read, write } from '../kit/storage.ts';
import { basePath } from '../page-data.ts';
import { askWorker } from './ask-worker.ts';
import { showOffer } from './offline-parts.ts';

/** Whether “Use it now” was pressed here and the new version is on its way: then this page loads itself anew. */
let isTaking = false;

/**
 * Offers the version that waits. It lies in sight only where nobody is at work: not while a job is open, not on the page
 * of a single check, and not after “Later” in this tab. There it stands at the foot of the page.
 */
export function offerVersion(): void {
  const isInSight = read('versionLater') === undefined && !isJobOpen() && document.querySelector('.bar') === null;
  showOffer({
    text: isJobOpen()
      ? 'A new version is ready. Nothing changes until you take it, and your answers stay.'
      : 'A new version is ready.',
    buttons: [
      { label: 'Use it now', press: () => void takeVersion() },
      ...(isInSight ? [{ label: 'Later', press: putOff }] : []),
    ],
    isInSight,
  });
}

/** To be called when another version has taken over while this page was open. */
export function meetNewVersion(): void {
  if (isTaking) {
    location.reload();
    return;
  }
  showOffer({
    text: 'A new version was taken in another window; this page is still the old one. Load it anew when it suits you: its address, with the answers in it, stays.',
    buttons: [{ label: 'Load this page anew', press: () => location.reload() }],
    isInSight: !isJobOpen() && document.querySelector('.bar') === null,
  });
}

async function takeVersion(): Promise<void> {
  const waiting = (await navigator.serviceWorker.getRegistration(basePath()))?.waiting;
  if (waiting === undefined || waiting === null) {
    location.reload();
    return;
  }
  isTaking = true;
  ({ isTaken: isTaking } = await askWorker(waiting, { type: 'take-over' }));
  if (isTaking) return;
  showOffer({
    text: 'A diagnosis is open in another window of this site. Close it there, then press again.',
    buttons: [{ label: 'Use it now', press: () => void takeVersion() }],
    isInSight: true,
  });
}

function putOff(): void {
  write('versionLater', 'yes');
  document.querySelector('[data-offer]')?.classList.remove('in-sight');
}

/** Whether a diagnosis is under way here: this address carries answers, or a job of the bench log is open. */
function isJobOpen(): boolean {
  return holdsAnswers(location.hash) || read('jobOpen') !== undefined;
}
