import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { readContent } from '#build/library.ts';
import { type Assessment, assessTree, type Known, rankChecks } from '#core/diagnosis/tree/assess-tree.ts';
import { type Bench, collectTreeChecks, everythingAtHand } from '#core/diagnosis/tree/tree-checks.ts';
import { carryAnswer } from '#core/diagnosis/tree/carry-answers.ts';
import type { FaultTree } from '#core/model/fault-tree.ts';
import { cautionsOf } from '#core/model/node.ts';
import { type Answer, readAnswerValue } from '#core/answer/answer.ts';
import { answersOfMains, readAnswers } from '#core/answer/evidence.ts';
import { listCleared } from '#core/diagnosis/tree/written-road.ts';
import { makeCause, makeCheck, makeHandOver, makeTree } from '../../../arbitraries/make-tree.ts';
import { createRandom } from '../../../support/diagnosis/random.ts';

const { library } = readContent();
const trees = [...library.trees.values()];
const nothingKnown: Known = { read: [], did: [], isWorsened: false };

function findTree(slug: string): FaultTree {
  const tree = library.trees.get(slug);
  if (tree === undefined) throw new Error(`No tree ${slug}`);
  return tree;
}

function know(tree: FaultTree, answers: readonly string[], change: Partial<Known> = {}): Known {
  const list = answers.map((pair): Answer => {
    const [key = '', value = ''] = pair.split('=');
    const [node = '', stage] = key.split('/');
    return { tree: undefined, node, stage, ...(readAnswerValue(value) ?? { value }) };
  });
  const bench = { tree, references: library, limits: {} };
  const { read, problems } = readAnswers(list, bench, collectTreeChecks(tree, library, everythingAtHand));
  expect(problems).toEqual([]);
  return { read, did: [], isWorsened: false, ...change };
}

function assess(tree: FaultTree, known: Known, bench: Bench = everythingAtHand): Assessment {
  return assessTree(tree, library, known, { bench });
}

function probabilityOf(assessment: Assessment, id: string): number {
  return assessment.causes.find((cause) => cause.id === id)?.probability ?? Number.NaN;
}

/** Answers at random, as any link may hold them. */
const arbitraryWalk = fc.record({
  slug: fc.constantFrom(...library.trees.keys()),
  seed: fc.nat(),
  length: fc.nat({ max: 8 }),
});

function answerAtRandom({ slug, seed, length }: { slug: string; seed: number; length: number }): readonly string[] {
  const tree = findTree(slug);
  const random = createRandom(seed + 1);
  const checks = collectTreeChecks(tree, library, everythingAtHand);
  const given = new Map<string, string>();
  for (let step = 0; step < length; step++) {
    const check = checks[Math.floor(random() * checks.length)];
    if (check === undefined) continue;
    given.set(check.id, check.words[Math.floor(random() * check.words.length)] ?? '');
  }
  return [...given].map(([key, value]) => `${key}=${value}`);
}

/** Slugs of the stop cautions that a node shows. */
function stopsOf(tree: FaultTree, id: string): readonly string[] {
  const node = tree.nodes.find((candidate) => candidate.id === id);
  const cautions = node === undefined ? [] : cautionsOf(node, library);
  return cautions.filter(({ severity }) => severity === 'danger').map(({ slug }) => slug);
}

/** Stop cautions met on the written road, which the answers lead along. */
function roadOf(tree: FaultTree, known: Known): ReadonlySet<string> {
  const met = new Set<string>();
  let id = tree.nodes[0]?.id;
  for (let step = 0; id !== undefined && step < tree.nodes.length; step++) {
    for (const slug of stopsOf(tree, id)) met.add(slug);
    const node = tree.nodes.find((candidate) => candidate.id === id);
    const word = known.read.find((answer) => answer.node === id)?.word;
    id =
      node?.kind === 'check' && word !== undefined
        ? node.outcomes.find(({ when }) => when.includes(word))?.to
        : undefined;
  }
  return met;
}

describe('laws, over the shipped trees and answers at random', () => {
  test('probabilities sum to one and are those of the tree: no cause is lost', () => {
    fc.assert(
      fc.property(arbitraryWalk, (walk) => {
        const { causes } = assess(findTree(walk.slug), know(findTree(walk.slug), answerAtRandom(walk)));
        expect(causes.reduce((sum, { probability }) => sum + probability, 0)).toBeCloseTo(1, 9);
        expect(new Set(causes.map(({ id }) => id)).size).toBe(causes.length);
        expect(causes.some(({ id }) => id === 'not-listed')).toBe(true);
      }),
      { numRuns: 150 },
    );
  });

  test('the order of the answers has no meaning', () => {
    fc.assert(
      fc.property(arbitraryWalk, (walk) => {
        const answers = answerAtRandom(walk);
        const forward = assess(findTree(walk.slug), know(findTree(walk.slug), answers));
        const backward = assess(findTree(walk.slug), know(findTree(walk.slug), answers.toReversed()));
        for (const { id, probability } of forward.causes)
          expect(probabilityOf(backward, id)).toBeCloseTo(probability, 9);
        expect(backward.next).toEqual(forward.next);
      }),
      { numRuns: 100 },
    );
  });

  test('a suggested check is not answered, its forerunners are, its instrument is there, no stop caution is pulled forward', () => {
    const owned: Bench = { families: new Set(['multimeter']), limitMinutes: undefined, isMainsOutside: false };
    let suggested = 0;
    fc.assert(
      fc.property(arbitraryWalk, (walk) => {
        const tree = findTree(walk.slug);
        const known = know(tree, answerAtRandom(walk));
        const { next, written } = assess(tree, known, owned);
        if (next.kind !== 'check') return;
        suggested += 1;
        const node = tree.nodes.find(({ id }) => id === next.node);
        if (node?.kind !== 'check' && node?.kind !== 'path') throw new Error('no check');
        expect(known.read.some((answer) => answer.node === next.node && answer.stage === next.stage)).toBe(false);
        for (const id of node.after) expect(known.read.some((answer) => answer.node === id)).toBe(true);
        const senses = ['multimeter', 'eyes', 'ears', 'ears-compare', 'nose', 'hands'];
        expect(node.instruments.some((family) => senses.includes(family))).toBe(true);
        const met = new Set(
          [written.node, ...known.read.map((answer) => answer.node)].flatMap((id) => stopsOf(tree, id)),
        );
        const isMet = stopsOf(tree, node.id).every((slug) => met.has(slug) || roadOf(tree, known).has(slug));
        if (!isMet) expect(written.node).toBe(node.id);
      }),
      // The example was found by chance: a check after a path that needs an instrument which is not there.
      { numRuns: 1000, examples: [[{ slug: 'clock-dead', seed: 173_580_889, length: 6 }]] },
    );
    expect(suggested).toBeGreaterThan(50);
  });
});

describe('the tree of no sound', () => {
  const tree = findTree('audio-silent');

  test('an open coil on the meter makes the loudspeaker most likely, whatever else is open', () => {
    const { causes } = assess(
      tree,
      know(tree, [
        'settings=silent',
        'outside-look=plain',
        'amp-size=small',
        'speaker-dc=0.01V',
        'speaker-ohms=OL,8ohm',
      ]),
    );
    expect(causes[0]).toMatchObject({ id: 'speaker-open', words: 'most likely' });
  });

  test('a reading too close to call moves the causes less than one beyond doubt', () => {
    // A coil marked 8 Ω reads 6 to 7.6 Ω (75 to 95 %), our target; the 6000-count class has ±(0.9 % + 2) there.
    const before = probabilityOf(assess(tree, nothingKnown), 'speaker-open');
    const doubtful = probabilityOf(assess(tree, know(tree, ['speaker-ohms=7.7ohm,8ohm'])), 'speaker-open');
    const sure = probabilityOf(assess(tree, know(tree, ['speaker-ohms=OL,8ohm'])), 'speaker-open');
    expect(doubtful).toBeGreaterThan(before);
    expect(sure).toBeGreaterThan(doubtful);
  });

  test('after a repair that did not cure, the cause is weakened and not struck out', () => {
    const answers = ['settings=silent', 'speaker-dc=in', 'speaker-ohms=high'];
    const before = assess(tree, know(tree, answers));
    const after = assess(tree, know(tree, answers, { did: ['speaker-open'] }));
    const [was, is] = [probabilityOf(before, 'speaker-open'), probabilityOf(after, 'speaker-open')];
    // Bayes with a repair that cures 98 in 100 (`likely`): p(1 − s) / (1 − p s).
    expect(is).toBeCloseTo((was * 0.02) / (1 - was * 0.98), 9);
    expect(after.next).not.toMatchObject({ node: 'speaker-open' });
  });

  test('made worse, one’s own rework comes first, until it was looked over', () => {
    const worse = { did: ['output-cap'], isWorsened: true };
    const first = assess(tree, know(tree, ['settings=silent'], worse));
    expect(first.next).toEqual({ kind: 'rework' });
    expect(first.causes[0]?.id).toBe('rework');
    const later = assess(tree, know(tree, ['settings=silent'], { ...worse, did: ['output-cap', 'rework'] }));
    expect(later.next.kind).not.toBe('rework');
  });

  test('answers that hardly fit together are named, the doubtful one first', () => {
    // No supply at the amplifier, and yet the tone at its output.
    const { conflict } = assess(tree, know(tree, ['settings=silent', 'amp-rail=missing', 'to-speaker/amp-out=in']));
    expect(conflict).toContain('Does the amplifier chip get its supply?');
    expect(conflict).toContain('From the volume control to the loudspeaker');
    expect(conflict).toContain('Look again at');
    expect(assess(tree, know(tree, ['settings=silent', 'speaker-dc=in'])).conflict).toBeUndefined();
  });

  test('a repair that leaves damage waits while a harmless check would tell as much', () => {
    const { next } = assess(
      tree,
      know(tree, ['settings=silent', 'outside-look=plain', 'amp-size=small', 'half-supply=low']),
    );
    const node = tree.nodes.find(({ id }) => 'node' in next && id === next.node);
    expect(node?.kind === 'cause' && node.repair?.leaves === 'damage').toBe(false);
  });
});

test('the engine’s order takes fewer expected minutes to a proved repair than the order written, where it is free to choose', () => {
  for (const tree of trees) {
    const { expectedMinutes, writtenMinutes } = assessTree(tree, library, nothingKnown, {
      bench: everythingAtHand,
      mostStates: 200,
    });
    expect(expectedMinutes, tree.slug).toBeGreaterThan(0);
    if (tree.order === 'as-written') expect(expectedMinutes, tree.slug).toBe(writtenMinutes);
    else expect(expectedMinutes, tree.slug).toBeLessThan(writtenMinutes);
  }
});

describe('a tree whose order is its safety', () => {
  // The cold look tells next to nothing and costs much; the reading with power on tells all. A free engine would read first.
  const nodes = [
    makeCheck('look', { hurt: 'leave-it', burnt: 'part-burnt', sound: 'reading' }, { minutes: 20 }),
    makeCheck('reading', { low: 'part-dry', in: 'part-open' }, { minutes: 1, power: 'on' }),
    makeCause('part-burnt', { chance: 'occasional', shows: { reading: ['low', 'in'] } }),
    makeCause('part-dry', { chance: 'common' }),
    makeCause('part-open', { chance: 'common' }),
    makeHandOver('leave-it', { because: 'instrument' }),
  ];
  const kept = makeTree(nodes, { order: 'as-written' });
  const free = makeTree(nodes);

  test('is asked as it is written, where another is asked for what tells most in a minute', () => {
    const bench = { ...everythingAtHand, isMainsOutside: true };
    expect(assess(free, nothingKnown, bench).next).toMatchObject({ kind: 'check', node: 'reading' });
    expect(assess(kept, nothingKnown, bench).next).toMatchObject({ kind: 'check', node: 'look' });
  });

  test('says so beside the step', () => {
    expect(assess(kept, nothingKnown).why).toMatch(/^In this tree the order is the safety\. /u);
    expect(assess(free, nothingKnown).why).not.toMatch(/safety/u);
  });

  test('is asked for the look also after an answer that came too early, and without the instrument for it', () => {
    const early = know(kept, ['reading=low']);
    expect(assess(kept, early).next).toMatchObject({ kind: 'check', node: 'look' });
    const byMeter = {
      ...kept,
      nodes: kept.nodes.map((node) => (node.id === 'look' ? { ...node, instruments: ['multimeter'] } : node)),
    };
    const bare = { ...everythingAtHand, families: new Set<string>() };
    expect(assess(byMeter, nothingKnown, bare).next).toMatchObject({ kind: 'check', node: 'look' });
  });

  test('ends where its road ends, at a repair or where it hands over', () => {
    expect(assess(kept, know(kept, ['look=burnt'])).next).toMatchObject({ kind: 'repair', node: 'part-burnt' });
    expect(assess(kept, know(kept, ['look=hurt'])).next).toMatchObject({ kind: 'hand-over', node: 'leave-it' });
  });

  test('goes on behind a repair that did not cure, and stops where nothing stands behind it', () => {
    const did = ['part-burnt'];
    expect(assess(kept, know(kept, ['look=burnt'], { did })).next).toMatchObject({ kind: 'check', node: 'reading' });
    expect(assess(kept, know(kept, ['look=sound', 'reading=low'], { did: ['part-dry'] })).next).toEqual({
      kind: 'stop',
    });
  });

  test.each(trees.filter(({ order }) => order === 'as-written'))(
    '$slug gives no power that its road has not come to',
    (tree) => {
      for (let seed = 0; seed < 300; seed++) {
        const known = know(tree, answerAtRandom({ slug: tree.slug, seed, length: 6 }));
        const { next, written } = assess(tree, known);
        if (next.kind === 'check') expect(next.node).toBe(written.node);
      }
    },
  );

  test('takes no reading with power on over from another tree', () => {
    const from = makeTree([
      makeCheck('rail', { low: 'x' }, { power: 'on', target: { target: 'rail-5v-at-chip', point: 'chip-supply' } }),
    ]);
    const into = { slug: 'into', order: 'as-written' } as const;
    const answer: Answer = { tree: 'from', node: 'rail', stage: undefined, value: 'low' };
    expect(carryAnswer(from, answer, { ...from, slug: 'into' })?.node).toBe('rail');
    expect(carryAnswer(from, answer, { ...from, ...into })).toBeUndefined();
  });
});

describe('what need not be asked', () => {
  test('a check at a point that an answer elsewhere has cleared, and its path', () => {
    const tree = findTree('audio-silent');
    const { read } = know(tree, ['inject-tone=silent']);
    expect([...listCleared(tree, read)].toSorted()).toEqual([
      'from-source/chip-pin',
      'from-source/filter-out',
      'from-source/pot-end',
      'pot-top',
    ]);
  });

  test('with the mains inside the case, whether it is the brick', () => {
    const tree = findTree('audio-hum');
    const known = know(tree, ['lead-look=whole', 'earth-path=in', 'outside-try=stays', 'character=hum', 'knob=stays']);
    const asked = assess(tree, known);
    expect(asked.written.node).toBe('brick-swap');

    const inside = assess(tree, { ...known, read: [...answersOfMains(tree, true), ...known.read] });
    expect(inside.written.node).toBe('outside-look');
    expect(inside.next).not.toMatchObject({ node: 'brick-swap' });
    expect(probabilityOf(inside, 'brick-hums')).toBeLessThan(probabilityOf(asked, 'brick-hums') / 5);
    expect(answersOfMains(tree, false)).toEqual([]);
    expect(answersOfMains(tree, true, 'transformer-brick')).toEqual([]);
    expect(answersOfMains(tree, false, 'transformer')).toEqual(answersOfMains(tree, true));
  });
});

describe('an answer that says an instrument is not at hand', () => {
  // The trace tells the two apart in a minute, the ohms in ten.
  const parting = { a: 'part-dry', b: 'part-open' };
  const ask = makeCheck('scope-here', { yes: 'trace', no: 'ohms' });
  const tree = makeTree([
    {
      ...ask,
      outcomes: ask.outcomes.map((way) => (way.to === 'ohms' ? { ...way, without: ['oscilloscope'] } : way)),
    },
    makeCheck('trace', parting, { minutes: 1, instruments: ['oscilloscope'] }),
    makeCheck('ohms', parting, { minutes: 10, instruments: ['multimeter'] }),
    makeCause('part-dry', { shows: { trace: ['a'], ohms: ['a'] } }),
    makeCause('part-open', { shows: { trace: ['b'], ohms: ['b'] } }),
  ]);

  test('ends the suggestions that need it, and no others', () => {
    expect(assess(tree, know(tree, ['scope-here=yes'])).next).toMatchObject({ kind: 'check', node: 'trace' });
    expect(assess(tree, know(tree, ['scope-here=no'])).next).toMatchObject({ kind: 'check', node: 'ohms' });
  });

  test('counts whatever the reader owns, and with the checks of another press at hand', () => {
    const bench = { ...everythingAtHand, families: new Set(['oscilloscope', 'multimeter']) };
    const checks = collectTreeChecks(tree, library, bench);
    const known = know(tree, ['scope-here=no']);
    expect(assessTree(tree, library, known, { bench, checks }).next).toMatchObject({ node: 'ohms' });
  });
});

describe('checks in the order of what they tell', () => {
  // By hand, for four causes that are equally common: a check that parts two from two tells about 1 bit, one that parts one from
  // three 0.81 bit; the same 1 bit in twenty times the minutes comes last.
  const ways: Readonly<Record<string, Readonly<Record<string, readonly string[]>>>> = {
    a: { single: ['yes'], halves: ['yes'], slow: ['yes'] },
    b: { single: ['no'], halves: ['yes'], slow: ['yes'] },
    c: { single: ['no'], halves: ['no'], slow: ['no'] },
    d: { single: ['no'], halves: ['no'], slow: ['no'] },
  };
  const tree = makeTree([
    makeCheck('single', { yes: 'a', no: 'slow' }),
    makeCheck('slow', { yes: 'halves', no: 'c' }, { minutes: 40 }),
    makeCheck('halves', { yes: 'b', no: 'd' }),
    ...Object.entries(ways).map(([id, shows]) => makeCause(id, { shows })),
  ]);

  test('the half that is quick comes first, and what was answered is not named', () => {
    expect(rankChecks(tree, library, nothingKnown, { bench: everythingAtHand })).toEqual(['halves', 'single', 'slow']);
    expect(rankChecks(tree, library, know(tree, ['halves=yes']), { bench: everythingAtHand })).toEqual([
      'single',
      'slow',
    ]);
  });
});
