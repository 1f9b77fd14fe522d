import type { OpenSearch } from './open-search.ts';
import type { SaidSigns } from './carry-evidence.ts';
import type { ScoredTree } from './score-trees.ts';

/** A question of signs.yaml, with the words of its answers. */
export interface Question {
  readonly sign: string;
  readonly question: string;
  readonly yes: string;
  readonly no: string;
}

const nearBest = 0.05;
const mostCompared = 5;
const leastGainBits = 0.12;
/** P(the sign is as a tree expects it), where the tree says. Our judgement. */
const surety = 0.9;

/**
 * The sign that best separates results which fit about equally: the one with the greatest expected gain of information
 * (Shannon 1948) about which of them it is, each held as likely as its score. Undefined where one stands out or none helps.
 */
export function chooseQuestion(
  search: OpenSearch,
  fitting: readonly ScoredTree[],
  said: SaidSigns,
): Question | undefined {
  const best = fitting[0]?.score ?? 0;
  const rivals = fitting.filter(({ score }) => score >= best * nearBest).slice(0, mostCompared);
  if (rivals.length < 2) return undefined;
  const total = rivals.reduce((sum, { score }) => sum + score, 0);
  let chosen: { sign: string; gain: number } | undefined;
  for (const sign of Object.keys(search.index.signs)) {
    if (Object.hasOwn(said, sign)) continue;
    let yes = 0;
    let spread = 0;
    for (const { tree, score } of rivals) {
      const expected = search.index.trees[tree]?.signs[sign];
      const chance = expected === undefined ? 0.5 : expected === 'yes' ? surety : 1 - surety;
      yes += (score / total) * chance;
      spread += (score / total) * entropyBits(chance);
    }
    const gain = entropyBits(yes) - spread;
    if (gain >= leastGainBits && (chosen === undefined || gain > chosen.gain + 1e-9)) chosen = { sign, gain };
  }
  const text = chosen === undefined ? undefined : search.index.signs[chosen.sign];
  return chosen === undefined || text === undefined ? undefined : { sign: chosen.sign, ...text };
}

/** Entropy of a coin that falls heads with `chance`, in bits. */
function entropyBits(chance: number): number {
  if (chance <= 0 || chance >= 1) return 0;
  return -(chance * Math.log2(chance) + (1 - chance) * Math.log2(1 - chance));
}
