import { wordsOfCheck, wordsOfTarget } from '#core/model/node.ts';
import type { Check } from '#core/model/fault-tree.ts';
import { suggestName } from '../nearest-name.ts';
import { defineTreeRule, type TreeFinding } from './rule.ts';

export const outcomesComplete = defineTreeRule({
  id: 'outcomes-complete',
  group: 'structure',
  says: 'Every band of a check’s target has an outcome, no other word is used, and none is used twice.',
  why: 'Somebody will read just that band; without an outcome the tree leaves them standing with a reading in hand.',
  wrong: '<Outcome when="low" to="supply-path" />',
  right: '<Outcome when="none low" to="supply-path" />',
  *find({ tree, library }) {
    for (const check of tree.nodes) {
      if (check.kind !== 'check') continue;
      yield* findTwice(check);
      const target = check.target === undefined ? undefined : library.targets.get(check.target.target);
      const expected = target !== undefined ? wordsOfTarget(target) : fixedWords(check);
      if (expected === undefined) yield* findTooFew(check);
      else {
        const allowed = check.swap === undefined ? expected : [...expected, 'both-bad'];
        yield* compare(check, expected, allowed, target === undefined ? 'this check' : `target \`${target.slug}\``);
      }
    }
  },
});

/** Words that the kind of check settles, or undefined where the author chooses them. */
function fixedWords(check: Check): readonly string[] | undefined {
  if (check.swap !== undefined) return ['follows', 'stays'];
  if (check.sign !== undefined) return ['yes', 'no'];
  return undefined;
}

function* compare(
  check: Check,
  expected: readonly string[],
  allowed: readonly string[],
  whose: string,
): Iterable<TreeFinding> {
  const said = wordsOfCheck(check);
  const missing = expected.filter((word) => !said.includes(word));
  if (missing.length > 0) {
    yield {
      key: `node/${check.id}`,
      message: `Unexpected absence of ${missing.map((word) => `\`${word}\``).join(', ')} in \`${check.id}\`, expected an outcome for every answer of ${whose}.`,
      help: `Add <Outcome when="${missing.join(' ')}" to="…" />, or add the words to an outcome that fits.`,
    };
  }
  for (const [index, { when }] of check.outcomes.entries()) {
    for (const word of when.filter((candidate) => candidate !== 'sometimes' && !allowed.includes(candidate))) {
      yield {
        key: `node/${check.id}/outcome/${index}@when`,
        message: `Unexpected outcome \`${word}\`, expected ${allowed.join(', ')}.`,
        help: `${whose} has no other answers.${suggestName(word, allowed)}`,
      };
    }
  }
}

function* findTwice(check: Check): Iterable<TreeFinding> {
  const seen = new Set<string>();
  for (const [index, { when }] of check.outcomes.entries()) {
    for (const word of when) {
      if (seen.has(word)) {
        yield {
          key: `node/${check.id}/outcome/${index}@when`,
          message: `Unexpected second outcome for \`${word}\`, expected each answer to lead to one place.`,
          help: 'Remove it from one of the two.',
        };
      }
      seen.add(word);
    }
  }
}

function* findTooFew(check: Check): Iterable<TreeFinding> {
  if (wordsOfCheck(check).length >= 2) return;
  yield {
    key: `node/${check.id}`,
    message: `Unexpected check \`${check.id}\` with fewer than two answers, expected at least two outcomes.`,
    help: 'A check that can only come out one way tells nothing: add the other answer.',
  };
}
