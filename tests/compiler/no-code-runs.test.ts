import { spawnSync } from 'node:child_process';
import {
  cpSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { addressFile, makeContent } from './make-content.ts';
import { hostileFiles, spellEverywhere } from '../support/hostile-files.ts';
import { ownEnvironment } from '../support/own-environment.ts';

const root = mkdtempSync(join(tmpdir(), 'halfsplit-no-code-'));
const project = join(root, 'project');
const marker = join(root, 'ran.txt');
const control = join(root, 'control.txt');

/** Writes a file from wherever it is evaluated; no import is needed. */
const writes = (file: string): string =>
  `globalThis.process.getBuiltinModule('node:fs').writeFileSync(${JSON.stringify(file).replaceAll('"', "'")}, 'ran')`;
const moduleThatWrites = (file: string): string => `data:text/javascript,${writes(file)}`;

/** Beside the spellings of modules: expressions wherever a parser may see one, and what a carriage return smuggles into front matter. */
const expressions: readonly (readonly [name: string, words: string])[] = [
  ['an expression', `Read {(${writes(marker)}, 'x')} volts.`],
  ['an attribute', `Read.\n\n<Caution use={(${writes(marker)}, 'mains')} />`],
  ['a spread', `Read.\n\n<Caution {...(${writes(marker)}, {})} />`],
  ['a footnote', `Read.\n\n[^a]: \nexport const x = ${writes(marker)}`],
];

function put(file: string, text: string): void {
  const path = join(project, file);
  mkdirSync(dirname(path), { recursive: true });
  writeFileSync(path, text);
}

/** Every hostile file beside the sample content, each under a name of its own; tables take the place of the sample's. */
const planted: readonly { readonly name: string; readonly file: string }[] = [
  ...spellEverywhere(moduleThatWrites(marker), writes(marker)),
  ...expressions.map(([name, words]) => {
    const [first] = makeContent([{ from: 'Read the rail at the farthest chip.', to: words }]).filter(({ file }) =>
      file.endsWith('/sample-tree.mdx'),
    );
    return { name, file: first?.file ?? '', text: first?.text ?? '' };
  }),
  ...hostileFiles
    .filter(({ name }) => name.startsWith('a field behind a carriage return'))
    .map((smuggled) => ({
      ...smuggled,
      text: smuggled.text.replace(/layout: "[^"]*"/, `layout: "${moduleThatWrites(marker)}"`),
    })),
].map(({ name, file, text }, index) => {
  const folder = file.split('/').slice(0, -1).join('/');
  const isTable = file.endsWith('.yaml');
  // A table has one name: its hostile lines lie in files that no page is made from, which the check refuses as well.
  const path = `${folder}/${isTable ? 'points-' : 'hostile-'}${index}.${isTable ? 'yaml' : 'mdx'}`;
  put(path, text);
  return { name, file: path };
});

beforeAll(() => {
  for (const part of ['src', 'public', 'package.json', 'tsconfig.json'])
    cpSync(part, join(project, part), { recursive: true });
  symlinkSync(join(process.cwd(), 'node_modules'), join(project, 'node_modules'));
  for (const { file, text } of makeContent()) if (file !== addressFile) put(file, text);
  put(addressFile, '/\n');
});
afterAll(() => rmSync(root, { recursive: true, force: true }));

function run(script: string, ...words: readonly string[]): { readonly status: number | null; readonly output: string } {
  const { status, stdout, stderr } = spawnSync(process.execPath, [script, ...words], {
    cwd: project,
    env: { ...ownEnvironment(), ASTRO_TELEMETRY_DISABLED: '1', NO_COLOR: '1' },
    encoding: 'utf8',
    timeout: 170_000,
    maxBuffer: 100_000_000,
  });
  return { status, output: stdout + stderr };
}

describe('every spelling of code, in every kind of file', () => {
  it('is planted more than a hundred and fifty times', () => {
    expect(planted.length).toBeGreaterThan(150);
    for (const kind of ['trees', 'targets', 'cautions', 'units']) {
      expect(planted.filter(({ file }) => file.startsWith(`content/${kind}/`)).length, kind).toBeGreaterThan(30);
    }
  });

  it('is refused by the check with its line and column, and runs nothing there', () => {
    const { status, output } = run('src/cli/check.ts');

    expect(status).toBe(1);
    const silent = planted.filter(({ file }) => !new RegExp(`^${file}:\\d+:\\d+ error `, 'm').test(output));
    expect(silent).toEqual([]);
    expect(existsSync(marker)).toBe(false);
  });

  it('stops a build before a page is made', () => {
    cpSync('astro.config.mjs', join(project, 'astro.config.mjs'));

    const { status, output } = run('node_modules/astro/bin/astro.mjs', 'build');

    expect(status).not.toBe(0);
    expect(output).toContain('content/ has errors');
    expect(existsSync(marker)).toBe(false);
  }, 180_000);

  it('runs nothing in a build that no check stops, while a page of the project itself does run its code', () => {
    const config = readFileSync('astro.config.mjs', 'utf8');
    const guard = 'guardContent(), ';
    expect(config).toContain(guard);
    put('astro.config.mjs', config.replace(guard, ''));
    put('src/pages/control.mdx', `import{}from"${moduleThatWrites(control)}"\n\nRead.\n`);

    const { status, output } = run('node_modules/astro/bin/astro.mjs', 'build');

    expect(status, output.slice(-2_000)).toBe(0);
    expect(readdirSync(join(project, 'dist/trees'))).toContain('sample-tree');
    expect(readFileSync(control, 'utf8')).toBe('ran');
    expect(existsSync(marker)).toBe(false);
  }, 180_000);
});
