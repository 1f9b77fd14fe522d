import { execFileSync, spawnSync } from 'node:child_process';
import { cpSync, existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { guardContent } from '#build/guard-content.ts';
import { forgetContent } from '#build/library.ts';
import { createServer } from 'vite';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { makeContent, sampleFile } from './make-content.ts';
import { ownEnvironment } from '../support/own-environment.ts';

const root = mkdtempSync(join(tmpdir(), 'halfsplit-no-code-'));
const marker = join(root, 'ran.txt');

/** Writes the marker file from wherever it is evaluated; no import is needed. */
const write = `globalThis.process.getBuiltinModule('node:fs').writeFileSync(${JSON.stringify(marker)}, 'ran')`;

afterAll(() => rmSync(root, { recursive: true, force: true }));

function put(path: string, text: string): void {
  mkdirSync(dirname(path), { recursive: true });
  writeFileSync(path, text);
}

/** A copy of the whole project with the sample content, in which `words` stand in line 28 of the sample tree. */
function copyProject(name: string, words: string): string {
  const project = join(root, name);
  for (const part of ['src', 'public', 'package.json', 'tsconfig.json', 'astro.config.mjs']) {
    cpSync(part, join(project, part), { recursive: true });
  }
  symlinkSync(join(process.cwd(), 'node_modules'), join(project, 'node_modules'));
  const content = makeContent([{ from: 'Read the rail at the farthest chip.', to: words }]);
  for (const { file, text } of content) put(join(project, file), text);
  return project;
}

function build(project: string): { readonly status: number | null; readonly output: string } {
  const { status, stdout, stderr } = spawnSync(process.execPath, ['node_modules/astro/bin/astro.mjs', 'build'], {
    cwd: project,
    env: { ...ownEnvironment(), ASTRO_TELEMETRY_DISABLED: '1', NO_COLOR: '1' },
    encoding: 'utf8',
    timeout: 150_000,
  });
  return { status, output: stdout + stderr };
}

const attempts: readonly (readonly [name: string, words: string, place: string])[] = [
  ['expression', `Read {(${write}, 'x')} volts.`, '28:6'],
  ['attribute', `Read.\n\n<Caution use={(${write}, 'mains')} />`, '30:10'],
  ['import', `Read.\n\nimport '${join(root, 'evil.mjs')}'\n\nRead again.`, '30:1'],
  ['export', `Read.\n\nexport const volts = (${write}, 5)\n\nRead again.`, '30:1'],
];

describe('a tree that tries to run code', () => {
  it.each(attempts)(
    'does not get through a build as an %s, and is told where it stands',
    (name, words, place) => {
      writeFileSync(join(root, 'evil.mjs'), `${write};\n`);

      const { status, output } = build(copyProject(name, words));

      expect(existsSync(marker)).toBe(false);
      expect(output).toContain(`${sampleFile}:${place} error Unexpected `);
      expect(output).toContain('[no-code]');
      expect(status).not.toBe(0);
    },
    180_000,
  );

  it.each(attempts)('does not get through npm run check as an %s', (name, words, place) => {
    writeFileSync(join(root, 'evil.mjs'), `${write};\n`);
    const project = copyProject(`check-${name}`, words);

    const { status, stdout } = spawnSync(process.execPath, ['src/cli/check.ts'], {
      cwd: project,
      env: ownEnvironment(),
      encoding: 'utf8',
    });

    expect(existsSync(marker)).toBe(false);
    expect(stdout).toContain(`${sampleFile}:${place} error Unexpected `);
    expect(status).toBe(1);
  });

  it.each(attempts)('is no module, not even under npm run dev: an %s does not reach a page', async (name, words) => {
    writeFileSync(join(root, 'evil.mjs'), `${write};\n`);
    const project = copyProject(`page-${name}`, words);
    forgetContent();
    const server = await createServer({
      root: project,
      configFile: false,
      logLevel: 'silent',
      appType: 'custom',
      server: { middlewareMode: true, ws: false, watch: null },
      plugins: [guardContent(project)],
    });

    await expect(server.ssrLoadModule(`/${sampleFile}`)).rejects.toThrow(`${sampleFile} is data`);
    await server.close();
    forgetContent();
    expect(existsSync(marker)).toBe(false);
  });
});

describe('the marker file', () => {
  beforeAll(() => rmSync(marker, { force: true }));

  it('is written by the module that the tree tried to import, so its absence says something', () => {
    writeFileSync(join(root, 'evil.mjs'), `${write};\n`);
    execFileSync(process.execPath, [
      '--input-type=module',
      '--eval',
      `import ${JSON.stringify(join(root, 'evil.mjs'))}`,
    ]);

    expect(readFileSync(marker, 'utf8')).toBe('ran');
    rmSync(marker);
  });

  it('is written when Astro builds the same expression with no guard in front', () => {
    const project = join(root, 'unguarded');
    put(
      join(project, 'astro.config.mjs'),
      "import mdx from '@astrojs/mdx';\nexport default { integrations: [mdx()], devToolbar: { enabled: false } };\n",
    );
    put(join(project, 'package.json'), '{ "type": "module" }\n');
    put(join(project, 'src/pages/index.mdx'), `Read {(${write}, 'x')} volts.\n`);
    symlinkSync(join(process.cwd(), 'node_modules'), join(project, 'node_modules'));

    const { status, output } = build(project);

    expect(status, output).toBe(0);
    expect(readFileSync(marker, 'utf8')).toBe('ran');
  }, 180_000);
});
