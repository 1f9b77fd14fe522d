import { makeElement } from '../kit/elements.ts';

/**
 * Marks the outcomes that a reading points to, by hatching and by the words “your reading”, and takes earlier marks away.
 * At a stage every band but `in` stands for bad.
 */
export function markProposed(field: HTMLElement, words: readonly string[]): void {
  const scope = field.closest<HTMLElement>('[data-stage], [data-node]');
  const isStage = field.dataset['stage'] !== undefined;
  const root = isStage ? field.closest<HTMLElement>('li') : scope;
  const wanted = isStage ? words.map((word) => (word === 'in' ? 'good' : 'bad')) : words;
  for (const choice of root?.querySelectorAll<HTMLElement>('.outcome[data-answers], [data-mark]') ?? []) {
    const own = (choice.dataset['mark'] ?? choice.dataset['answers'] ?? '').split(' ');
    const isProposed = own.some((word) => wanted.includes(word)) && choice.dataset['stageBad'] === undefined;
    choice.classList.toggle('proposed', isProposed);
    const tag = choice.querySelector('.tag.of-reading');
    if (!isProposed) tag?.remove();
    else if (tag === null) choice.append(makeElement('span', { class: 'tag of-reading' }, 'your reading'));
  }
}
