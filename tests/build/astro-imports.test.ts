import { readdirSync, readFileSync } from 'node:fs';
import { join, posix } from 'node:path';
import { describe, expect, it } from 'vitest';

/** dependency-cruiser cannot read .astro files: which parts of src each kind of them may import, by the same order. */
const mayImport: Readonly<Record<string, readonly string[]>> = {
  components: ['core', 'build', 'browser', 'components', 'styles'],
  layouts: ['core', 'build', 'browser', 'components', 'layouts', 'styles'],
  pages: ['core', 'compiler', 'build', 'browser', 'components', 'layouts', 'styles'],
};

const files = readdirSync('src', { recursive: true, encoding: 'utf8' }).filter((file) => file.endsWith('.astro'));

/** The part of src that each import of a file leads to. */
function listParts(file: string): readonly string[] {
  const text = readFileSync(join('src', file), 'utf8');
  return [...text.matchAll(/^\s*(?:import|export)\b[^'"]*['"](\.{1,2}\/[^'"]+|#[^'"]+)['"]/gm)]
    .map(([, path = '']) => (path.startsWith('#') ? path.slice(1) : posix.join(posix.dirname(file), path)))
    .map((path) => path.split('/')[0] ?? '');
}

describe('imports of .astro files', () => {
  it.each(Object.entries(mayImport))('lead from %s only to parts that it may know', (part, allowed) => {
    const own = files.filter((file) => file.startsWith(`${part}/`));

    expect(own.length).toBeGreaterThan(0);
    expect(own.flatMap(listParts).length).toBeGreaterThan(0);
    for (const file of own)
      expect(
        listParts(file).filter((other) => !allowed.includes(other)),
        file,
      ).toEqual([]);
  });

  it('stand in no other part', () => {
    expect([...new Set(files.map((file) => file.split('/')[0]))].toSorted()).toEqual(Object.keys(mayImport));
  });
});
