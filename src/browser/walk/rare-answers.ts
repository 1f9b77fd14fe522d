import { nextAfter } from '#core/answer/lead.ts';
import { withAnswer } from '#core/answer/answer.ts';
import type { WalkPage } from './walk-page.ts';

/** Answers that any check takes: how often the fault showed, and that it did not show at all while it was watched. */
export function pressRareAnswer(button: HTMLElement, page: WalkPage): void {
  const part = button.closest<HTMLElement>('[data-rare-answers]');
  if (part === null) return;
  const node = part.closest<HTMLElement>('article')?.dataset['node'] ?? '';
  const said = part.querySelector('[data-said]');
  const say = (text: string): void => {
    if (said !== null) said.textContent = text;
  };
  const answer = (value: string, text: string): void => {
    const given = { tree: undefined, node, stage: undefined, value };
    const state = withAnswer(page.state, given);
    const to = nextAfter(given, state, page.map.nodes);
    // The last check that was asked for stays: what to do next is said at its head.
    if (to !== undefined && to !== node) {
      page.go(to, state);
      return;
    }
    page.put(state);
    say(text);
  };
  if (button.hasAttribute('data-not-seen')) {
    answer('unseen', 'Saved: not seen while testing. That proves nothing either way; the next step is below.');
    return;
  }
  const [times, tries] = part.querySelectorAll('input');
  const [shown, all] = [readCount(times), readCount(tries)];
  const isShare = shown !== undefined && all !== undefined && all > 0 && shown <= all;
  if (!isShare && (times?.value !== '' || tries?.value !== '')) {
    say('How often in how many tries: two whole numbers, the first not above the second. Or leave both empty.');
    return;
  }
  if (isShare && shown === 0) {
    answer('unseen', `Saved: not seen in ${all} tries. That proves nothing; the next step is below.`);
    return;
  }
  answer(
    isShare ? `${shown}-of-${all}` : 'sometimes',
    'Saved: only sometimes. This check has no branch for that; the next step is below.',
  );
}

function readCount(input: HTMLInputElement | undefined): number | undefined {
  const text = input?.value.trim() ?? '';
  return /^\d{1,3}$/.test(text) ? Number(text) : undefined;
}
