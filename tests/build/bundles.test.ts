import { globSync, readFileSync } from 'node:fs';
import { expect, it } from 'vitest';

/** Every text that a pattern of words, groups and alternatives stands for; what must not follow is left out. */
function spellOut(pattern: string): readonly string[] {
  const read = (from: number): { readonly texts: readonly string[]; readonly end: number } => {
    const texts: string[] = [];
    let open = [''];
    let at = from;
    while (at < pattern.length && pattern[at] !== ')') {
      if (pattern[at] === '|') {
        texts.push(...open);
        open = [''];
        at += 1;
      } else if (pattern[at] === '(') {
        const group = read(at + 3);
        if (pattern[at + 2] === ':') open = open.flatMap((text) => group.texts.map((next) => text + next));
        at = group.end + 1;
      } else {
        const sign = pattern[at] === '\\' ? pattern[at + 1] : pattern[at] === '$' ? '' : pattern[at];
        open = open.map((text) => text + (sign ?? ''));
        at += pattern[at] === '\\' ? 2 : 1;
      }
    }
    return { texts: [...texts, ...open], end: at };
  };
  return read(0).texts;
}

it('a pattern is spelt out', () => {
  expect(spellOut(String.raw`a\/(?:b|c(?!d)\/(?:e|f))\.ts$|g`)).toEqual(['a/b.ts', 'a/c/e.ts', 'a/c/f.ts', 'g']);
});

it('every file and folder that a bundle is made of exists', () => {
  const config = readFileSync('astro.config.mjs', 'utf8');
  const named = [...config.matchAll(/^\s+test: \/(.*)\/,$/gm)].flatMap(([, pattern = '']) => spellOut(pattern));
  const inOneLine = [...config.matchAll(/\btest: \/(.*?[^\\])\/ \}/g)].flatMap(([, pattern = '']) => spellOut(pattern));
  const files = globSync('src/**/*.ts').map((file) => file.replaceAll('\\', '/'));
  const ofVite = ['preload-helper'];

  expect(named.length + inOneLine.length).toBeGreaterThan(40);
  expect(
    [...named, ...inOneLine].filter((name) => !ofVite.includes(name) && !files.some((file) => file.startsWith(name))),
  ).toEqual([]);
});
