import { execFileSync } from 'node:child_process';
import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { readChange, writeNotes } from '../../src/cli/changes.ts';

interface Step {
  readonly run?: string;
  readonly uses?: string;
  readonly with?: Readonly<Record<string, unknown>>;
}
interface Job {
  readonly permissions?: Readonly<Record<string, string>>;
  readonly steps: readonly Step[];
}
interface Workflow {
  readonly on: Readonly<Record<string, unknown>>;
  readonly permissions: Readonly<Record<string, string>>;
  readonly jobs: Readonly<Record<string, Job>>;
}

const scripts: Readonly<Record<string, string>> = JSON.parse(readFileSync('package.json', 'utf8')).scripts;
const files = readdirSync('.github/workflows');

function read(file: string): Workflow {
  return parse(readFileSync(`.github/workflows/${file}`, 'utf8'));
}

function stepsOf(file: string): readonly Step[] {
  return Object.values(read(file).jobs).flatMap(({ steps }) => steps);
}

function commandsOf(steps: readonly Step[]): readonly string[] {
  return steps.flatMap(({ run }) => run ?? []);
}

function mayWrite({ permissions }: Job): boolean {
  return Object.values(permissions ?? {}).includes('write');
}

describe.each(files)('the workflow %s', (file) => {
  it('runs only scripts that exist', () => {
    const used = commandsOf(stepsOf(file)).flatMap((command) =>
      [...command.matchAll(/\bnpm (?:run(?: --silent)? )?(?!ci\b|run\b)([a-z:]+)/g)].map(([, name = '']) => name),
    );

    expect(used.length).toBeGreaterThan(0);
    for (const name of used) expect(Object.keys(scripts)).toContain(name);
  });

  it('asks for no right to write but in a job of its own, and ends by itself', () => {
    const { permissions, jobs } = read(file);

    expect(Object.values(permissions).filter((right) => right !== 'read')).toEqual([]);
    for (const job of Object.values(jobs)) expect(job).toMatchObject({ 'timeout-minutes': expect.any(Number) });
  });

  it('names every action by the hash of its commit, and leaves no token on the disk', () => {
    const used = stepsOf(file).filter(({ uses }) => uses !== undefined);

    expect(used.length).toBeGreaterThan(0);
    for (const step of used) {
      expect(step.uses).toMatch(/^actions\/[a-z-]+@[0-9a-f]{40}$/);
      if (step.uses?.startsWith('actions/checkout@')) expect(step.with).toMatchObject({ 'persist-credentials': false });
    }
  });

  it('runs in a job that may write nothing of the project: git and text tools alone', () => {
    for (const job of Object.values(read(file).jobs).filter(mayWrite)) {
      const words = commandsOf(job.steps).flatMap(
        (command) => command.match(/\b(?:npm|npx|node|vitest|astro)\b/g) ?? [],
      );

      expect(words).toEqual([]);
      expect(job.steps.some(({ uses }) => uses?.startsWith('actions/setup-node@'))).toBe(false);
    }
  });

  it('puts nothing that a stranger may have written into a command, and is not started with rights by a pull request', () => {
    const { on } = read(file);

    expect(commandsOf(stepsOf(file)).filter((command) => command.includes('${{'))).toEqual([]);
    expect(Object.keys(on).filter((event) => /pull_request_target|workflow_run|issue_comment/.test(event))).toEqual([]);
  });
});

describe('a pull request', () => {
  it('is checked with annotations, tested by what it changes, and built for a preview, in jobs that may only read', () => {
    const { on, permissions, jobs } = read('check.yml');
    const commands = commandsOf(stepsOf('check.yml'));

    expect(on).toHaveProperty('pull_request');
    expect(permissions).toEqual({ contents: 'read' });
    expect(Object.values(jobs).filter(({ permissions: own }) => own !== undefined)).toEqual([]);
    expect(commands).toContain('npm run --silent check -- --format github');
    expect(commands).toContain('npm run test:content');
    expect(commands).toContain('npm test');
    expect(commands).toContain('npm run build');
  });
});

describe('the publishing workflow', () => {
  it('builds and tests where it may only read, publishes if both succeed the built folder, then notes the addresses', () => {
    const { jobs } = read('publish.yml');
    const rights = Object.entries(jobs).map(([name, { permissions }]) => [name, permissions]);

    expect(rights).toEqual([
      ['build', { contents: 'read' }],
      ['tests', { contents: 'read' }],
      ['deploy', { pages: 'write', 'id-token': 'write' }],
      ['note-addresses', { contents: 'write' }],
    ]);
    expect(jobs).toMatchObject({
      deploy: { needs: ['build', 'tests'] },
      'note-addresses': { needs: ['build', 'deploy'] },
    });
  });
});

// Messages and what they mean: the examples of Conventional Commits 1.0.0.
describe('the notes of a release', () => {
  it.each([
    [
      'feat(lang): add Polish language',
      { type: 'feat', scope: 'lang', says: 'add Polish language', breaks: undefined },
    ],
    [
      'feat!: send an email to the customer when a product is shipped',
      {
        type: 'feat',
        scope: undefined,
        says: 'send an email to the customer when a product is shipped',
        breaks: 'send an email to the customer when a product is shipped',
      },
    ],
    [
      'feat: allow provided config object to extend other configs\n\nBREAKING CHANGE: `extends` key in config file is now used\nfor extending other config files\nRefs: #123',
      {
        type: 'feat',
        scope: undefined,
        says: 'allow provided config object to extend other configs',
        breaks: '`extends` key in config file is now used for extending other config files',
      },
    ],
    ['Merge branch x', undefined],
  ])('read %s', (message, change) => {
    expect(readChange(message)).toEqual(change);
  });

  it('say first what has to be changed, then what is new and fixed, and take no mark of a message for one of their own', () => {
    const messages = ['fix: a <b>rail</b>', 'test: more', 'feat(search): [words](x)', 'feat!: trees say since when'];

    expect(writeNotes(messages.flatMap((message) => readChange(message) ?? []))).toBe(
      [
        '## Change this when you upgrade',
        '- trees say since when',
        '## New',
        '- search: \\[words\\](x)\n- trees say since when',
        '## Fixed',
        '- a \\<b\\>rail\\</b\\>\n',
      ].join('\n\n'),
    );
  });
});

describe('the summary of a pull request', () => {
  it('draws each changed tree by its slug and tells its worth, whatever the names of the files are', () => {
    const names = 'content/trees/power/psu-ripple.mdx\0content/trees/power/`x` <img src=x>.mdx\0';
    const summary = execFileSync('node', ['src/cli/summary.ts'], { input: names, encoding: 'utf8' });

    expect(summary.match(/^### .*$/gm)).toEqual(['### psu-ripple']);
    expect(summary).toContain('```mermaid\nflowchart TB\nn0{"');
    expect(summary).toContain('Minutes until one end is isolated');
    expect(summary).not.toContain('<img');
  });
});
