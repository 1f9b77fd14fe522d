import fc from 'fast-check';
import { type HostileKind, hostileKinds } from '../arbitraries/hostile-input.ts';

/*
 * Part of npm run bench: text from strangers, at least 100,000 cases together. Goal: nothing thrown, injected or lost, and no answer
 * later than 100 ms on a quiet machine. FUZZ_CASES: how many cases of the kinds that cost least; FUZZ_SEED: another beginning.
 */
const cases = Number(process.env['FUZZ_CASES'] ?? 50_000);
const seed = Number(process.env['FUZZ_SEED'] ?? 1);
const batch = 500;

console.log('\nkind          cases  slowest ms  thrown  injected  lost');
let all = 0;
let isSound = true;
for (const { name, corpus, made, judge, cost } of hostileKinds) {
  const count = { thrown: 0, injected: 0, lost: 0 };
  let slowest = { milliseconds: 0, text: '' };
  let first: string | undefined;
  let tried = 0;
  const wanted = Math.max(1_000, Math.ceil(cases / cost));
  // What is loaded and compiled once costs nobody again.
  judge('');
  for (let from = -1; tried < wanted; from += 1) {
    const texts = from < 0 ? corpus : fc.sample(made, { seed: seed + from, numRuns: batch });
    for (const text of texts) {
      const { verdict, milliseconds } = time(judge, text);
      if (milliseconds > slowest.milliseconds) {
        // The collector of garbage falls on any case: the least of three is the text's own.
        const own = Math.min(milliseconds, time(judge, text).milliseconds, time(judge, text).milliseconds);
        if (own > slowest.milliseconds) slowest = { milliseconds: own, text };
      }
      if (verdict !== undefined) {
        count[verdict] += 1;
        first ??= text;
      }
      tried += 1;
    }
  }
  all += tried;
  isSound &&= first === undefined;
  const columns = [tried, slowest.milliseconds.toFixed(1), count.thrown, count.injected, count.lost];
  console.log(
    name.padEnd(12) + columns.map((column, index) => String(column).padStart([7, 12, 8, 10, 6][index] ?? 0)).join(''),
  );
  console.log(`  slowest over ${show(slowest.text)}`);
  if (first !== undefined) console.log(`  first that failed: ${show(first)}`);
}
console.log(`${all} cases${isSound ? ', all sound' : ''}`);
if (!isSound) process.exitCode = 1;

function time(
  judge: HostileKind['judge'],
  text: string,
): { readonly verdict: 'thrown' | ReturnType<HostileKind['judge']>; readonly milliseconds: number } {
  // The processor's time: other programs on the machine count for nothing.
  const start = process.cpuUsage();
  let verdict: 'thrown' | ReturnType<HostileKind['judge']>;
  try {
    verdict = judge(text);
  } catch {
    verdict = 'thrown';
  }
  const { user, system } = process.cpuUsage(start);
  return { verdict, milliseconds: (user + system) / 1000 };
}

/** The beginning of a text and its length, in one line. */
function show(text: string): string {
  return `${text.length} characters: ${JSON.stringify(text.slice(0, 120))}`;
}
