import type { Answer, LinkState } from '#core/answer/answer.ts';
import type { WalkPage } from './walk-page.ts';

/** On a cause's page: what came of the repair, in the address. `<repair-result>` writes it into the log and shows what to do next. */
export function listenToRepair(root: ParentNode, page: WalkPage): void {
  const part = root.querySelector<HTMLElement>('[data-after-repair]');
  if (part === null) return;
  const cause = part.closest<HTMLElement>('article')?.dataset['node'] ?? '';
  part.querySelector('[data-cured]')?.addEventListener('click', () => {
    say(part, 'Good. Prove it before you close the case: the steps are under “Prove it”.');
    goTo(root.querySelector<HTMLElement>('.part.prove h2'));
  });
  part.querySelector('[data-same]')?.addEventListener('click', () => {
    page.put(withRepair(page.state, cause));
    say(part, 'Saved: not repaired. What is most likely now and the next step are below.');
    goTo(root.querySelector<HTMLElement>('[data-likely]'));
  });
  part.querySelector('[data-worse]')?.addEventListener('click', () => void noteWorse(part, page, cause));
}

/** What the repair cannot have changed stays; the rest is asked again. */
async function noteWorse(part: ParentNode, page: WalkPage, cause: string): Promise<void> {
  const { state } = page;
  const kept = await keepAnswers(page, cause);
  const stale = state.answers.length - kept.length;
  page.put({ ...withRepair({ ...state, answers: kept }, cause), worsened: cause });
  const again = stale === 1 ? 'One answer was' : `${stale} answers were`;
  say(
    part,
    stale === 0
      ? 'Saved: worse or different.'
      : `Saved: worse or different. ${again} undone, since the repair may have changed what they say. The browser’s Back restores them.`,
  );
}

/** All answers where the tree cannot be fetched: none is thrown away unseen. */
async function keepAnswers({ map, state }: WalkPage, cause: string): Promise<readonly Answer[]> {
  try {
    const [{ loadWalk }, { keepAfterRepair }] = await Promise.all([
      import('./load-bench.ts'),
      import('#core/diagnosis/tree/carry-answers.ts'),
    ]);
    const walk = await loadWalk(map.slug);
    if (walk === undefined) return state.answers;
    const own = state.answers.filter(({ tree }) => tree === undefined);
    const { kept } = keepAfterRepair(walk.tree, own, cause);
    return state.answers.filter((answer) => answer.tree !== undefined || kept.includes(answer));
  } catch {
    return state.answers;
  }
}

function say(part: ParentNode, text: string): void {
  const said = part.querySelector('[data-said]');
  if (said !== null) said.textContent = text;
}

function withRepair(state: LinkState, cause: string): LinkState {
  return { ...state, did: [...state.did.filter((id) => id !== cause), cause] };
}

function goTo(place: HTMLElement | null): void {
  place?.setAttribute('tabindex', '-1');
  place?.focus({ preventScroll: true });
  place?.scrollIntoView({ block: 'start' });
}
