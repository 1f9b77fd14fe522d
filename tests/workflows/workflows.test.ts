import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';

interface Job {
  readonly steps: readonly { readonly run?: string; readonly uses?: string }[];
}

const scripts: Readonly<Record<string, string>> = JSON.parse(readFileSync('package.json', 'utf8')).scripts;
const files = readdirSync('.github/workflows');

function jobsOf(file: string): readonly Job[] {
  return Object.values(parse(readFileSync(`.github/workflows/${file}`, 'utf8')).jobs);
}

function commandsOf(file: string): readonly string[] {
  return jobsOf(file).flatMap(({ steps }) => steps.flatMap(({ run }) => run ?? []));
}

describe.each(files)('the workflow %s', (file) => {
  it('runs only scripts that exist', () => {
    const used = commandsOf(file).flatMap((command) =>
      [...command.matchAll(/\bnpm (?:run(?: --silent)? )?(?!ci\b|run\b)([a-z]+)/g)].map(([, name = '']) => name),
    );

    expect(used.length).toBeGreaterThan(0);
    for (const name of used) expect(Object.keys(scripts)).toContain(name);
  });

  it('asks for no more rights than it names, and ends by itself', () => {
    const { permissions, jobs } = parse(readFileSync(`.github/workflows/${file}`, 'utf8'));

    expect(permissions).toBeDefined();
    for (const job of Object.values(jobs)) expect(job).toMatchObject({ 'timeout-minutes': expect.any(Number) });
  });
});

describe('a pull request', () => {
  it('is checked with annotations, tested, and built for a preview', () => {
    const { on } = parse(readFileSync('.github/workflows/check.yml', 'utf8'));
    const commands = commandsOf('check.yml');

    expect(on).toHaveProperty('pull_request');
    expect(commands).toContain('npm run --silent check -- --format github');
    expect(commands).toContain('npm test');
    expect(commands).toContain('npm run build');
    expect(JSON.stringify(jobsOf('check.yml'))).toContain('upload-artifact');
  });

  it('may not write anything', () => {
    expect(parse(readFileSync('.github/workflows/check.yml', 'utf8')).permissions).toEqual({ contents: 'read' });
  });
});

describe('the publishing workflow', () => {
  it('checks, then notes the addresses, then builds', () => {
    const all = commandsOf('publish.yml').join('\n');
    const order = ['npm run --silent check', 'npm run addresses', 'npm run build'].map((command) =>
      all.indexOf(command),
    );

    expect(order.every((place) => place >= 0)).toBe(true);
    expect(order).toEqual(order.toSorted((one, other) => one - other));
  });
});
