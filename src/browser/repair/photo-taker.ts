import { makeElement } from '../kit/elements.ts';
import { NodeWalk } from '../node-walk.ts';
import { noteEvents } from '../recorder/notes.ts';

/** `<photo-taker>`: a photograph taken before anything is removed goes into the open job. The picture never leaves the browser. */
class PhotoTaker extends HTMLElement {
  connectedCallback(): void {
    const input = makeElement('input', { type: 'file', accept: 'image/*', capture: 'environment', multiple: true });
    input.addEventListener('change', () => void this.#keep(input));
    this.append(
      makeElement('label', { class: 'press plain' }, 'Photograph it now ', input),
      makeElement('span', { role: 'status', 'aria-live': 'polite', 'data-said-photo': true }),
    );
    this.hidden = false;
  }

  async #keep(input: HTMLInputElement): Promise<void> {
    const said = this.querySelector('[data-said-photo]');
    const say = (text: string): void => {
      if (said !== null) said.textContent = text;
    };
    const files = [...(input.files ?? [])];
    if (files.length === 0) return;
    say('Making it smaller …');
    try {
      const { keepPhoto } = await import('../log/photos.ts');
      const { openOrBegin } = await import('../log/job-desk.ts');
      const job = await openOrBegin();
      const caption = document.querySelector('.node.alone .heading')?.textContent?.trim() ?? '';
      const results = [];
      for (const file of files) results.push(await keepPhoto(job, file, caption));
      const walk = this.closest('node-walk');
      // What led here belongs to the job too.
      if (walk instanceof NodeWalk) noteEvents(walk.map, walk.state, []);
      window.dispatchEvent(new Event('job-touched'));
      say(results.at(-1)?.message ?? '');
    } catch {
      say('The picture could not be saved. Keep the one in your camera.');
    }
    input.value = '';
  }
}

customElements.define('photo-taker', PhotoTaker);
