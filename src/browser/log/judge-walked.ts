import { quoteButton } from '#core/bench-log/say-event-answer.ts';
import { findNode } from '#core/model/node.ts';
import { printWord } from '#core/model/target-text.ts';
import { type Answer, isWord } from '#core/answer/answer.ts';
import type { BenchTree } from '#core/answer/bench-tree.ts';
import { describeVerdict, nameInstrument } from '#core/answer/judge-answer.ts';
import { sayButton } from '#core/answer/say.ts';
import { fetchUnitSheet } from '../unit-sheet.ts';
import { benchOf, loadWalk } from '../walk/load-bench.ts';

/** What an answer comes to on this bench: its verdict as the log writes it, the words of the button pressed first, empty where there is none, and the instrument behind it. */
export type JudgeAnswer = (answer: Answer) => { readonly verdict: string; readonly instrument: string | undefined };

/** Judges answers of a tree on this bench; undefined where the tree's data or the sheet of its unit cannot be had. */
export async function makeJudge(tree: string, slug: string | undefined): Promise<JudgeAnswer | undefined> {
  const [walk, unit] = await Promise.all([loadWalk(tree), slug === undefined ? undefined : fetchUnitSheet(slug)]);
  // Without the sheet of its unit a reading would be judged by the wrong limits.
  if (walk === undefined || (slug !== undefined && unit === undefined)) return undefined;
  const bench = benchOf(walk, unit);
  return (answer) => ({ verdict: describe(answer, bench), instrument: nameInstrument(answer, bench) });
}

/** Leaves room for a verdict behind them (see event.ts). */
const longestWords = 200;

function describe(answer: Answer, bench: BenchTree): string {
  if (!isWord(answer.value) && (answer.readings?.length ?? 0) > 1) return 'not decided yet';
  const said = (describeVerdict(answer, bench) ?? '').replace(/\.$/, '');
  const verdict = said.charAt(0).toLowerCase() + said.slice(1);
  return [quotePressed(answer, bench), verdict].filter((text) => text !== '').join('; ');
}

/** The words of the button, where they are more than the word itself. */
function quotePressed({ node: id, value }: Answer, { tree }: BenchTree): string {
  const node = isWord(value) ? findNode(tree, id) : undefined;
  const words = node?.kind === 'check' ? sayButton(node, value) : undefined;
  return words === undefined || words === printWord(value) ? '' : quoteButton(words.slice(0, longestWords));
}
