import { existsSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { build } from 'vite';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { guardContent } from '#build/guard-content.ts';
import { runCheck } from '../../src/cli/check.ts';
import { plantCode, putFile } from '../support/plant-code.ts';
import { addressFile, makeContent } from './make-content.ts';

// tests/site/second-site.test.ts builds a whole site with the same files in it, and without the guard.
const root = mkdtempSync(join(tmpdir(), 'halfsplit-no-code-'));
const marker = join(root, 'ran.txt');
let planted: ReturnType<typeof plantCode>;

beforeAll(() => {
  planted = plantCode(root, marker);
  for (const { file, text } of makeContent()) putFile(root, file, file === addressFile ? '/\n' : text);
});
afterAll(() => rmSync(root, { recursive: true, force: true }));

describe('every spelling of code, in every kind of file', () => {
  it('is planted more than a hundred and fifty times', () => {
    expect(planted.length).toBeGreaterThan(150);
    for (const kind of ['trees', 'targets', 'cautions', 'units']) {
      expect(planted.filter(({ file }) => file.startsWith(`content/${kind}/`)).length, kind).toBeGreaterThan(30);
    }
  });

  it('is refused by the check with its line and column, and runs nothing there', () => {
    const { status, said } = runCheck([], root);

    expect(status).toBe(1);
    const silent = planted.filter(({ file }) => !new RegExp(`^${file}:\\d+:\\d+ error `, 'm').test(said));
    expect(silent).toEqual([]);
    expect(existsSync(marker)).toBe(false);
  });

  it('stops a build before anything is made', async () => {
    putFile(root, 'entry.js', 'export default 1;');
    const made = build({
      root,
      configFile: false,
      logLevel: 'silent',
      plugins: [guardContent(root)],
      build: { outDir: 'dist', rolldownOptions: { input: join(root, 'entry.js') } },
    });

    await expect(made).rejects.toThrow('content/ has errors');
    expect(existsSync(join(root, 'dist'))).toBe(false);
    expect(existsSync(marker)).toBe(false);
  });
});
