import { describe, expect, it } from 'vitest';
import { loadLibrary } from '#build/library.ts';
import { isHandOverForSafety } from '#core/model/hand-over-for-safety.ts';
import { findNode } from '#core/model/links.ts';
import { isOpenLive } from '#core/model/open-live.ts';

const library = loadLibrary();

function nodeOf(id: string): NonNullable<ReturnType<typeof findNode>> {
  const tree = library.trees.get('audio-hum');
  const node = tree === undefined ? undefined : findNode(tree, id);
  if (node === undefined) throw new Error(`No node ${id}.`);
  return node;
}

// What each sheet of content/trees/audio/audio-hum.mdx says of its power and its set-ups.
describe('isOpenLive', () => {
  it.each([
    ['outside-try', false, 'power on, no set-up'],
    ['knob', false, 'power on with the lid on'],
    ['supply-look', false, 'case open, power off'],
    ['speaker-dc', true, 'case open, power on'],
    ['earth-missing', false, 'a hand-over'],
  ])('%s: %s (%s)', (id, expected) => {
    expect(isOpenLive(nodeOf(id), library)).toBe(expected);
  });

  it.each(['board-disconnected', 'chips-out', 'board-out'])('counts %s as open', (setup) => {
    const knob = nodeOf('knob');
    expect(knob.kind).toBe('check');
    if (knob.kind === 'check') expect(isOpenLive({ ...knob, needs: [setup] }, library)).toBe(true);
  });
});

describe('isHandOverForSafety', () => {
  it.each([
    ['earth-missing', true, 'licensed'],
    ['switch-mode-hum', true, 'switch-mode'],
    ['picked-up', false, 'not-a-fault'],
    ['hiss-only', false, 'beyond-this-page'],
    ['knob', false, 'a check'],
  ])('%s: %s (%s)', (id, expected) => {
    expect(isHandOverForSafety(nodeOf(id))).toBe(expected);
  });
});
