import { describe, expect, it } from 'vitest';
import { holdsAnswers } from '#core/offline/holds-answers.ts';
import { printLinkState } from '#core/link/fragment.ts';

describe('an address with answers', () => {
  it('is told by its fragment', () => {
    const answer = { tree: undefined, node: 'rail-bare', stage: undefined, value: 'low' };
    const state = { answers: [answer], unit: undefined, instrument: undefined, did: [], ask: [] };
    expect(holdsAnswers(`#${printLinkState(state)}`)).toBe(true);
  });

  it('is none without a pair in it', () => {
    for (const hash of ['', '#', '#step', '#sheet']) expect(holdsAnswers(hash)).toBe(false);
  });
});
