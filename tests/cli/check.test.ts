import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { readCheckCall, runCheck } from '../../src/cli/check.ts';
import { type Edit, makeContent, sampleFile, targetFile } from '../compiler/make-content.ts';
import { ownEnvironment } from '../support/own-environment.ts';

const root = mkdtempSync(join(tmpdir(), 'halfsplit-check-'));
afterAll(() => rmSync(root, { recursive: true, force: true }));

const run = (words: readonly string[], project = process.cwd()) => runCheck(words, project);

/** The command itself, in a process of its own. */
function call(
  words: readonly string[],
  project = process.cwd(),
): { readonly status: number | null; readonly stdout: string; readonly stderr: string } {
  const { status, stdout, stderr } = spawnSync(process.execPath, [join(process.cwd(), 'src/cli/check.ts'), ...words], {
    cwd: project,
    encoding: 'utf8',
    env: ownEnvironment(),
  });
  return { status, stdout, stderr };
}

/** A project on disk that holds the sample content after an edit. */
function makeProject(name: string, edit: Edit): string {
  const project = join(root, name);
  for (const { file, text } of makeContent([edit])) {
    const path = join(project, file);
    mkdirSync(dirname(path), { recursive: true });
    writeFileSync(path, text);
  }
  return project;
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
  it('is content with the shipped content, and keeps what concerns the thesaurus alone to those who ask about it', () => {
    const { status, stdout } = call([]);
    expect([status, stdout]).toEqual([0, expect.stringMatching(/^0 errors, \d+ warnings?$/m)]);
    expect(stdout).not.toContain('[thesaurus-used]');
  });

  it('is content with one folder of the shipped content', () => {
    expect(run(['content/trees/audio'])).toEqual({ status: 0, said: '0 errors, 0 warnings' });
  });

  it('ends with status 1 and the place of an error, in each format', () => {
    const project = makeProject('broken', {
      from: '<Outcome when="in" to="inside"',
      to: '<Outcome when="in" to="no-such-node"',
    });
    const line = 32;
    const json = run(['--format', 'json'], project);
    const github = run(['--format', 'github', sampleFile], project);

    expect(call([], project)).toMatchObject({
      status: 1,
      stdout: expect.stringContaining(`${sampleFile}:${line}:`),
      stderr: '',
    });
    expect(json.status).toBe(1);
    expect(JSON.parse(json.said).problems).toContainEqual(
      expect.objectContaining({ file: sampleFile, line, rule: 'known-nodes', severity: 'error' }),
    );
    expect(github.status).toBe(1);
    expect(github.said).toContain(`::error file=${sampleFile},line=${line},col=`);
    expect(run(['content/cautions'], project).status).toBe(0);
  });

  it('tells of a tree what is wrong with the targets it names as well', () => {
    const project = makeProject('broken-target', { file: targetFile, from: 'unit: V', to: 'unit: Ω' });

    const { status, said } = run([sampleFile], project);

    expect(status).toBe(1);
    expect(said).toMatch(new RegExp(`^${targetFile}:\\d+:\\d+ error `, 'm'));
    expect(run(['content/cautions/mains.mdx'], project)).toEqual({ status: 0, said: '0 errors, 0 warnings' });
  });

  it('explains a rule with a wrong and a right example', () => {
    const { status, said } = run(['--explain', 'no-cycle']);

    expect(status).toBe(0);
    expect(said).toMatch(/^no-cycle: No answer leads back/);
    expect(said).toContain('Wrong:\n');
    expect(said).toContain('Right:\n');
  });

  it('tells what a tree is worth', () => {
    const { status, said } = run(['--worth', 'clock-dead']);

    expect(status).toBe(0);
    expect(said).toMatch(/in the order written +\d+\.\d +\d+\.\d/);
    expect(said).toMatch(/isolated to one end \d+ %/);
  });

  it.each([
    [['--explain', 'no-cycel'], 'Did you mean `no-cycle`?'],
    [['--worth', 'psu-5v-lwo'], 'Did you mean `psu-5v-low`?'],
    [['content/trees/power/psu-5v-lwo.mdx'], 'Did you mean `content/trees/power/psu-5v-low.mdx`?'],
    [['psu-5v-low'], 'Did you mean `content/trees/power/psu-5v-low.mdx`?'],
    [['../secrets.txt'], 'Unexpected file `../secrets.txt`, expected one under content/.'],
  ])('ends with status 2 and a name that is near for %j', (words, message) => {
    expect(run(words)).toMatchObject({ status: 2, said: expect.stringContaining(message) });
  });

  it('says on standard error what it was not asked well', () => {
    expect(call(['../secrets.txt'])).toMatchObject({
      status: 2,
      stdout: '',
      stderr: expect.stringMatching(/^Unexpected/),
    });
  });
});
