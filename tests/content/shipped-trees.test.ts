import { readContent } from '#build/library.ts';
import { describe, expect, test } from 'vitest';

// What content must be is said by the check alone: whoever adds a tree needs no word here.
describe('the shipped content', () => {
  const { library, problems, files } = readContent();

  test('compiles without an error', () => {
    expect(files.length).toBeGreaterThan(100);
    expect(problems.filter(({ severity }) => severity === 'error')).toEqual([]);
  });

  test('holds a tree, a target, a caution or a unit for every file of theirs', () => {
    for (const kind of ['trees', 'targets', 'cautions', 'units'] as const) {
      expect(library[kind].size, kind).toBe(files.filter(({ file }) => file.startsWith(`content/${kind}/`)).length);
    }
  });
});
