import { parseReading } from '../quantity/parse-reading.ts';
import { valueIn } from '../quantity/reading.ts';
import { chooseInstrument } from '../reading/choose-instrument.ts';
import { isWord } from '../share/answer-value.ts';
import type { Answer } from '../share/link-state.ts';
import { type BenchTree, targetAt } from './judge-answer.ts';

/**
 * The instrument behind an answer: the one it names, else for a reading the one it is judged with and that its field shows under “Read
 * with”. Undefined for a word without a reading, and where no class fits.
 */
export function nameInstrument(answer: Answer, bench: BenchTree): string | undefined {
  if (answer.instrument !== undefined) return answer.instrument;
  const text = answer.readings?.[0] ?? (isWord(answer.value) ? undefined : answer.value);
  const target = targetAt(bench, answer.node, answer.stage);
  if (text === undefined || target === undefined) return undefined;
  const parsed = parseReading(text, target);
  if (parsed.kind !== 'reading') return undefined;
  const size = parsed.reading.kind === 'number' ? valueIn(parsed.reading, target.unit) : 0;
  return chooseInstrument(undefined, target, bench.references.instrumentClasses, size)?.slug;
}
