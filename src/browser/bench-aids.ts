/**
 * `<bench-aids>`: for a person with one hand free. Keeps the screen awake while the switch is on, reads the sheet aloud when asked, and
 * counts the minutes that a check says to wait. What the browser cannot do stays hidden; nothing begins by itself, and what each control
 * needs is loaded when it is first pressed.
 */
class BenchAids extends HTMLElement {
  connectedCallback(): void {
    this.#offer('[data-awake]', 'wakeLock' in navigator, 'change');
    this.#offer('[data-aloud]', 'speechSynthesis' in window, 'click');
    this.#offer('[data-wait]', true, 'click');
    // The browser lets go of the screen whenever the page is out of sight.
    document.addEventListener('visibilitychange', () => {
      const awake = this.querySelector<HTMLInputElement>('[data-awake]:checked');
      if (awake !== null && document.visibilityState === 'visible') this.#press(awake);
    });
    if ('speechSynthesis' in window) window.addEventListener('pagehide', () => speechSynthesis.cancel());
  }

  #offer(name: string, isPossible: boolean, event: string): void {
    const control = this.querySelector<HTMLElement>(name);
    if (control === null || !isPossible) return;
    this.hidden = false;
    control.closest('[hidden]')?.removeAttribute('hidden');
    control.addEventListener(event, () => this.#press(control));
  }

  #press(control: HTMLElement): void {
    void import('./press-aid.ts').then(({ pressAid }) => pressAid(control, this));
  }
}

customElements.define('bench-aids', BenchAids);
