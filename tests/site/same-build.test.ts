import { execFileSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { cpSync, mkdtempSync, readdirSync, readFileSync, rmSync, statSync, symlinkSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { ownEnvironment } from '../support/own-environment.ts';

// The site of these files once more: from another folder, with another clock, in another zone of time and another language. The site of
// second-site.test.ts cannot stand for it: its content and addresses are others on purpose.
const root = mkdtempSync(join(tmpdir(), 'halfsplit-same-build-'));
const project = join(root, 'elsewhere', 'under another name');
const clock = pathToFileURL(resolve('tests/support/other-clock.mjs')).href;
const environment = {
  ...ownEnvironment(),
  NODE_OPTIONS: `--import=${clock}`,
  TZ: 'Pacific/Kiritimati',
  LANG: 'de_DE.UTF-8',
  LC_ALL: 'de_DE.UTF-8',
};

beforeAll(() => {
  for (const part of ['src', 'content', 'public', 'package.json', 'tsconfig.json', 'astro.config.mjs']) {
    cpSync(part, join(project, part), { recursive: true });
  }
  symlinkSync(resolve('node_modules'), join(project, 'node_modules'));
  execFileSync(process.execPath, ['node_modules/astro/bin/astro.mjs', 'build', '--silent'], {
    cwd: project,
    env: environment,
    stdio: 'pipe',
  });
}, 600_000);
afterAll(() => rmSync(root, { recursive: true, force: true }));

/** The hash of each file of a folder, by its path. */
function hashFiles(folder: string): ReadonlyMap<string, string> {
  return new Map(
    readdirSync(folder, { recursive: true, encoding: 'utf8' })
      .filter((path) => statSync(join(folder, path)).isFile())
      .sort()
      .map(
        (path) =>
          [
            path,
            createHash('sha256')
              .update(readFileSync(join(folder, path)))
              .digest('hex'),
          ] as const,
      ),
  );
}

describe('a second build of the same files', () => {
  it('has another clock', () => {
    const said = execFileSync(
      process.execPath,
      ['--eval', 'console.log(Date.now(), new Date().getTime(), new Date(0).getHours())'],
      {
        env: environment,
        encoding: 'utf8',
      },
    );
    const [now = 0, made = 0, hours] = said.split(' ').map(Number);

    expect(now - Date.now()).toBeGreaterThan(4 * 365 * 86_400_000);
    expect(made - Date.now()).toBeGreaterThan(4 * 365 * 86_400_000);
    // Kiritimati kept 10 hours 40 minutes behind Greenwich in 1970: IANA Time Zone Database, Pacific/Kiritimati.
    expect(hours).toBe(13);
  });

  it('is the first, byte for byte, with no file more or less', () => {
    const first = hashFiles('dist');
    const second = hashFiles(join(project, 'dist'));
    const others = [...new Set([...first.keys(), ...second.keys()])].filter(
      (path) => first.get(path) !== second.get(path),
    );

    expect(first.size).toBeGreaterThan(1000);
    expect(others).toEqual([]);
  });
});

describe('what is left out of the bundles', () => {
  // The constant by which that library splits a number in two: J. R. Shewchuk, Adaptive Precision Floating-Point Arithmetic, 1997.
  it('is the one library below a shipped one that has no permissive licence: robust-predicates', () => {
    const holding = (folder: string): readonly string[] =>
      readdirSync(folder).filter(
        (file) => file.endsWith('.js') && /134217729|2 ?\*\* ?27/u.test(readFileSync(join(folder, file), 'utf8')),
      );

    expect(holding('node_modules/robust-predicates/esm')).not.toEqual([]);
    expect([...holding('dist/_astro'), ...holding('dist')]).toEqual([]);
  });
});
