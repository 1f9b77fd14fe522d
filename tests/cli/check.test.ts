import { spawnSync } from 'node:child_process';
import { cpSync, mkdtempSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { readCheckCall } from '../../src/cli/check-call.ts';
import { ownEnvironment } from '../support/own-environment.ts';

const root = mkdtempSync(join(tmpdir(), 'halfsplit-check-'));
afterAll(() => rmSync(root, { recursive: true, force: true }));

function run(
  words: readonly string[],
  cwd = process.cwd(),
): { readonly status: number | null; readonly stdout: string; readonly stderr: string } {
  const { status, stdout, stderr } = spawnSync(process.execPath, ['src/cli/check.ts', ...words], {
    cwd,
    encoding: 'utf8',
    env: ownEnvironment(),
  });
  return { status, stdout, stderr };
}

/** A copy of the project whose tree `psu-5v-low` has one outcome that leads nowhere. */
function copyBroken(name = 'broken'): { readonly project: string; readonly line: number } {
  const project = join(root, name);
  for (const part of ['src', 'content', 'package.json', 'tsconfig.json'])
    cpSync(part, join(project, part), { recursive: true });
  symlinkSync(join(process.cwd(), 'node_modules'), join(project, 'node_modules'));
  const path = join(project, 'content/trees/power/psu-5v-low.mdx');
  const lines = readFileSync(path, 'utf8').split('\n');
  const index = lines.findIndex((text) => text.includes('<Outcome') && text.includes(' to="'));
  const mended = lines.with(index, (lines[index] ?? '').replace(/ to="[^"]*"/, ' to="no-such-node-at-all"'));
  writeFileSync(path, mended.join('\n'));
  return { project, line: index + 1 };
}

describe('the words after npm run check', () => {
  const read = (...words: readonly string[]) => readCheckCall(words, '/home/me/halfsplit');

  it('are files and folders, written in any way a shell completes them', () => {
    expect(
      read('./content/trees/power/', 'content\\targets\\a.mdx', '/home/me/halfsplit/content/blocks.yaml'),
    ).toMatchObject({ kind: 'check', named: ['content/trees/power', 'content/targets/a.mdx', 'content/blocks.yaml'] });
    expect(read()).toEqual({ kind: 'check', named: [], format: 'terminal' });
  });

  it('choose a format, a rule or a tree', () => {
    expect(read('--format', 'json')).toMatchObject({ kind: 'check', format: 'json' });
    expect(read('--format=github', 'content')).toMatchObject({ kind: 'check', format: 'github', named: ['content'] });
    expect(read('--explain', 'no-cycle')).toEqual({ kind: 'explain', id: 'no-cycle' });
    expect(read('--worth', 'psu-5v-low')).toEqual({ kind: 'worth', slug: 'psu-5v-low' });
    expect(read('--help')).toMatchObject({ kind: 'help' });
  });

  it.each([
    [
      ['--formt', 'json'],
      'Unexpected option `--formt`, expected --format, --explain, --worth, --help. Did you mean `--format`?',
    ],
    [['-x'], 'Unexpected option `-x`'],
    [['--format', 'jsn'], 'Unexpected format `jsn`, expected terminal, json, github. Did you mean `json`?'],
    [['--format'], 'Unexpected end after `--format`, expected terminal, json, github.'],
    [['--explain'], 'Unexpected end after `--explain`, expected the id of a rule'],
    [['--worth='], 'Unexpected end after `--worth`, expected the slug of a tree.'],
  ])('are refused with a message where they make no sense: %j', (words, message) => {
    const call = read(...words);

    expect(call).toMatchObject({ kind: 'refused', message: expect.stringContaining(message) });
    expect(call).toMatchObject({ message: expect.stringContaining('Usage: npm run check') });
  });
});

describe('npm run check', () => {
  it('is content with the shipped content, and with one folder of it', () => {
    expect(run([])).toMatchObject({ status: 0, stdout: expect.stringMatching(/^0 errors, \d+ warnings?$/m) });
    expect(run(['content/trees/audio'])).toMatchObject({ status: 0, stdout: '0 errors, 0 warnings\n' });
  });

  it('ends with status 1 and the place of an error, in each format', () => {
    const { project, line } = copyBroken();
    const place = `content/trees/power/psu-5v-low.mdx:${line}:`;
    const json = run(['--format', 'json'], project);
    const github = run(['--format', 'github', 'content/trees/power/psu-5v-low.mdx'], project);

    expect(run([], project)).toMatchObject({ status: 1, stdout: expect.stringContaining(place) });
    expect(json.status).toBe(1);
    expect(JSON.parse(json.stdout).problems).toContainEqual(
      expect.objectContaining({
        file: 'content/trees/power/psu-5v-low.mdx',
        line,
        rule: 'known-nodes',
        severity: 'error',
      }),
    );
    expect(github.status).toBe(1);
    expect(github.stdout).toContain(`::error file=content/trees/power/psu-5v-low.mdx,line=${line},col=`);
    expect(run(['content/trees/audio'], project).status).toBe(0);
  });

  it('tells of a tree what is wrong with the targets it names as well', () => {
    const { project } = copyBroken('broken-target');
    const target = 'content/targets/rail-5v-at-chip.mdx';
    const path = join(project, target);
    writeFileSync(path, readFileSync(path, 'utf8').replace('unit: V', 'unit: Ω'));

    const { status, stdout } = run(['content/trees/power/psu-5v-low.mdx'], project);

    expect(status).toBe(1);
    expect(stdout).toMatch(new RegExp(`^${target}:\\d+:\\d+ error `, 'm'));
    expect(run(['content/cautions/mains.mdx'], project)).toMatchObject({ status: 0, stdout: '0 errors, 0 warnings\n' });
  });

  it('keeps what concerns the thesaurus alone to those who ask about it', () => {
    expect(run([]).stdout).not.toContain('[thesaurus-used]');
  });

  it('explains a rule with a wrong and a right example', () => {
    const { status, stdout } = run(['--explain', 'no-cycle']);

    expect(status).toBe(0);
    expect(stdout).toMatch(/^no-cycle: No answer leads back/);
    expect(stdout).toContain('Wrong:\n');
    expect(stdout).toContain('Right:\n');
  });

  it('tells what a tree is worth', () => {
    const { status, stdout } = run(['--worth', 'clock-dead']);

    expect(status).toBe(0);
    expect(stdout).toMatch(/in the order written +\d+\.\d +\d+\.\d/);
    expect(stdout).toMatch(/isolated to one end \d+ %/);
  });

  it.each([
    [['--explain', 'no-cycel'], 'Did you mean `no-cycle`?'],
    [['--worth', 'psu-5v-lwo'], 'Did you mean `psu-5v-low`?'],
    [['content/trees/power/psu-5v-lwo.mdx'], 'Did you mean `content/trees/power/psu-5v-low.mdx`?'],
    [['psu-5v-low'], 'Did you mean `content/trees/power/psu-5v-low.mdx`?'],
    [['../secrets.txt'], 'Unexpected file `../secrets.txt`, expected one under content/.'],
  ])('ends with status 2 and a name that is near for %j', (words, message) => {
    expect(run(words)).toMatchObject({ status: 2, stderr: expect.stringContaining(message) });
  });
});
