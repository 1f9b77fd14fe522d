import { spawnSync } from 'node:child_process';
import { describe, expect, test } from 'vitest';

/** Runs the command with a problem on its standard input. */
function run(problem: unknown, ...words: readonly string[]) {
  const input = typeof problem === 'string' ? problem : JSON.stringify(problem);
  const { status, stdout, stderr } = spawnSync(process.execPath, ['src/cli/plan.ts', '-', ...words], {
    encoding: 'utf8',
    input,
  });
  return { status, stdout, stderr };
}

// Half-split of four equal stages: two probes each way.
const path = {
  stages: ['a', 'b', 'c', 'd'].map((id) => ({ id, weight: 1 })),
  probes: [{ minutes: 3 }, { minutes: 3 }, { minutes: 3 }],
};

describe('npm run plan', () => {
  test('prints the plan of a problem as JSON with the fields of its description, and nothing else', () => {
    const { status, stdout, stderr } = run(
      { goal: 'repair', causes: [{ id: 'a', weight: 1, repairMinutes: 9 }], proveMinutes: 2 },
      '--json',
    );
    expect([status, stderr]).toEqual([0, '']);
    expect(JSON.parse(stdout)).toEqual({
      posterior: [{ id: 'a', probability: 1 }],
      next: { repair: 'a' },
      expectedMinutes: 11,
      exact: true,
      atLeast: 11,
      atMost: 11,
      worstMinutes: 11,
      groups: [['a']],
    });
  });

  test('plans a signal path by its probes', () => {
    expect(JSON.parse(run(path, '--json').stdout)).toMatchObject({
      next: { probe: 1 },
      expectedMinutes: 6,
      worstMinutes: 6,
      exact: true,
    });
    expect(run(path).stdout).toContain('next      probe 1');
  });

  test('refuses a bad file with a message for each fault and status 1, in JSON too', () => {
    const { status, stdout, stderr } = run({ goal: 'fix', causes: [] }, '--json');
    expect(status).toBe(1);
    expect(stderr).toContain('error at goal: Unexpected text `fix`, expected `isolate` or `repair`');
    expect(JSON.parse(stdout)).toMatchObject({ messages: [{ where: 'causes' }, { where: 'goal' }] });
    expect(run('{', '--json').status).toBe(1);
  });

  test('names contradicting answers instead of planning', () => {
    const { status, stderr } = run({
      ...path,
      evidence: [
        { probe: 0, outcome: 'bad' },
        { probe: 2, outcome: 'good' },
      ],
    });
    expect(status).toBe(1);
    expect(stderr).toContain('the probe after `a` bad and the probe after `c` good');
  });

  test('answers a wrong call with its usage and status 2', () => {
    for (const words of [[], ['a', 'b'], ['a', '--fast'], ['a', '--states', '0']]) {
      const { status, stderr } = spawnSync(process.execPath, ['src/cli/plan.ts', ...words], { encoding: 'utf8' });
      expect(status).toBe(2);
      expect(stderr).toContain('Usage: npm run plan --');
    }
    expect(spawnSync(process.execPath, ['src/cli/plan.ts', 'no-such-file.json'], { encoding: 'utf8' }).status).toBe(2);
  });
});
