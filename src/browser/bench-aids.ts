import { makeElement } from './kit/elements.ts';

/**
 * `<bench-aids>`: for a person with one hand free. Keeps the screen awake while the switch is on, reads the sheet aloud when asked, and
 * counts the minutes that a check says to wait. What the browser cannot do stays hidden; nothing begins by itself, and what each control
 * needs is loaded when it is first pressed.
 */
class BenchAids extends HTMLElement {
  connectedCallback(): void {
    const { wait } = this.dataset;
    if ('wakeLock' in navigator) {
      const awake = makeElement('input', { type: 'checkbox', autocomplete: 'off', 'data-awake': true });
      awake.addEventListener('change', () => this.#press(awake));
      this.append(makeElement('label', {}, awake, ' Keep the screen awake'));
    }
    if ('speechSynthesis' in window) {
      this.append(this.#makeButton('data-aloud', '', 'Read aloud'));
      window.addEventListener('pagehide', () => speechSynthesis.cancel());
    }
    if (wait !== undefined) {
      this.append(
        this.#makeButton('data-wait', wait, `Start the timer: ${wait} min`),
        makeElement('output', { class: 'left', role: 'timer', 'aria-live': 'off', 'data-left': true }),
      );
    }
    this.append(makeElement('span', { role: 'status', 'aria-live': 'polite', 'data-said-aids': true }));
    this.hidden = this.childElementCount === 1;
    // The browser lets go of the screen whenever the page is out of sight.
    document.addEventListener('visibilitychange', () => {
      const awake = this.querySelector<HTMLInputElement>('[data-awake]:checked');
      if (awake !== null && document.visibilityState === 'visible') this.#press(awake);
    });
  }

  #makeButton(name: string, value: string, text: string): HTMLButtonElement {
    const button = makeElement('button', { type: 'button', class: 'press plain', [name]: value }, text);
    button.addEventListener('click', () => this.#press(button));
    return button;
  }

  #press(control: HTMLElement): void {
    void import('./press-aid.ts').then(({ pressAid }) => pressAid(control, this));
  }
}

customElements.define('bench-aids', BenchAids);
