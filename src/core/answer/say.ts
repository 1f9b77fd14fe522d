import { type Answer, isWord, readingsIn, readShare } from './answer.ts';
import type { Check, SignalPath } from '../model/fault-tree.ts';
import { findNode, isStep } from '../model/node.ts';
import { printWord } from '../model/target-text.ts';
import type { Target } from '../model/target.ts';
import { parseReading } from '../quantity/parse-reading.ts';
import { printLinkText, printReading } from '../quantity/reading.ts';
import { fieldsOf } from '../reading/formula.ts';
import { printResult, readEntry } from '../reading/judge-reading.ts';
import { type BenchTree, targetAt } from './bench-tree.ts';

/**
 * What was answered, as its page says it: the words of the button that was pressed, or the reading with its unit. Without the tree's
 * data, and for what belongs to no check of it, in bare words: `In range`, `Bad at amp in`, `4.71 V`, `3 of 8 times`, `Low (read 4.74 V)`.
 */
export function sayAnswer(answer: Answer, bench?: BenchTree): string {
  const node = answer.tree === undefined && bench !== undefined ? findNode(bench.tree, answer.node) : undefined;
  if (bench === undefined || !isStep(node)) return sayBare(answer);
  const read = sayReadings(readingsIn(answer), targetAt(bench, node.id, answer.stage));
  if (!isWord(answer.value)) return read;
  const said = sayWord(answer.value, node);
  return read === '' ? said : `${said} (read ${read})`;
}

/**
 * The words of the button that gives an answer: a button of several words says all of them, or its own sentence. Undefined where no
 * button of the check gives it.
 */
export function sayButton({ outcomes }: Check, word: string): string | undefined {
  const outcome = outcomes.find(({ when }) => when.includes(word));
  return outcome === undefined ? undefined : (outcome.says ?? outcome.when.map(printWord).join(' or '));
}

function sayWord(value: string, node: Check | SignalPath): string {
  if (node.kind === 'path') return pathWords[value] ?? printWord(value);
  return sayButton(node, value) ?? sayBareWord(value);
}

const pathWords: Readonly<Record<string, string | undefined>> = { good: 'Good', bad: 'First bad here' };

/** `4.71 V`; computed, the result and what it was computed from: `49 % (4.41 V, 9 V)`. */
function sayReadings(texts: readonly string[], target: Target | undefined): string {
  if (target === undefined || texts.length === 0) return texts.join(', ');
  const entry = readEntry(texts, target);
  const fields = entry.kind === 'readings' && entry.readings.length > 1 ? fieldsOf(target) : [];
  const said = texts
    .map((text, index) => {
      const parsed = parseReading(text, fields[index] ?? target);
      return parsed.kind === 'reading' ? printReading(parsed.reading) : text;
    })
    .join(', ');
  const result = fields.length > 1 ? printResult(entry, target) : undefined;
  return result === undefined ? said : `${result} (${said})`;
}

function sayBare({ value, stage, readings = [] }: Answer): string {
  const said = isWord(value)
    ? sayBareWord(value)
    : readings.length > 1
      ? `${readings.length} readings`
      : printLinkText(value);
  const behind = !isWord(value) || readings.length === 0 ? '' : ` (read ${readings.map(printLinkText).join(', ')})`;
  return stage === undefined ? `${said}${behind}` : `${said}${behind} at ${stage.replaceAll('-', ' ')}`;
}

function sayBareWord(word: string): string {
  const share = readShare(word);
  if (share !== undefined) return `${share.times} of ${share.tries} times`;
  return word === 'unseen' ? 'Not seen while testing' : printWord(word);
}
