import { mkdirSync, mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { keepOnDisk } from '#build/keep.ts';
import { compileContent } from '#compiler/compile-content.ts';
import { makeContent, sampleFile } from '../compiler/make-content.ts';

let root = '';
const kept = (): readonly string[] =>
  readdirSync(join(root, 'node_modules/.cache/halfsplit'), { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath, entry.name));

beforeEach(() => {
  root = mkdtempSync(join(tmpdir(), 'halfsplit-keep-'));
  for (const folder of ['src/compiler', 'src/core', 'src/build', 'public/fonts']) {
    mkdirSync(join(root, folder), { recursive: true });
  }
  writeFileSync(join(root, 'src/compiler/a.ts'), 'one');
  writeFileSync(join(root, 'package-lock.json'), '{}');
});
afterEach(() => rmSync(root, { recursive: true }));

describe('what is kept from run to run', () => {
  it('gives the content that compiling gives, made and read again', () => {
    const files = makeContent([
      { from: 'Read the rail again.', to: 'Short the capacitor and read the PMIC rail again.' },
    ]);
    const anew = compileContent(files);
    expect(anew.problems.length).toBeGreaterThan(0);
    expect(compileContent(files, keepOnDisk(root))).toEqual(anew);
    expect(kept().length).toBeGreaterThan(5);
    const again = files.map((file) => ({ ...file }));
    expect(compileContent(again, keepOnDisk(root))).toEqual(anew);
  });

  it('is not taken for another text', () => {
    compileContent(makeContent(), keepOnDisk(root));
    const changed = makeContent([{ from: 'Read the rail again.', to: 'Read the PMIC rail again.' }]);
    const { problems } = compileContent(changed, keepOnDisk(root));
    expect(problems.map(({ file, rule }) => [file, rule])).toEqual([[sampleFile, 'plain-words']]);
  });

  it('makes a result once for the same inputs, however long, and again where a file is damaged', () => {
    let made = 0;
    const make = (...inputs: string[]) =>
      keepOnDisk(root)(
        'trial',
        () => inputs,
        () => (made += 1),
      );
    const long = 'x'.repeat(5000);
    expect([make('a', 'bc'), make('ab', 'c'), make(long), make('a', 'bc'), make(long), make(`${long}y`)]).toEqual([
      1, 2, 3, 1, 3, 4,
    ]);
    for (const file of kept()) writeFileSync(file, 'damaged');
    expect(make('a', 'bc')).toBe(5);
    expect(make('a', 'bc')).toBe(5);
  });

  it('is forgotten when the program changes, and not kept where no program lies', () => {
    let made = 0;
    const make = () =>
      keepOnDisk(root)(
        'trial',
        () => ['a'],
        () => (made += 1),
      );
    expect([make(), make()]).toEqual([1, 1]);
    writeFileSync(join(root, 'src/compiler/a.ts'), 'two');
    expect([make(), make()]).toEqual([2, 2]);
    expect(kept()).toHaveLength(1);
    rmSync(join(root, 'src/compiler'), { recursive: true });
    expect([make(), make()]).toEqual([3, 4]);
  });
});
