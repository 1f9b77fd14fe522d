import { judgePart } from '#core/reading/substitute.ts';
import { makeElement } from './kit/elements.ts';

/** `<have-part>`: the lines that a part at hand must match, each judged as soon as the reader tells of it. */
class HavePart extends HTMLElement {
  connectedCallback(): void {
    for (const told of this.querySelectorAll('[data-told]')) told.removeAttribute('hidden');
    this.addEventListener('input', () => this.#judge());
    this.#openIfMeant();
    addEventListener('hashchange', () => this.#openIfMeant());
  }

  /** The page of a cause links to what its new part does. */
  #openIfMeant(): void {
    const details = this.closest('details');
    if (details !== null && location.hash === `#${details.id}`) details.open = true;
  }

  #judge(): void {
    const items = [...this.querySelectorAll('[data-line]')];
    const told = items.map((item) =>
      [...item.querySelectorAll<HTMLInputElement | HTMLSelectElement>('input, select')].map(({ value }) => value),
    );
    const { fit, lines } = judgePart(
      this.dataset['kind'] ?? '',
      told.map((values) => [values.length < 2 ? '' : (values[0] ?? ''), values.at(-1) ?? '']),
    );
    for (const [index, { fit: one, says }] of lines.entries()) {
      const place = items[index]?.querySelector('[data-says]');
      const isTold = told[index]?.some((value) => value.trim() !== '') === true;
      place?.toggleAttribute('hidden', !isTold);
      place?.replaceChildren(makeElement('strong', {}, capital(one)), `: ${says}`);
    }
    const open = lines.filter((line) => line.fit === 'not known yet').length;
    const rest = open === 0 ? '' : ` Lines not known yet: ${open}.`;
    this.querySelector('[data-whole]')?.replaceChildren(`In all: ${fit}.${rest}`);
  }
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

customElements.define('have-part', HavePart);
