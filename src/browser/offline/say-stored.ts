/** What the foot of the page says about offline use. */
const said = {
  'not-yet': 'Works offline: not stored yet.',
  ready: 'Works offline: ready.',
  failed: 'Works offline: not stored in this browser. With the network on, everything works.',
} as const;

/** Says in the foot of the page what is true now. */
export function sayStored(state: keyof typeof said): void {
  const place = document.querySelector('[data-stored]');
  if (place !== null && place.textContent !== said[state]) place.textContent = said[state];
}
