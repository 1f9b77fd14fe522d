import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { make } from '#core/page/markup.ts';
import { hasForeignMarkdown, hasHarm, hostileKinds } from '../arbitraries/hostile-input.ts';

// The same laws by the hundred thousand, with the time that each takes: npm run bench (tests/bench/fuzz.ts).
const seed = 19_751_995;
const runs = 1_000;

describe('text from strangers', () => {
  it('comes in nine kinds', () => {
    expect(hostileKinds.map(({ name }) => name)).toEqual([
      'fragments',
      'search text',
      'readings',
      'job files',
      'units',
      'parts',
      'netlists',
      'figures',
      'trees',
    ]);
  });

  it.each(hostileKinds)(
    'makes nothing throw, injects nothing and loses nothing: $name',
    ({ corpus, made, judge, cost }) => {
      for (const text of corpus.slice(0, Math.ceil((2 * runs) / cost)))
        expect(judge(text), text.slice(0, 200)).toBeUndefined();
      fc.assert(
        fc.property(made, (text) => judge(text) === undefined),
        { seed, numRuns: Math.ceil(runs / cost), verbose: false },
      );
    },
  );

  it('would be told of where it came through, so that silence says something', () => {
    expect(hasHarm(make('p', { title: '<script>' }, '<img src=x onerror=alert(1)>'))).toBe(false);
    for (const harm of [
      make('script', {}),
      make('p', { onclick: 'x' }),
      make('a', { href: 'javascript:alert(1)' }),
      make('a', { href: '//other.invalid/' }),
    ]) {
      expect(hasHarm(make('div', {}, harm))).toBe(true);
    }
    expect(hasForeignMarkdown('plain \\<b> words')).toBe(false);
    for (const post of ['a <b>c</b>', '![a](b)', '[a](javascript:b)']) expect(hasForeignMarkdown(post)).toBe(true);
  });
});
