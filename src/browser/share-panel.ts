import { whenNear } from './kit/elements.ts';
import { defineWithMap } from './page-data.ts';
import { readFragment } from './page-fragment.ts';
import type { ShareDesk } from './share/share-desk.ts';

/**
 * `<share-panel>`: hands exactly this state on, as a link, a post, a code for another screen, or a question. What that takes is
 * loaded when someone comes near the panel; nothing leaves the browser but what the person copies or sends.
 */
class SharePanel extends HTMLElement {
  #desk: ShareDesk | undefined;

  connectedCallback(): void {
    this.hidden = false;
    whenNear(this, 'anywhere', () => void this.#fill());
    this.addEventListener('pointerover', this.#open);
    this.addEventListener('focusin', this.#open);
    this.addEventListener('click', this.#press);
    document.addEventListener('walk-read', openAskedChecks);
    openAskedChecks();
  }

  /** Not there, if it cannot be fetched: the address of the page can always be copied. */
  async #fill(): Promise<void> {
    const parts = await import('./share/make-panel.ts').catch(() => undefined);
    this.append(...(parts?.makePanel() ?? []));
    this.hidden = parts === undefined;
  }

  readonly #press = (event: Event): void => {
    const button = event.target instanceof Element ? event.target.closest<HTMLElement>('[data-do]') : null;
    const name = button?.dataset['do'];
    if (name === undefined) return;
    // At once where it is loaded: some browsers let a page copy only in the very turn of the press.
    if (this.#desk !== undefined) this.#desk.press(name);
    else void this.#open().then(() => this.#desk?.press(name));
  };

  readonly #open = async (): Promise<void> => {
    try {
      const { ShareDesk } = await import('./share/share-desk.ts');
      this.#desk ??= new ShareDesk(this);
    } catch {
      const said = this.querySelector('[data-said]');
      if (said !== null) said.textContent = 'This part could not be loaded. Your answers are safe; try again.';
    }
  };
}

/** A link that asks for checks brings the list of them along. */
function openAskedChecks(): void {
  const place = document.querySelector<HTMLElement>('asked-checks');
  if (place === null || !/[#&]ask=/.test(readFragment())) return;
  import('./asked-checks.ts').catch(() => {
    place.hidden = false;
    place.textContent = 'This link asks for checks, but the list of them could not be loaded. Load the page again.';
  });
}

defineWithMap('share-panel', SharePanel);
