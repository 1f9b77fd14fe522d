/** Says above the page that a part of it is not to be had. Once a page. */
export function showMissingPart(): void {
  if (document.querySelector('[data-missing-part]') !== null) return;
  const notice = document.createElement('div');
  notice.className = 'notices';
  notice.setAttribute('role', 'status');
  notice.dataset['missingPart'] = '';
  const text = document.createElement('p');
  text.textContent =
    'A part of this page is not stored on this device and the network is off. Open the page once with the network on; after that it works offline.';
  notice.append(text);
  document.querySelector('main')?.prepend(notice);
}

/** One offer at a time: a sentence and its buttons. */
export interface Offer {
  readonly text: string;
  readonly buttons: readonly { readonly label: string; readonly press: () => void }[];
  /** Lies over the lower edge of the window until it is answered; else it stands at the foot of the page. */
  readonly isInSight: boolean;
}

/** Shows an offer in place of the one before. Nothing on the page moves by it. */
export function showOffer(offer: Offer): void {
  document.querySelector('[data-offer]')?.remove();
  const box = document.createElement('div');
  box.className = offer.isInSight ? 'offer in-sight' : 'offer';
  box.dataset['offer'] = '';
  const text = document.createElement('p');
  text.setAttribute('role', 'status');
  box.append(
    text,
    ...offer.buttons.map(({ label, press }) => {
      const button = document.createElement('button');
      button.type = 'button';
      button.className = 'press plain';
      button.textContent = label;
      button.addEventListener('click', press);
      return button;
    }),
  );
  document.querySelector('.colophon')?.append(box);
  // After it stands in the page: a live region is read out when its text changes.
  text.textContent = offer.text;
}
