import type { Check, FaultTree } from '#core/model/fault-tree.ts';
import { findNode, linksFrom, reachableFrom, wordsOfCheck, wordsOfTarget } from '#core/model/node.ts';
import { colourSchemes, contrastOf, contrastsNeeded } from '#core/model/site.ts';
import { suggestName } from '../nearest-name.ts';
import type { Rule, FileFinding } from './rule.ts';

/** Whether a way of the tree leads to a node that it does not have. */
export function hasLostWay(tree: FaultTree): boolean {
  const ids = new Set(tree.nodes.map(({ id }) => id));
  return tree.nodes.some((node) => linksFrom(node).some(({ to }) => !ids.has(to)));
}

export const structureRules: readonly Rule[] = [
  {
    id: 'starts-with-check',
    group: 'structure',
    says: 'A tree begins with a check, and holds at least two causes.',
    why: 'The reader comes with a symptom and must be asked something first; with one cause there is nothing to find.',
    wrong:
      '<HandOver id="first" title="Leave it" because="licensed">Leave it.</HandOver>\n\n<Check id="lamp" title="Does the lamp light?" minutes="1" power="off" sign="any-light">',
    right: '<Check id="lamp" title="Does the lamp light?" minutes="1" power="off" sign="any-light">',
    *findInTree({ tree }) {
      const start = tree.nodes[0];
      if (start !== undefined && start.kind !== 'check') {
        yield {
          key: `node/${start.id}`,
          message: `Unexpected first node \`${start.id}\`, expected a check.`,
          help: 'Put the cheapest and likeliest check first.',
        };
      }
      if (tree.nodes.filter(({ kind }) => kind === 'cause').length < 2) {
        yield {
          key: 'front/title',
          message: 'Unexpected tree with fewer than two causes, expected a choice to make.',
          help: 'Add the other causes that show the same symptom.',
        };
      }
    },
  },
  {
    id: 'since-told',
    group: 'structure',
    says: 'A tree says since when it is in the library.',
    why: 'The feed of new trees names that day. A build knows no other: it may stand years later, on another machine.',
    wrong: 'block: power\nsummary: The five volt rail reads high.',
    right: 'block: power\nsince: 2026-01-06\nsummary: The five volt rail reads high.',
    *findInTree({ tree }) {
      if (tree.since !== undefined) return;
      yield {
        key: 'front/block',
        message: 'Unexpected absence of `since`, expected the day on which the tree came into the library.',
        help: 'Write the day of today below `block`, as `since: 2026-11-30`.',
      };
    },
  },
  {
    id: 'contrast-enough',
    group: 'language',
    says: 'Colours of a library can be told apart: 4.5 to 1 for words, 3 to 1 for frames (WCAG 2.2, 1.4.3 and 1.4.11).',
    why: 'A phone is read in the sun beside a bench, and not by young eyes alone.',
    wrong: "colours: { light: { signal: '#ff7733' } }",
    right: "colours: { light: { signal: '#a8330a' } }",
    isOfWhole: true,
    *findInAll({ library }) {
      for (const scheme of colourSchemes) {
        const colours = library.site.colours[scheme];
        for (const [above, below, least] of contrastsNeeded) {
          const contrast = contrastOf(colours[above], colours[below]);
          if (contrast >= least) continue;
          yield {
            file: 'content/site.yaml',
            key: `front/colours/${scheme}/${above}`,
            message: `Unexpected contrast of ${Math.floor(contrast * 10) / 10} between \`${above}\` and \`${below}\` (${scheme}), expected ${least} or more.`,
            help: `Make \`${above}\` ${scheme === 'light' && below !== 'signal' ? 'darker' : 'differ more'}, or take another \`${below}\`.`,
          };
        }
      }
    },
  },
  {
    id: 'block-folder',
    group: 'structure',
    says: 'A tree lies in the folder of its block, and no other tree has its name.',
    why: 'The address holds only the slug, and the next author looks for the file where its block says.',
    wrong: 'block: audio',
    right: 'block: power',
    *findInTree({ tree, file }) {
      const folder = file.split('/').at(-2);
      if (folder !== tree.block) {
        yield {
          key: 'front/block',
          message: `Unexpected block \`${tree.block}\` in folder \`${folder ?? ''}\`, expected the two to be equal.`,
          help: 'Move the file, or fix the block.',
        };
      }
    },
    *findInAll({ trees }) {
      const firsts = new Map<string, string>();
      for (const { tree, file } of trees) {
        const first = firsts.get(tree.slug);
        if (first === undefined) {
          firsts.set(tree.slug, file);
          continue;
        }
        yield {
          file,
          key: 'front/title',
          message: `Unexpected second tree \`${tree.slug}\`, expected each slug once over all blocks.`,
          help: 'Rename the file: the slug is its name.',
          other: { file: first, key: 'front/title', says: 'the first one' },
        };
      }
    },
  },
  {
    id: 'reachable-nodes',
    group: 'structure',
    says: 'Every node can be reached from the first one.',
    why: 'A node that nothing leads to is never read, and what its author knew is lost.',
    wrong: '<Outcome when="high" to="leave-it" />',
    right: '<Outcome when="high" to="other-rail" />',
    *findInTree({ tree }) {
      const start = tree.nodes[0];
      // What lies behind a misspelt way is named by `known-nodes`, once.
      if (start === undefined || hasLostWay(tree)) return;
      const reached = reachableFrom(tree, start.id);
      for (const { id } of tree.nodes) {
        if (reached.has(id)) continue;
        yield {
          key: `node/${id}@id`,
          message: `Unexpected node \`${id}\` that no outcome leads to, expected a way from \`${start.id}\`.`,
          help: 'Let an outcome lead to it, or remove it.',
        };
      }
    },
  },
  {
    id: 'no-cycle',
    group: 'structure',
    says: 'No answer leads back to a check that was done before.',
    why: 'A reader sent back to a check already done goes round until the patience is gone, and no plan can be computed.',
    wrong: 'good="lamp"',
    right: 'good="socket-worn"',
    *findInTree({ tree }) {
      const back = findBackLink(tree);
      if (back === undefined) return;
      yield {
        key: `node/${back.from}${back.part}`,
        message: `Unexpected way back from \`${back.from}\` to \`${back.to}\`, expected answers to lead onward only.`,
        help: 'Lead to a later check, or to a cause. A reading worth repeating is repeated on its own page.',
      };
    },
  },
  {
    id: 'path-complete',
    group: 'structure',
    says: 'A path has at least three stages, each with an id of its own, and a first and a last one.',
    why: 'A path is split in the middle, again and again: without a first and a last stage and one between, there is nothing to split.',
    wrong: '<Stage id="input" title="Chip" minutes="2" fault="socket-worn" />',
    right: '<Stage id="chip" title="Chip" minutes="2" fault="socket-worn" />',
    *findInTree({ tree }) {
      for (const path of tree.nodes) {
        if (path.kind !== 'path') continue;
        if (path.stages.length < 3) {
          yield {
            key: `node/${path.id}`,
            message: `Unexpected path with ${path.stages.length} stages, expected at least three.`,
            help: 'With fewer, plain checks serve better.',
          };
        }
        const seen = new Set<string>();
        for (const { id, from } of path.stages) {
          const key = `node/${path.id}/stage/${id}`;
          if (seen.has(id)) {
            yield {
              key: `${key}@id`,
              message: `Unexpected second stage \`${id}\`, expected each id once in a path.`,
              help: 'Rename one of the two.',
            };
          }
          if (from.some((earlier) => !seen.has(earlier))) {
            yield {
              key: `${key}@from`,
              message: `Unexpected \`from\` of \`${id}\`, expected stages that stand above it.`,
              help: 'Put the stages in the order of the signal.',
            };
          }
          seen.add(id);
        }
      }
    },
  },
  {
    id: 'outcomes-complete',
    group: 'structure',
    says: 'Every band of a check’s target has an outcome, no other word is used, and none is used twice.',
    why: 'Somebody will read just that band; without an outcome the tree leaves them standing with a reading in hand.',
    wrong: '<Outcome when="low" to="supply-path" />',
    right: '<Outcome when="none low" to="supply-path" />',
    *findInTree({ tree, library }) {
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
  },
];

interface BackLink {
  readonly from: string;
  readonly to: string;
  readonly part: string;
}

/** Depth-first walk with its own stack, so that a tree of any depth is safe. */
function findBackLink(tree: FaultTree): BackLink | undefined {
  const state = new Map<string, 'open' | 'done'>();
  for (const { id: root } of tree.nodes) {
    if (state.has(root)) continue;
    const stack = [root];
    while (stack.length > 0) {
      const id = stack.at(-1) ?? root;
      const node = findNode(tree, id);
      if (state.get(id) === undefined) state.set(id, 'open');
      const links = node === undefined ? [] : linksFrom(node);
      const back = links.find(({ to }) => state.get(to) === 'open');
      if (back !== undefined) return back;
      const next = links.find(({ to }) => state.get(to) === undefined && findNode(tree, to) !== undefined);
      if (next === undefined) {
        state.set(id, 'done');
        stack.pop();
      } else {
        stack.push(next.to);
      }
    }
  }
  return undefined;
}

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
): Iterable<FileFinding> {
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

function* findTwice(check: Check): Iterable<FileFinding> {
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

function* findTooFew(check: Check): Iterable<FileFinding> {
  if (wordsOfCheck(check).length >= 2) return;
  yield {
    key: `node/${check.id}`,
    message: `Unexpected check \`${check.id}\` with fewer than two answers, expected at least two outcomes.`,
    help: 'A check that can only come out one way tells nothing: add the other answer.',
  };
}
