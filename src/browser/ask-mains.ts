import type { MainsHertz } from '#core/model/limits.ts';
import { keepBench, readBench } from './bench.ts';
import { makeButton, makeElement } from './kit/elements.ts';

/**
 * Below each target whose limits depend on the mains asks which it is here, once for all jobs of this browser, and calls back when it
 * is said. Without an answer the general limits stand, which are those of 50 Hz.
 */
export function askMains(root: ParentNode, onSaid: () => void): void {
  for (const card of root.querySelectorAll<HTMLElement>('[data-mains]')) {
    if (card.querySelector('[data-ask-mains]') !== null) continue;
    const press = (hertz: MainsHertz): HTMLElement =>
      makeButton(`${hertz} Hz`, 'press plain', () => {
        keepBench({ ...readBench(), mainsHertz: hertz });
        dropMains(root);
        onSaid();
      });
    card.append(
      makeElement(
        'div',
        { class: 'ask-mains', 'data-ask-mains': true, role: 'group', 'aria-label': 'Mains frequency here' },
        makeElement('p', {}, 'These are the limits for 50 Hz mains. Which is yours?'),
        makeElement('p', { class: 'presses' }, press(50), press(60)),
      ),
    );
  }
}

/** Takes the question away: it is answered, or a unit says it. */
export function dropMains(root: ParentNode): void {
  for (const asked of root.querySelectorAll('[data-ask-mains]')) asked.remove();
}
