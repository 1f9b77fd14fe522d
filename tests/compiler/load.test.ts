import { mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { compileContent } from '#compiler/compile-content.ts';
import { loadContent } from '#compiler/load.ts';
import { makeContent } from './make-content.ts';

const root = mkdtempSync(join(tmpdir(), 'halfsplit-load-'));

function put(file: string, text: string): void {
  mkdirSync(dirname(join(root, file)), { recursive: true });
  writeFileSync(join(root, file), text);
}

beforeAll(() => {
  for (const { file, text } of makeContent()) put(file, text);
});
afterAll(() => rmSync(root, { recursive: true }));

describe('what lies under content/', () => {
  it('is read as it lies there, but for what systems and editors leave', () => {
    put('content/trees/.DS_Store', 'x');
    put('content/trees/power/.sample-tree.mdx.swp', 'x');

    expect(compileContent(loadContent(root)).problems).toEqual([]);
  });

  it('is refused where it is a file of another ending, whose text is not read', () => {
    const strangers = [
      'content/.prettierrc',
      'content/package.json',
      'content/trees/power/drawing.svg',
      'content/trees/power/index.astro',
      'content/trees/power/sample-tree.mdx.js',
    ];
    for (const file of strangers) put(file, 'process.exit(3)');
    const files = loadContent(root);
    for (const file of strangers) rmSync(join(root, file));

    const refused = compileContent(files).problems.map(({ file, rule }) => [file, rule]);
    expect(refused).toEqual(strangers.map((file) => [file, 'file-place']));
    expect(files.filter(({ text }) => text.includes('process.exit'))).toEqual([]);
  });

  it('is refused where it is a link, which is not followed: to a file, a folder, the whole disk or itself', () => {
    const links = [
      ['content/targets/hosts.mdx', '/etc/hosts'],
      ['content/trees/power/around', '../..'],
      ['content/units/disk', '/'],
      ['content/units/nowhere.mdx', 'gone.mdx'],
    ] as const;
    for (const [file, to] of links) symlinkSync(to, join(root, file));
    const files = loadContent(root);
    for (const [file] of links) rmSync(join(root, file));

    const refused = compileContent(files).problems.map(({ file, message }) => [file, message.slice(0, 15)]);
    expect(refused).toEqual(links.map(([file]) => [file, 'Unexpected link']));
    expect(files.filter(({ isLink }) => isLink === true)).toHaveLength(4);
    expect(files).toHaveLength(makeContent().length + 4);
  });
});
