import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { planFile, readProblem, readProblemText } from '#core/diagnosis/read-problem.ts';

const sound = {
  causes: [
    { id: 'a', weight: 3, repairMinutes: 5 },
    { id: 'b', weight: 1, repairMinutes: 7, repairSuccess: 0.9, repairSetup: ['open'] },
  ],
  checks: [
    {
      id: 'x',
      minutes: 2,
      setup: ['open'],
      outcomes: ['low', 'in'],
      likelihood: [
        [0.9, 0.1],
        [0.2, 0.8],
      ],
    },
  ],
  setups: [{ id: 'open', minutes: 4 }],
  goal: 'repair',
  evidence: [{ check: 'x', likelihood: [2, 1] }],
};

/** The places of the messages, each with its first words. */
function refuse(change: object): readonly string[] {
  const read = readProblem({ ...sound, ...change });
  if (read.kind !== 'refused') throw new Error('this was accepted');
  return read.messages
    .filter((message) => message.kind === 'error')
    .map((message) => `${message.where}: ${message.text}`);
}

describe('readProblem', () => {
  test('fills in what a file leaves out: no repair, success 1, no set-ups, proof 0, give up at 240, no evidence', () => {
    const read = readProblem({ causes: [{ id: 'a', weight: 1 }], goal: 'repair' });
    expect(read).toMatchObject({
      kind: 'read',
      notes: [],
      problem: {
        causes: [{ id: 'a', repairSuccess: 1, repairSetup: [] }],
        checks: [],
        setups: [],
        proveMinutes: 0,
        giveUpMinutes: 240,
        evidence: [],
      },
    });
    expect(read.kind === 'read' && 'causes' in read.problem && read.problem.causes[0]?.repairMinutes).toBeUndefined();
  });

  test.each([
    [{ goal: 'fix' }, 'goal: Unexpected text `fix`, expected `isolate` or `repair`'],
    [{ causes: [] }, 'causes: Unexpected list of 0, expected at least 1'],
    [{ causes: 3 }, 'causes: Unexpected `3`, expected a list in square brackets'],
    [
      {
        causes: [
          { id: 'a', weight: 0 },
          { id: 'b', weight: 0 },
        ],
      },
      'causes: Unexpected weight 0 for every cause, expected at least one above 0',
    ],
    [
      {
        causes: [
          { id: 'a', weight: -1 },
          { id: 'b', weight: 1 },
        ],
      },
      'causes[0].weight: Unexpected `-1`, expected a number of at least 0',
    ],
    [
      {
        causes: [
          { id: 'a', weight: 1 },
          { id: 'a', weight: 1 },
        ],
      },
      'causes: Unexpected second text `a`, expected a name of its own for each',
    ],
    [
      {
        causes: [
          { id: 'a', weight: 1 },
          { id: 'b', weight: 1, repairSuccess: 1.2 },
        ],
      },
      'causes[1].repairSuccess: Unexpected `1.2`, expected a number from 0 to 1',
    ],
    [
      {
        causes: [
          { id: 'a', weight: 1 },
          { id: 'b', weight: 1, repairSetup: ['shut'] },
        ],
      },
      'causes[1].repairSetup[0]: Unexpected text `shut`, expected `open`',
    ],
    [
      { checks: [{ ...sound.checks[0], likelihood: [[0.9, 0.1]] }] },
      'checks[0].likelihood: Unexpected 1 rows, expected 2: one for each cause, in the same order',
    ],
    [
      {
        checks: [
          {
            ...sound.checks[0],
            likelihood: [
              [0.9, 0.1],
              [0.2, 0.5],
            ],
          },
        ],
      },
      'checks[0].likelihood[1]: Unexpected row that sums to 0.7, expected 1: every check comes out one way or another',
    ],
    [
      { checks: [{ ...sound.checks[0], minutes: '2' }] },
      'checks[0].minutes: Unexpected text `2`, expected a number of at least 0',
    ],
    [{ evidence: [{ check: 'y', outcome: 'low' }] }, 'evidence[0].check: Unexpected text `y`, expected `x`'],
    [{ evidence: [{ check: 'x', outcome: 'lo' }] }, 'evidence[0].outcome: Unexpected text `lo`, expected `low`, `in`'],
    [
      { evidence: [{ check: 'x', likelihood: [0, 0] }] },
      'evidence[0].likelihood: Unexpected zeros only, expected at least one outcome that agrees with the reading',
    ],
    [
      { evidence: [{ check: 'x', likelihood: [1] }] },
      'evidence[0].likelihood: Unexpected 1 numbers, expected 2: one for each outcome of `x`',
    ],
    [{ evidence: [{ repaired: 'z' }] }, 'evidence[0].repaired: Unexpected text `z`, expected `a`, `b`'],
  ])('says what is wrong and where: %j', (change, message) => {
    expect(refuse(change)).toContain(message);
  });

  test('collects every message, not only the first', () => {
    expect(refuse({ goal: 7, causes: [{ weight: null }], checks: 'none' }).length).toBeGreaterThanOrEqual(4);
  });

  test('scales a row that is off by rounding and says so; keeps one that is exact to the bit', () => {
    const read = readProblem({
      ...sound,
      checks: [
        {
          ...sound.checks[0],
          likelihood: [
            [0.33, 0.66],
            [0.2, 0.8],
          ],
        },
      ],
    });
    expect(read).toMatchObject({
      kind: 'read',
      problem: {
        checks: [
          {
            likelihood: [
              [0.33 / 0.99, 0.66 / 0.99],
              [0.2, 0.8],
            ],
          },
        ],
      },
    });
    expect(read.kind === 'read' && read.notes.map((note) => note.where)).toEqual(['checks[0].likelihood[0]']);
  });

  test('notes a key that nothing reads', () => {
    const read = readProblem({ ...sound, giveupMinutes: 3 });
    expect(read.kind === 'read' && read.notes.map((note) => note.where)).toEqual(['giveupMinutes']);
  });

  test('refuses a number too large to hold, and text that is not JSON', () => {
    expect(readProblemText('{"goal":"isolate","causes":[{"id":"a","weight":1e999}]}')).toMatchObject({
      kind: 'refused',
      messages: [
        { where: 'causes[0].weight', text: 'Unexpected a number too large to hold, expected a number of at least 0' },
      ],
    });
    expect(readProblemText('{"goal":').kind).toBe('refused');
    expect(readProblemText('').kind).toBe('refused');
    expect(readProblem({ goal: 'isolate', causes: [{ id: 'a' }] })).toMatchObject({
      messages: [{ where: 'causes[0].weight', text: 'Unexpected nothing, expected a value here' }],
    });
  });

  test('reads a signal path, and refuses one whose probes do not stand between its stages', () => {
    const stages = [
      { id: 'a', weight: 1 },
      { id: 'b', weight: 2 },
    ];
    expect(readProblem({ stages, probes: [{ minutes: 1 }], evidence: [{ probe: 0, outcome: 'bad' }] })).toMatchObject({
      kind: 'read',
      problem: { kind: 'path', evidence: [{ probe: 0, likelihood: [0, 1] }] },
    });
    for (const file of [
      { stages, probes: [] },
      { stages: [], probes: [] },
      { stages, probes: [{ minutes: -1 }] },
      { stages, probes: [{ minutes: 1 }], evidence: [{ probe: 0.5, outcome: 'bad' }] },
    ]) {
      expect(readProblem(file).kind).toBe('refused');
    }
  });

  test('never throws, whatever it is given, and what it accepts can be planned', () => {
    const loose = fc.anything({ maxDepth: 4, withNullPrototype: true, withBigInt: true, withDate: true });
    fc.assert(fc.property(loose, (value) => void readProblem(value)));
    fc.assert(fc.property(fc.string(), (text) => void readProblemText(text)));
    const damaged = fc.tuple(
      fc.constantFrom('causes', 'checks', 'setups', 'goal', 'evidence', 'proveMinutes', 'giveUpMinutes'),
      fc.jsonValue({ maxDepth: 3 }),
    );
    fc.assert(
      fc.property(damaged, ([key, value]) => {
        const read = readProblem({ ...sound, [key]: value });
        const result = planFile(read);
        if (result.kind === 'plan') expect(Number.isFinite(result.plan.expectedMinutes)).toBe(true);
        else expect(result.messages.length).toBeGreaterThan(0);
      }),
    );
  });

  test('takes odd but possible problems: no checks, twins, a weight of 0, minutes of 0, a repair that never works', () => {
    const twins = [
      { id: 'a', weight: 1, repairMinutes: 0 },
      { id: 'b', weight: 0, repairMinutes: 5 },
      { id: 'c', weight: 1, repairMinutes: 5, repairSuccess: 0 },
    ];
    const likelihood = [
      [1, 0],
      [0, 1],
      [1, 0],
    ];
    const result = planFile(
      readProblem({
        goal: 'repair',
        causes: twins,
        checks: [{ id: 'x', minutes: 0, outcomes: ['p', 'q'], likelihood }],
        giveUpMinutes: 0,
      }),
    );
    // Stopping and a repair of 0 minutes both cost nothing; a tie goes to the repair.
    expect(result).toMatchObject({ kind: 'plan', plan: { next: { repair: 'a' }, expectedMinutes: 0 } });
    expect(planFile(readProblem({ goal: 'repair', causes: twins }))).toMatchObject({
      kind: 'plan',
      // Nothing, then half a chance of stopping: c's repair never works.
      plan: {
        next: { repair: 'a' },
        expectedMinutes: 120,
        posterior: [{ probability: 0.5 }, { probability: 0 }, { probability: 0.5 }],
        groups: [['a', 'c']],
      },
    });
  });
});
