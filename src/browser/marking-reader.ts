import { nameBands, readBands, readMarking } from '#core/reading/marking.ts';
import { makeElement } from './kit/elements.ts';

/** `<marking-reader>`: worked examples of a marking and of bands, which the reader's own take the place of. */
class MarkingReader extends HTMLElement {
  connectedCallback(): void {
    this.addEventListener('input', ({ target }) => {
      const half = target instanceof Element ? target.closest<HTMLElement>('[data-half]') : null;
      if (half !== null) this.#read(half);
    });
  }

  #read(half: HTMLElement): void {
    const marking = half.querySelector<HTMLInputElement>('[data-marking]')?.value;
    const bands = marking === undefined ? this.#readBands(half) : [];
    const { meanings, problem } =
      marking !== undefined
        ? readMarking(marking)
        : bands.includes('')
          ? { meanings: [], problem: 'Choose every band. Begin at the end where they stand closest together.' }
          : readBands(bands);
    half.querySelector('[data-worked]')?.remove();
    half
      .querySelector('[data-says]')
      ?.replaceChildren(
        ...meanings.map(({ says, basis }) =>
          makeElement('li', {}, `${says} `, makeElement('span', { class: 'status' }, `(${basis})`)),
        ),
        ...(problem === undefined ? [] : [makeElement('li', {}, problem)]),
      );
  }

  /** The bands as chosen, each named by what it is among so many. */
  #readBands(half: HTMLElement): readonly string[] {
    const names = nameBands(Number(half.querySelector<HTMLSelectElement>('[data-count]')?.value));
    const selects = [...half.querySelectorAll<HTMLSelectElement>('[data-band]')];
    for (const [index, select] of selects.entries()) {
      select.closest('p')?.toggleAttribute('hidden', index >= names.length);
      for (const label of select.labels) label.textContent = names[index] ?? '';
    }
    return selects.slice(0, names.length).map(({ value }) => value);
  }
}

customElements.define('marking-reader', MarkingReader);
