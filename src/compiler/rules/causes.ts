import { deriveProblem, hypothesisOf } from '#core/diagnosis/tree/derive-problem.ts';
import { everythingAtHand } from '#core/diagnosis/tree/tree-checks.ts';
import type { Cause, FaultTree, TreeNode } from '#core/model/fault-tree.ts';
import type { LibraryBeside } from '#core/model/library.ts';
import { cautionsOf, findNode, linksFrom, needsOf, reachableFromStart, wordsOfCheck } from '#core/model/node.ts';
import { listParagraphs } from '#core/model/prose.ts';
import { type Telling, findTold, foldedSentences } from '../clauses.ts';
import type { Rule, FileFinding } from './rule.ts';

export const causeRules: readonly Rule[] = [
  {
    id: 'cause-complete',
    group: 'substance',
    says: 'Every cause says how to confirm it, repair it and prove the repair, links to at least one target, and carries a caution.',
    why: 'A suspicion is not a repair: the reader must know how to be sure, what to do, how to know that it holds, and what can hurt.',
    wrong: '</Repair>\n\n</Cause>',
    right: '</Repair>\n\n<Prove minutes="3">Put it back, use it for an hour and read again.</Prove>\n\n</Cause>',
    *findInTree({ tree, library }) {
      for (const cause of tree.nodes) if (cause.kind === 'cause') yield* findGaps(cause, library);
    },
  },
  {
    id: 'record-first',
    group: 'safety',
    says: 'A repair that takes anything out begins with `<Record>`: what to photograph and which marks to note.',
    why: 'A part put back the wrong way round is the second fault, and the photograph that would have told was never taken.',
    wrong: 'Fit the new one.\n\n<Record>Photograph the tab and its washer.</Record>',
    right: '<Record>Photograph the tab and its washer.</Record>\n\nFit the new one.',
    *findInTree({ tree, positions }) {
      for (const cause of tree.nodes) {
        if (cause.kind !== 'cause' || cause.repair === undefined) continue;
        const key = `node/${cause.id}/repair`;
        const reason = removalIn(cause);
        if (cause.repair.record.length === 0 && reason !== undefined) {
          yield {
            key,
            message: `Unexpected repair of \`${cause.id}\` without \`<Record>\`, expected it because ${reason}.`,
            help: 'Say what to photograph and which marks to note, first thing in <Repair>.',
          };
        }
        const record = positions.find(`${key}/record/prose/0`);
        const prose = positions.find(`${key}/prose/0`);
        if (cause.repair.record.length === 0 || cause.repair.prose.length === 0) continue;
        if (record === 'unavailable' || prose === 'unavailable' || record.line < prose.line) continue;
        yield {
          key: `${key}/record/prose/0`,
          message: `Unexpected \`<Record>\` after the repair of \`${cause.id}\` began, expected it first in <Repair>.`,
          help: 'Move it to the top: the photograph is taken before anything moves.',
        };
      }
    },
  },
  {
    id: 'new-part-tested',
    group: 'substance',
    says: 'A repair that fits a new part has a `<Substitute>` that says what it must match and how to test it first.',
    why: 'New old stock is often dead, and fakes are common: a part not tested before it goes in starts the hunt again.',
    wrong: 'Seat the chip again, or fit a new one.',
    right: 'Seat the chip again.',
    severity: 'warning',
    *findInTree({ tree }) {
      for (const cause of tree.nodes) {
        if (cause.kind !== 'cause' || cause.repair === undefined || cause.repair.substitutes.length > 0) continue;
        for (const [index, paragraph] of listParagraphs(cause.repair.prose).entries()) {
          for (const { words } of foldedSentences(paragraph).flatMap((sentence) => findTold(sentence, fitting))) {
            yield {
              key: `node/${cause.id}/repair/prose/${index}`,
              message: `Unexpected new part at \`${cause.id}\` ("${words.slice(0, 40)}"), expected a \`<Substitute>\` for it.`,
              help: 'Add <Substitute role="…" test="…">: what it must match, and how to test the new one before it goes in.',
            };
          }
        }
      }
    },
  },
  {
    id: 'causes-separated',
    group: 'substance',
    says: 'Some check comes out otherwise for any two causes, by the roads that lead to them or by their `shows`.',
    why: 'Where nothing tells two causes apart the reader repairs one of them by luck.',
    wrong: '<Cause id="open-divider" title="Divider open" chance="rare" shows="glow=hot">',
    right: '<Cause id="open-divider" title="Divider open" chance="rare" shows="glow=cool">',
    severity: 'warning',
    *findInTree({ tree, library, file }) {
      const { causes, rows } = saidRowsOf(tree, library);
      // What nothing leads to is told by a rule of its own.
      const reached = reachableFromStart(tree);
      for (const [place, first] of causes.entries()) {
        for (const [distance, second] of causes.slice(place + 1).entries()) {
          const other = place + 1 + distance;
          if (!reached.has(first) || !reached.has(second)) continue;
          const [one, two] = [hypothesisOf(tree, first), hypothesisOf(tree, second)];
          if (one === undefined || two === undefined || (one.kind !== 'cause' && two.kind !== 'cause')) continue;
          if (rows.some((row) => differs(row[place], row[other]))) continue;
          yield {
            key: `node/${second}`,
            message: `Unexpected \`${second}\` that no check tells from \`${first}\`, expected one that comes out otherwise.`,
            help: 'Add a check between the two, say in `shows` what they make a check read, or make them one cause.',
            other: { file, key: `node/${first}`, says: 'the other one' },
          };
        }
      }
    },
  },
  {
    id: 'check-separates',
    group: 'substance',
    says: 'Every check comes out otherwise for at least two ends. A look that only asks what kind of unit it is may come out alike.',
    why: 'A check that comes out the same whatever is wrong costs its minutes and tells nothing.',
    wrong: '<Outcome when="dark" to="socket-worn" />\n<Outcome when="clean" to="socket-worn" />',
    right: '<Outcome when="dark" to="leave-it" />\n<Outcome when="clean" to="socket-worn" />',
    severity: 'warning',
    *findInTree({ tree, library }) {
      const { checks, rows } = saidRowsOf(tree, library);
      for (const [place, id] of checks.entries()) {
        const [nodeId = '', stage] = id.split('/');
        const node = findNode(tree, nodeId);
        if (node === undefined || isExempt(node) || separates(rows[place] ?? [])) continue;
        yield {
          key: stage === undefined ? `node/${nodeId}` : `node/${nodeId}/stage/${stage}`,
          message: `Unexpected check \`${id}\` that comes out alike for every end it speaks of, expected one that tells some apart.`,
          help: 'Let its answers lead to different causes, say in `shows` what causes make it read, or take it out. A hand-over for want of an instrument counts as no end.',
        };
      }
    },
  },
];

const fieldOf = { Confirm: 'confirm', Repair: 'repair', Prove: 'prove' } as const;

function* findGaps(cause: Cause, library: LibraryBeside): Iterable<FileFinding> {
  const key = `node/${cause.id}`;
  const missing = (['Confirm', 'Repair', 'Prove'] as const).filter((name) => cause[fieldOf[name]] === undefined);
  if (missing.length > 0) {
    const tags = missing.map((name) => `<${name}>`);
    yield {
      key,
      message: `Unexpected cause \`${cause.id}\` without ${tags.map((tag) => `\`${tag}\``).join(', ')}, expected all three of Confirm, Repair, Prove.`,
      help: `Add ${tags.join(', ')} with what a person does at the bench.`,
    };
  }
  if ([...(cause.confirm?.targets ?? []), ...(cause.prove?.targets ?? [])].length === 0) {
    yield {
      key,
      message: `Unexpected cause \`${cause.id}\` without a target, expected a number that confirms or proves it.`,
      help: 'Add <Target use="…" /> in Confirm or Prove.',
    };
  }
  // A caution that names nothing is another rule's matter.
  const isCautioned = cause.cautions.length > 0 || needsOf(cause).length > 0 || cautionsOf(cause, library).length > 0;
  if (!isCautioned && library.cautions.size > 0) {
    yield {
      key,
      message: `Unexpected cause \`${cause.id}\` without a caution, expected what can hurt a person, the unit or what it holds.`,
      help: 'Add <Caution use="…" /> at the top of the cause; `mains` where it is repaired in a unit with mains inside.',
    };
  }
}

/** Words that take something out, off or apart. Cleaning and reseating in place are none. */
const removal: Telling = {
  act: /\b(?:remove|desolder|unsolder|solder (?:it |them )?out|take (?:it|them|the \S+(?: \S+)?) (?:out|off|apart)|lift (?:it|the \S+) out|cut (?:its|the|all) (?:legs|leads|wires|pins)|pull (?:it|the \S+) out|unscrew the (?:board|drive|tab|transformer)|suck the holes)\b/,
};
/** A part that was not there before goes in. */
const fitting: Telling = {
  act: /\b(?:fit|solder in|put in|install|change it for|replace (?:it|them|the \S+(?: \S+)?) (?:by|with))\b/,
  object: /\b(?:new|replacement|known-good|another|fresh)\b/,
  reach: 4,
};

/** Why the repair needs a record: in words for the message, or undefined. A lead or a disk is changed whole, with nothing to note. */
function removalIn({ repair, lies }: Cause): string | undefined {
  if (repair === undefined) return undefined;
  if (lies === 'unit' && repair.leaves === 'damage') return 'the repair leaves damage';
  if (lies === 'unit' && repair.substitutes.length > 0) return 'a part is changed';
  const [first] = listParagraphs(repair.prose)
    .flatMap(foldedSentences)
    .flatMap((sentence) => findTold(sentence, removal));
  return first === undefined ? undefined : `it says "${first.words}"`;
}

/** Whether a check that speaks of both comes out otherwise for them. */
function differs(one: readonly number[] | undefined, two: readonly number[] | undefined): boolean {
  return one !== undefined && two !== undefined && one.some((probability, outcome) => probability !== two[outcome]);
}

/** Too few answers are another rule’s matter. A look without instrument or target whose answers lead different ways: it chooses the procedure, not the cause. */
function isExempt(node: TreeNode): boolean {
  if (node.kind === 'check' && wordsOfCheck(node).length < 2) return true;
  if (node.kind !== 'check' || node.target !== undefined || node.instruments.some((family) => family !== 'eyes')) {
    return false;
  }
  return new Set(linksFrom(node).map(({ to }) => to)).size > 1;
}

function separates(row: readonly (readonly number[] | undefined)[]): boolean {
  const said = row.filter((outcomes) => outcomes !== undefined);
  const [first] = said;
  return said.some((outcomes) => outcomes.some((probability, outcome) => probability !== first?.[outcome]));
}

/** What the checks of a tree say of its ends: P(outcome | end) by check and end, undefined where a check says nothing of an end. */
interface SaidRows {
  readonly causes: readonly string[];
  readonly checks: readonly string[];
  readonly rows: readonly (readonly (readonly number[] | undefined)[])[];
}

/** Reads a tree as the diagnosis does, every answer taken as right. Cost: checks × ends. */
function saidRowsOf(tree: FaultTree, library: Pick<LibraryBeside, 'setups' | 'instruments'>): SaidRows {
  const { problem, saidRows } = deriveProblem(tree, library, {
    bench: everythingAtHand,
    goal: 'isolate',
    isFaultless: true,
    repaired: [],
    isWorsened: false,
  });
  return { causes: problem.causes.map(({ id }) => id), checks: problem.checks.map(({ id }) => id), rows: saidRows };
}
