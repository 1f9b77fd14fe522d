import { describe, expect, test } from 'vitest';
import { measureInformationBits } from '#core/diagnosis/screen-checks.ts';
import { measureEntropyBits } from '#core/diagnosis/model.ts';
import { makeMatrix, planSound, readSound } from '../support/diagnosis/make-problem.ts';

describe('test sequencing', () => {
  // Pattipati and Alexandridis, IEEE Trans. SMC 20(4), 1990, 872-887; matrix and optimum from memory.
  const priors = [0.7, 0.01, 0.02, 0.1, 0.05, 0.12];
  const rows = ['00000', '01001', '00110', '10011', '11000', '11110'];

  test('the matrix of Pattipati and Alexandridis 1990 costs a merely greedy order 2.86, so 2.18 is no accident', () => {
    expect(priceGreedily(priors, rows)).toBeCloseTo(2.86, 12);
    const columns = [0, 1, 2, 3, 4].map((check) => rows.map((row) => Number(row[check])));
    const plan = planSound(readSound(makeMatrix(priors, columns)));
    expect(plan.expectedMinutes).toBeCloseTo(2.18, 12);
    // The same source's minimum of the longest branch: six states need three binary tests at least.
    expect(plan.worstMinutes).toBe(3);
  });

  // Huffman, Proc. IRE 40, 1952, 1098-1101, Table I, from memory: average length 3.42.
  test('the thirteen messages of Huffman 1952 need 3.42 questions, the published average length', () => {
    const weights = [0.2, 0.18, 0.1, 0.1, 0.1, 0.06, 0.06, 0.04, 0.04, 0.04, 0.04, 0.03, 0.01];
    const subsets = listMergedSubsets(weights);
    // Questions of another kind are on offer too: each message by itself, and each of the first bits of its number.
    const singles = weights.map((_, message) => new Set([message]));
    const bits = [1, 2, 4, 8].map((bit) => new Set(weights.flatMap((_, message) => (message & bit ? [message] : []))));
    const columns = [...singles, ...bits, ...subsets].map((subset) =>
      weights.map((_, message) => (subset.has(message) ? 1 : 0)),
    );
    expect(planSound(readSound(makeMatrix(weights, columns))).expectedMinutes).toBeCloseTo(3.42, 12);
  });

  // The classic puzzle: one heavy coin among nine, a balance with three outcomes.
  test('nine coins, one heavy, need two weighings out of the 1,569 possible ones', () => {
    const weighings = listWeighings(9);
    expect(weighings).toHaveLength(1569);
    const problem = readSound(
      makeMatrix(
        Array.from({ length: 9 }, () => 1),
        weighings.slice(0, 1),
        3,
      ),
    );
    const all = {
      ...problem,
      checks: weighings.flatMap((column, index) =>
        readSound(
          makeMatrix(
            column.map(() => 1),
            [column],
            3,
          ),
        ).checks.map((check) => ({ ...check, id: `w${index}` })),
      ),
    };
    const plan = planSound(all);
    expect(plan.expectedMinutes).toBeCloseTo(2, 12);
    expect(plan.worstMinutes).toBe(2);
  });
});

describe('information', () => {
  // Shannon, A Mathematical Theory of Communication, 1948, from memory: H(1/2, 1/4, 1/8, 1/8) = 7/4 bits.
  test("Shannon's source of four symbols holds 7/4 bits", () => {
    expect(measureEntropyBits([1 / 2, 1 / 4, 1 / 8, 1 / 8])).toBe(1.75);
  });

  // MacKay, Information Theory, Inference, and Learning Algorithms, 2003, section 4.1, from memory: log2 3 = 1.585 bits.
  test("MacKay's first weighing, four against four of twelve balls, tells log2 3 bits", () => {
    // 24 hypotheses: ball 0 to 11, heavy or light.
    const outcomeOf = (hypothesis: number): number => {
      const ball = hypothesis >> 1;
      if (ball >= 8) return 0;
      return ball < 4 === (hypothesis % 2 === 0) ? 1 : 2;
    };
    const belief = new Float64Array(24).fill(1 / 24);
    const columns = new Float64Array(72);
    for (let hypothesis = 0; hypothesis < 24; hypothesis++) columns[outcomeOf(hypothesis) * 24 + hypothesis] = 1;
    expect(measureInformationBits(belief, columns, new Float64Array(24), 3)).toBeCloseTo(Math.log2(3), 12);
  });
});

/** Always the test with most information, which for equal costs is the most even split; ties to the first. */
function priceGreedily(priors: readonly number[], rows: readonly string[]): number {
  const price = (states: readonly number[]): number => {
    const mass = states.reduce((sum, state) => sum + (priors[state] ?? 0), 0);
    let best: readonly (readonly number[])[] = [];
    let evenness = Number.POSITIVE_INFINITY;
    for (let check = 0; check < 5; check++) {
      const shows = states.filter((state) => rows[state]?.[check] === '1');
      if (shows.length === 0 || shows.length === states.length) continue;
      const off = Math.abs(shows.reduce((sum, state) => sum + (priors[state] ?? 0), 0) - mass / 2);
      if (off >= evenness - 1e-12) continue;
      evenness = off;
      best = [shows, states.filter((state) => !shows.includes(state))];
    }
    return best.length === 0 ? 0 : mass + best.reduce((sum, part) => sum + price(part), 0);
  };
  return price(priors.map((_, state) => state));
}

/** The sets of messages that Huffman's construction joins, the whole left out. */
function listMergedSubsets(weights: readonly number[]): readonly ReadonlySet<number>[] {
  let open = weights.map((weight, message) => ({ weight, messages: [message] }));
  const merged: ReadonlySet<number>[] = [];
  while (open.length > 2) {
    open = open.toSorted((first, second) => first.weight - second.weight);
    const [first, second, ...rest] = open;
    if (first === undefined || second === undefined) break;
    const joined = { weight: first.weight + second.weight, messages: [...first.messages, ...second.messages] };
    merged.push(new Set(joined.messages));
    open = [...rest, joined];
  }
  return merged;
}

/** Every weighing of k coins against k others: 0 balanced, 1 left pan down, 2 right pan down, for each coin as the heavy one. */
function listWeighings(coins: number): readonly (readonly number[])[] {
  const weighings: number[][] = [];
  for (let code = 0; code < 3 ** coins; code++) {
    const sides = Array.from({ length: coins }, (_, coin) => Math.floor(code / 3 ** coin) % 3);
    const left = sides.filter((side) => side === 1).length;
    const right = sides.filter((side) => side === 2).length;
    // One of each mirrored pair: the first coin on the balance lies left.
    if (left === right && left > 0 && sides.find((side) => side !== 0) === 1) weighings.push(sides);
  }
  return weighings;
}
