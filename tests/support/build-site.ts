import { execFileSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { cpSync, readdirSync, readFileSync, statSync, symlinkSync } from 'node:fs';
import { join, resolve } from 'node:path';

/** Copies the program to another folder, without content/; its packages stay where they are. */
export function copyProgram(project: string): void {
  for (const part of ['src', 'public', 'package.json', 'tsconfig.json', 'astro.config.mjs']) {
    cpSync(part, join(project, part), { recursive: true });
  }
  symlinkSync(resolve('node_modules'), join(project, 'node_modules'));
}

/** Builds the site of the project in `cwd`, in an environment of its own. */
export function buildSite(cwd: string, env: NodeJS.ProcessEnv, ...more: readonly string[]): void {
  const astro = resolve('node_modules/astro/bin/astro.mjs');
  execFileSync(process.execPath, [astro, 'build', '--silent', ...more], { cwd, env, stdio: 'pipe' });
}

/** The hash of each file of a folder, by its path. */
export function hashFiles(folder: string): ReadonlyMap<string, string> {
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
