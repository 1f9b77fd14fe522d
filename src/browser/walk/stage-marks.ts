import { withAnswer } from '#core/answer/answer.ts';
import type { WalkPage } from './walk-page.ts';

/** The Good and Bad buttons of a signal path's stages; a second press takes the answer back. */
export function pressStageMark(button: HTMLElement, page: WalkPage): void {
  const node = button.closest<HTMLElement>('article')?.dataset['node'] ?? '';
  const stage = button.closest<HTMLElement>('li')?.dataset['stage'];
  const value = button.dataset['mark'];
  if (stage === undefined || value === undefined) return;
  const { state } = page;
  const isPressed = button.getAttribute('aria-pressed') === 'true';
  const without = state.answers.filter((one) => one.tree !== undefined || one.node !== node || one.stage !== stage);
  page.put(isPressed ? { ...state, answers: without } : withAnswer(state, { tree: undefined, node, stage, value }));
}
