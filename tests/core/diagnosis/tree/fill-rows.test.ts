import { describe, expect, test } from 'vitest';
import { everythingAtHand } from '#core/diagnosis/tree/tree-checks.ts';
import { type DeriveOptions, deriveProblem } from '#core/diagnosis/tree/derive-problem.ts';
import { listCleared } from '#core/diagnosis/tree/written-road.ts';
import { weighEvidence } from '#core/diagnosis/evidence.ts';
import type { Check, FaultTree } from '#core/model/fault-tree.ts';
import {
  makeCause,
  makeCheck,
  makeElsewhere,
  makeHandOver,
  makePath,
  makeTree,
} from '../../../arbitraries/make-tree.ts';

/**
 * Expected rows by hand: weights 9, 3, 1; what a cause shows, or the outcomes
 * on a road to it, share the reliability r (eyes 0.9, multimeter 0.98, oscilloscope 0.95), the rest share 1 − r.
 */
const references = {
  setups: new Map([
    ['case-open', { slug: 'case-open', title: 'Open', minutes: 5, cautions: [], endedBy: undefined, text: '' }],
    [
      'discharged',
      { slug: 'discharged', title: 'Safe', minutes: 2, cautions: [], endedBy: 'power-on' as const, text: '' },
    ],
  ]),
  instruments: new Map(
    [
      ['eyes', 0.9] as const,
      ['multimeter', 0.98] as const,
      ['oscilloscope', 0.95] as const,
      ['logic-probe', 0.95] as const,
    ].map(([slug, reliability]) => [slug, { slug, title: slug, reliability }]),
  ),
};
const options: DeriveOptions = {
  bench: everythingAtHand,
  goal: 'repair',
  isFaultless: false,
  repaired: [],
  isWorsened: false,
};

const tree = makeTree([
  makeCheck('lamp', { 'bright dim': 'rail', dark: 'fuse' }),
  makeCheck('rail', { 'low none': 'line', in: 'elsewhere' }, { instruments: ['multimeter'] }),
  makePath('line', { Socket: 'socket', Regulator: 'regulator', Chip: 'chip' }, 'handed'),
  makeCause('fuse', { shows: { rail: ['none'] } }),
  makeCause('socket', { chance: 'occasional' }),
  makeCause('regulator', { chance: 'rare', shows: { lamp: ['dim'] }, brings: ['chip'] }),
  makeCause('chip'),
  makeElsewhere('elsewhere', { chance: 'occasional' }),
  makeHandOver('handed', { because: 'mains', chance: 'rare' }),
  makeHandOver('no-meter', { because: 'instrument' }),
]);

function rowOf(of: FaultTree, check: string, cause: string, change: Partial<DeriveOptions> = {}): readonly number[] {
  const { problem } = deriveProblem(of, references, { ...options, ...change });
  const place = problem.causes.findIndex(({ id }) => id === cause);
  return problem.checks.find(({ id }) => id === check)?.likelihood[place] ?? [];
}

function expectRow(actual: readonly number[], expected: readonly number[]): void {
  expect(actual).toHaveLength(expected.length);
  for (const [index, probability] of expected.entries()) expect(actual[index]).toBeCloseTo(probability, 12);
}

describe('P(outcome | cause) from a tree', () => {
  test('outcomes on a road to the cause share the reliability, the others the rest', () => {
    expectRow(rowOf(tree, 'lamp', 'chip'), [0.45, 0.45, 0.1]);
    expectRow(rowOf(tree, 'lamp', 'fuse'), [0.05, 0.05, 0.9]);
    expectRow(rowOf(tree, 'rail', 'elsewhere'), [0.01, 0.01, 0.98]);
  });

  test('what the cause shows wins over the road', () => {
    expectRow(rowOf(tree, 'lamp', 'regulator'), [0.05, 0.9, 0.05]);
    expectRow(rowOf(tree, 'rail', 'fuse'), [0.01, 0.98, 0.01]);
  });

  test('a stage is bad where the fault lies before it', () => {
    expectRow(rowOf(tree, 'line/stage-1', 'socket'), [0.05, 0.95]);
    expectRow(rowOf(tree, 'line/stage-0', 'regulator'), [0.95, 0.05]);
    expectRow(rowOf(tree, 'line/stage-2', 'handed'), [0.95, 0.05]);
  });

  test('a check that says nothing of a cause gets the mean row, weighted by the priors', () => {
    // At stage 1: socket (3) and regulator (1) bad, chip (9) and handed (1) good.
    const bad = (3 * 0.95 + 1 * 0.95 + 9 * 0.05 + 1 * 0.05) / 14;
    expectRow(rowOf(tree, 'line/stage-1', 'fuse'), [1 - bad, bad]);
    expectRow(rowOf(tree, 'line/stage-1', 'not-listed'), [1 - bad, bad]);
  });

  test('… which leaves its probability exactly as it was', () => {
    const { problem } = deriveProblem(tree, references, options);
    const before = weighEvidence(problem, []);
    const after = weighEvidence(problem, [{ kind: 'outcome', check: 'line/stage-1', outcome: 'bad' }]);
    const place = problem.causes.findIndex(({ id }) => id === 'fuse');
    if (before.kind !== 'posterior' || after.kind !== 'posterior') throw new Error('no posterior');
    expect(after.probabilities[place]).toBeCloseTo(before.probabilities[place] ?? 0, 12);
    // 9 of 9 + 3 + 1 + 9 + 3 + 1 and 1 for what is not listed.
    expect(before.probabilities[place]).toBeCloseTo(9 / 27, 12);
  });

  test('faultless answers come out one way', () => {
    expectRow(rowOf(tree, 'rail', 'fuse', { isFaultless: true }), [0, 1, 0]);
    expectRow(rowOf(tree, 'lamp', 'chip', { isFaultless: true }), [0.5, 0.5, 0]);
  });

  test('`sometimes` is an outcome where a cause shows it', () => {
    const shaken = makeTree([
      makeCheck('tap', { steady: 'joint', dead: 'fuse' }),
      makeCause('joint', { shows: { tap: ['sometimes'] } }),
      makeCause('fuse'),
    ]);
    expectRow(rowOf(shaken, 'tap', 'joint'), [0.05, 0.05, 0.9]);
  });

  test('a hand-over for want of an instrument is no cause, and something not listed always is', () => {
    const { problem } = deriveProblem(tree, references, options);
    expect(problem.causes.map(({ id }) => id)).toEqual([
      ...['fuse', 'socket', 'regulator', 'chip', 'elsewhere', 'handed', 'not-listed'],
    ]);
  });

  test('what a repaired cause often brings becomes a second fault', () => {
    const { problem } = deriveProblem(tree, references, { ...options, repaired: ['regulator'] });
    const second = problem.causes.find(({ id }) => id === 'chip.by.regulator');
    // Rare (1) times the share of 0.3 that "often brings along" stands for.
    expect(second?.weight).toBeCloseTo(0.3, 12);
    expectRow(rowOf(tree, 'lamp', 'chip.by.regulator', { repaired: ['regulator'] }), [0.25, 0.675, 0.075]);
  });
});

describe('minutes', () => {
  const setTree = makeTree([
    makeCheck('look', { yes: 'probe', no: 'fuse' }, { minutes: 1 }),
    makeCheck(
      'probe',
      { low: 'chip', in: 'fuse' },
      { minutes: 3, waitMinutes: 2, needs: ['case-open', 'discharged'], after: ['look'] },
    ),
    makeCause('fuse'),
    makeCause('chip', {
      repair: {
        prose: [],
        targets: [],
        minutes: 20,
        needs: ['case-open', 'discharged'],
        leaves: 'damage',
        success: 'doubtful',
        record: [],
        substitutes: [],
      },
    }),
  ]);

  test('a lasting set-up is shared, one that power ends is paid for each time, what must come first is a set-up', () => {
    const { problem } = deriveProblem(setTree, references, options);
    const probe = problem.checks.find(({ id }) => id === 'probe');
    expect(probe?.minutes).toBe(3 + 2 + 2);
    expect(probe?.setup).toEqual(['case-open', 'after look']);
    expect(problem.checks.find(({ id }) => id === 'look')).toMatchObject({ minutes: 0, setup: ['after look'] });
    expect(problem.setups).toEqual([
      { id: 'after look', minutes: 1 },
      { id: 'case-open', minutes: 5 },
    ]);
  });

  test('a repair counts its proof and its own discharge, and cures as often as the tree says', () => {
    const { problem } = deriveProblem(setTree, references, options);
    expect(problem.causes.find(({ id }) => id === 'chip')).toMatchObject({
      repairMinutes: 20 + 10 + 2,
      repairSuccess: 0.6,
      repairSetup: ['case-open'],
    });
  });

  test('the weaker instrument serves where the better one is not there, and none at all where neither is', () => {
    const probed = makeTree([
      makeCheck('pin', { high: 'chip', low: 'fuse' }, { instruments: ['oscilloscope', 'multimeter'] }),
      makeCause('chip'),
      makeCause('fuse'),
    ]);
    const family = (...owned: string[]): string | undefined =>
      deriveProblem(probed, references, {
        ...options,
        bench: { families: new Set(owned), limitMinutes: undefined, isMainsOutside: false },
      }).checks[0]?.family;
    expect(family('oscilloscope', 'multimeter')).toBe('oscilloscope');
    expect(family('multimeter')).toBe('multimeter');
    expect(family()).toBeUndefined();
  });
});

describe('what an answer says of the place of the fault', () => {
  // The knob is one road to each side; `buzzes` says nothing of the place and leads to the socket, and to what lies beyond the path.
  const spoken = makeTree([
    makeCheck('knob', { follows: 'line', stays: 'line', buzzes: 'socket' }),
    makePath('line', { Socket: 'socket', Regulator: 'regulator', Chip: 'chip' }, 'beyond'),
    makeCause('socket'),
    makeCause('regulator', { shows: { knob: ['stays'] } }),
    makeCause('chip'),
    makeCause('beyond'),
    makeCause('lamp-out'),
  ]);
  const withPlaces: FaultTree = {
    ...spoken,
    nodes: spoken.nodes.map((node) =>
      node.kind === 'check'
        ? {
            ...node,
            outcomes: node.outcomes.map((outcome) =>
              outcome.when.includes('follows')
                ? { ...outcome, saysBefore: 'line/stage-1' }
                : outcome.when.includes('stays')
                  ? { ...outcome, saysAfter: 'line/stage-1' }
                  : outcome,
            ),
          }
        : node,
    ),
  };

  test('without a word of it each road counts the same', () => {
    expectRow(rowOf(spoken, 'knob', 'chip'), [0.45, 0.45, 0.1]);
    expectRow(rowOf(spoken, 'knob', 'socket'), [1 / 3, 1 / 3, 1 / 3]);
  });

  test('an answer that puts the fault on the other side is an unlikely one, wherever it leads', () => {
    expectRow(rowOf(withPlaces, 'knob', 'chip'), [0.05, 0.9, 0.05]);
    expectRow(rowOf(withPlaces, 'knob', 'beyond'), [0.05, 0.9, 0.05]);
  });

  test('an answer that says nothing of the place goes by its road', () => {
    expectRow(rowOf(withPlaces, 'knob', 'socket'), [0.45, 0.1, 0.45]);
  });

  test('where no road leads to the cause, the answers that put the fault on its side are likely', () => {
    const aside = { ...withPlaces, nodes: withPlaces.nodes.map((node) => (node.kind === 'check' ? lead(node) : node)) };
    expectRow(rowOf(aside, 'knob', 'chip'), [0.05, 0.9, 0.05]);
    expectRow(rowOf(aside, 'knob', 'socket'), [0.9, 0.05, 0.05]);
    function lead(check: Check): Check {
      return { ...check, outcomes: check.outcomes.map((outcome) => ({ ...outcome, to: 'lamp-out' })) };
    }
  });

  test('what a cause shows comes first, and a cause that has no place there is left as it was', () => {
    expectRow(rowOf(withPlaces, 'knob', 'regulator'), [0.05, 0.9, 0.05]);
    expect(rowOf(withPlaces, 'knob', 'lamp-out')).toEqual(rowOf(withPlaces, 'knob', 'not-listed'));
  });

  test('the stretch that an answer rules out is cleared, the stage itself with it', () => {
    const answer = (word: string) => ({ node: 'knob', stage: undefined, said: word, word, evidence: [] });
    expect([...listCleared(withPlaces, [answer('follows')])]).toEqual(['line/stage-1', 'line/stage-2']);
    expect([...listCleared(withPlaces, [answer('stays')])]).toEqual(['line/stage-0', 'line/stage-1']);
    expect([...listCleared(withPlaces, [answer('buzzes')])]).toEqual([]);
    expect([...listCleared(spoken, [answer('follows')])]).toEqual([]);
  });
});
