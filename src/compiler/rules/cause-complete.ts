import type { Cause } from '#core/model/fault-tree.ts';
import type { Library } from '#core/model/library.ts';
import { cautionsOf, needsOf } from '#core/model/node.ts';
import { defineTreeRule, type TreeFinding } from './rule.ts';

export const causeComplete = defineTreeRule({
  id: 'cause-complete',
  group: 'substance',
  says: 'Every cause says how to confirm it, repair it and prove the repair, links to at least one target, and carries a caution.',
  why: 'A suspicion is not a repair: the reader must know how to be sure, what to do, how to know that it holds, and what can hurt.',
  wrong: '</Repair>\n\n</Cause>',
  right: '</Repair>\n\n<Prove minutes="3">Put it back and read again.</Prove>\n\n</Cause>',
  *find({ tree, library }) {
    for (const cause of tree.nodes) if (cause.kind === 'cause') yield* findGaps(cause, library);
  },
});

const fieldOf = { Confirm: 'confirm', Repair: 'repair', Prove: 'prove' } as const;

function* findGaps(cause: Cause, library: Library): Iterable<TreeFinding> {
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
