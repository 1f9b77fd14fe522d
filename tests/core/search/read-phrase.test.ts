import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { makeLexicon, stemPhrases } from '#core/search/lexicon.ts';
import { readPhrase } from '#core/search/read-phrase.ts';
import { smallNextDoor, smallThesaurus } from './small-thesaurus.ts';

const stemmed = stemPhrases(smallThesaurus, smallNextDoor);
const lexicon = makeLexicon(stemmed.thesaurus, stemmed.nextDoor);
const polarities = ['named', 'gone', 'fine'];

/** What is read, as `picture gone`. */
function read(text: string): readonly string[] {
  return readPhrase(text, lexicon).mentions.map(
    ({ concept, polarity }) => `${lexicon.names[concept]} ${polarities[polarity]}`,
  );
}

describe('what a text speaks of', () => {
  it('absence binds to the word it negates', () => {
    expect(read('no picture but sound')).toEqual(['picture gone', 'sound named']);
    expect(read('sound but no picture')).toEqual(['sound named', 'picture gone']);
    expect(read('picture without sound')).toEqual(['picture named', 'sound gone']);
    expect(read('clock missing')).toEqual(['clock gone']);
    expect(read('missing clock')).toEqual(['clock gone']);
    expect(read('nothing from the speaker')).toEqual(['speaker gone']);
  });

  it('"no" does not reach across "but" or a comma', () => {
    expect(read('no lamp, screen on')).toEqual(['lamp gone', 'picture named']);
  });

  it('"no light or sound" denies both', () => {
    expect(read('no light or sound')).toEqual(['lamp gone', 'sound gone']);
  });

  it('what works is told apart from what is only named, and "not working" from "working"', () => {
    expect(read('picture ok')).toEqual(['picture fine']);
    expect(read('picture is not working')).toEqual(['picture gone']);
    expect(read('lamp never lights up')).toContain('lamp gone');
  });

  it('a dead part says little of the whole, a dead computer all', () => {
    const life = (text: string): number =>
      readPhrase(text, lexicon).mentions.find(({ concept }) => lexicon.names[concept] === 'life')?.surety ?? 0;
    expect(read('speaker dead')).toContain('speaker gone');
    expect(life('speaker dead')).toBeLessThan(life('computer dead'));
  });

  it('two things close together mean a third', () => {
    expect(read('minus supply')).toContain('minus-rail named');
    expect(read('no minus supply')).toContain('minus-rail gone');
  });

  it('phrases go before their words, and a beginning stands for all that begins so', () => {
    expect(read('square wave')).toEqual(['clock named']);
    expect(read('7805')).toEqual(['regulator named']);
  });

  it('numbers are read by the table: low, or right where read off with decimals', () => {
    expect(read('4.4v')).toEqual(['rail-5v named', 'low named']);
    expect(read('5.02 on the rail')).toEqual(['rail-5v fine', 'supply fine']);
    expect(read('5v')).toEqual(['rail-5v named']);
  });

  it('a circumstance is told as such', () => {
    const mentions = readPhrase('sound when the computer', lexicon).mentions;
    expect(mentions.map(({ isAside }) => isAside)).toEqual([false, true]);
    expect(readPhrase('dead near my oven', lexicon).nextDoor).toEqual([
      { subject: 0, isHint: false, isAside: true, surety: 1 },
    ]);
  });

  it('never throws, and marks only what is there', () => {
    const words = fc.constantFrom(
      'no',
      'not',
      'picture',
      'dead',
      'ok',
      'but',
      'or',
      'oven',
      '-5v',
      '4.4v',
      'when',
      '😀',
      'שלום',
      '<b>',
      ',',
    );
    const texts = fc.oneof(
      fc.string({ unit: 'grapheme' }),
      fc.array(words, { maxLength: 30 }).map((list) => list.join(' ')),
    );
    fc.assert(
      fc.property(texts, (text) =>
        readPhrase(text, lexicon).mentions.every(
          ({ start, end, surety }) => start < end && end <= text.length && surety > 0 && surety <= 1,
        ),
      ),
    );
  });
});
