import { ownFormulas, readOwnFigure, sayOwn } from '#core/reading/own-values.ts';
import type { OwnValuesName } from '#core/model/target.ts';

/** `<own-values>`: a worked example on a target's page whose figures the reader replaces by those of the own unit. */
class OwnValues extends HTMLElement {
  connectedCallback(): void {
    this.addEventListener('input', () => this.#compute());
    this.querySelector('[data-own]')?.removeAttribute('hidden');
  }

  #compute(): void {
    const formula = ownFormulas[this.dataset['formula'] as OwnValuesName];
    const inputs = [...this.querySelectorAll<HTMLInputElement>('input[data-value]')];
    const figures = formula.values.map((one, index) =>
      readOwnFigure(
        inputs[index]?.value ?? '',
        this.querySelector<HTMLInputElement>(`[data-tolerance="${index}"]`)?.value ?? '0',
        one,
      ),
    );
    for (const [index, input] of inputs.entries())
      input.setAttribute('aria-invalid', String(figures[index] === undefined));
    const known = figures.filter((figure) => figure !== undefined);
    const said = known.length < figures.length ? '' : sayOwn(formula, known);
    this.querySelector('output')?.replaceChildren(said === '' ? 'Type every figure, for example 4k7 or 22.' : said);
  }
}

customElements.define('own-values', OwnValues);
