import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { stemWord } from '#core/search/stem-word.ts';

describe('a word without its ending', () => {
  it.each([
    ['blows', 'blow'],
    ['humming', 'hum'],
    ['buzzing', 'buzz'],
    ['typing', 'type'],
    ['popped', 'pop'],
    ['batteries', 'battery'],
    ['dried', 'dry'],
    ['switches', 'switch'],
    ['randomly', 'random'],
  ])('%s is %s', (word, stem) => {
    expect(stemWord(word)).toBe(stem);
  });

  it('is one for the forms of one word', () => {
    for (const forms of [
      ['fuse', 'fuses', 'fused'],
      ['drive', 'drives', 'driving'],
      ['pulse', 'pulsing', 'pulsed'],
      ['load', 'loads', 'loading'],
    ]) {
      expect(new Set(forms.map(stemWord)).size).toBe(1);
    }
  });

  it('leaves alone what only looks like an ending', () => {
    for (const word of ['bus', 'supply', 'led', 'need', 'glass', 'z80', '7805', 'no', 'string'])
      expect(stemWord(word)).toBe(word);
  });

  it('never grows a word by more than the letter that was dropped, and takes any string', () => {
    fc.assert(fc.property(fc.string(), (word) => stemWord(word).length <= word.length));
  });
});
