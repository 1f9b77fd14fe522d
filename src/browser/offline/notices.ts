import { holdsAnswers } from '#core/offline/holds-answers.ts';
import type { WorkerAnswers } from '#core/offline/worker-message.ts';
import { makeButton, makeElement } from '../kit/elements.ts';
import { read, write } from '../kit/storage.ts';
import { basePath } from '../page-data.ts';

type Ask = (worker: ServiceWorker, question: { readonly type: 'take-over' }) => Promise<WorkerAnswers['take-over']>;

/** Whether “Use it now” was pressed here and the new version is on its way: then this page loads itself again. */
let isTaking = false;

/** Says that the page, or a part of it, is neither stored nor within reach. */
export function showMissing(isPage: boolean): void {
  if (isPage) showMissingPage();
  else showMissingPart();
}

/** Once, above the page. */
function showMissingPart(): void {
  if (document.querySelector('[data-missing-part]') !== null) return;
  const text =
    'A part of this page is not stored on this device and the network is off. Open the page once with the network on; after that it works offline.';
  const notice = makeElement('div', { class: 'notices', role: 'status', 'data-missing-part': true });
  notice.append(makeElement('p', {}, text));
  document.querySelector('main')?.prepend(notice);
}

/** In place of “No such page”. */
function showMissingPage(): void {
  document.querySelector('main > h1')?.replaceChildren('Not stored on this device');
  document
    .querySelector('main > h1 + p')
    ?.replaceChildren(
      'The network is off, and this tree was not opened on this device before. With the network on, open it once, or choose its block under Trees; after that it works offline.',
    );
}

/**
 * Offers the version that waits. The offer lies over the page only while nobody is at work: not with a job open, not on
 * the page of a single check, and not after “Later” in this tab. Otherwise it is at the foot of the page.
 */
export function offerVersion(ask: Ask): void {
  const isInSight = read('versionLater') === undefined && isIdle();
  showOffer({
    text: isJobOpen()
      ? 'A new version is ready. Nothing changes until you press “Use it now”, and your answers stay.'
      : 'A new version is ready.',
    buttons: [['Use it now', () => void takeVersion(ask)], ...(isInSight ? [['Later', putOff] as const] : [])],
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
    text: 'Another window switched to a new version; this page is still the old one. Reload it when it suits you: its address keeps your answers.',
    buttons: [['Reload this page', () => location.reload()]],
    isInSight: isIdle(),
  });
}

async function takeVersion(ask: Ask): Promise<void> {
  const waiting = (await navigator.serviceWorker.getRegistration(basePath()))?.waiting;
  if (waiting === undefined || waiting === null) {
    location.reload();
    return;
  }
  isTaking = true;
  ({ isTaken: isTaking } = await ask(waiting, { type: 'take-over' }));
  if (isTaking) return;
  showOffer({
    text: 'A diagnosis is open in another window of this site. Close that window, then press again.',
    buttons: [['Use it now', () => void takeVersion(ask)]],
    isInSight: true,
  });
}

function putOff(): void {
  write('versionLater', 'yes');
  document.querySelector('[data-offer]')?.classList.remove('in-sight');
}

interface Offer {
  readonly text: string;
  readonly buttons: readonly (readonly [label: string, press: () => void])[];
  /** Lies over the lower edge of the window until it is answered; else it is at the foot of the page. */
  readonly isInSight: boolean;
}

/** Shows an offer in place of the one before. Nothing on the page moves because of it. */
function showOffer({ text, buttons, isInSight }: Offer): void {
  document.querySelector('[data-offer]')?.remove();
  const said = makeElement('p', { role: 'status' });
  const box = makeElement('div', { class: isInSight ? 'offer in-sight' : 'offer', 'data-offer': true }, said);
  box.append(...buttons.map(([label, press]) => makeButton(label, 'press plain', press)));
  document.querySelector('.colophon')?.append(box);
  // After it is in the page: a live region is read out when its text changes.
  said.textContent = text;
}

function isIdle(): boolean {
  return !isJobOpen() && document.querySelector('.bar') === null;
}

/** Whether a diagnosis is under way here: this address carries answers, or a job of the bench log is open. */
function isJobOpen(): boolean {
  return holdsAnswers(location.hash) || read('jobOpen') !== undefined;
}
