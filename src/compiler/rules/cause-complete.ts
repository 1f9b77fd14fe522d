import type { Cause } from '#core/model/fault-tree.ts';
import { defineTreeRule, type TreeFinding } from './rule.ts';

export const causeComplete = defineTreeRule({
  id: 'cause-complete',
  says: 'Every cause says how to confirm it, repair it and prove the repair, and links to at least one target.',
  *find({ tree }) {
    for (const cause of tree.nodes) if (cause.kind === 'cause') yield* findGaps(cause);
  },
});

function* findGaps(cause: Cause): Iterable<TreeFinding> {
  const key = `node/${cause.id}`;
  for (const [part, name] of [
    [cause.confirm, 'Confirm'],
    [cause.repair, 'Repair'],
    [cause.prove, 'Prove'],
  ] as const) {
    if (part !== undefined) continue;
    yield {
      key,
      message: `Unexpected cause \`${cause.id}\` without \`<${name}>\`, expected all three of Confirm, Repair, Prove.`,
      help: `Add <${name}> with what a person does at the bench.`,
    };
  }
  if ([...(cause.confirm?.targets ?? []), ...(cause.prove?.targets ?? [])].length === 0) {
    yield {
      key,
      message: `Unexpected cause \`${cause.id}\` without a target, expected a number that confirms or proves it.`,
      help: 'Add <Target use="…" /> in Confirm or Prove.',
    };
  }
  const { repair } = cause;
  if (repair === undefined) return;
  if (repair.record.length === 0 && (repair.leaves === 'damage' || repair.substitutes.length > 0)) {
    yield {
      key: `${key}/repair`,
      message: `Unexpected repair of \`${cause.id}\` without \`<Record>\`, expected it before anything is taken out.`,
      help: 'Say what to photograph and which marks to note, first thing in <Repair>.',
    };
  }
}
