import { withAnswer } from '#core/share/link-state.ts';
import type { WalkPage } from './walk-page.ts';

/** The Good and Bad buttons of a signal path's stages; a second press takes the answer back. */
export function listenToStages(root: ParentNode, page: WalkPage): void {
  const list = root.querySelector<HTMLElement>('.alone .stages');
  const node = list?.closest<HTMLElement>('article')?.dataset['node'] ?? '';
  list?.addEventListener('click', (event) => {
    const button = event.target instanceof Element ? event.target.closest<HTMLElement>('[data-mark]') : null;
    const stage = button?.closest<HTMLElement>('li')?.dataset['stage'];
    const value = button?.dataset['mark'];
    if (button === null || stage === undefined || value === undefined) return;
    const { state } = page;
    const isPressed = button.getAttribute('aria-pressed') === 'true';
    const without = state.answers.filter((one) => one.tree !== undefined || one.node !== node || one.stage !== stage);
    page.put(isPressed ? { ...state, answers: without } : withAnswer(state, { tree: undefined, node, stage, value }));
  });
}
