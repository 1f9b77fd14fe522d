import { reachableFrom } from '#core/model/node.ts';
import { hypothesisOf } from '#core/diagnosis/tree/derive-problem.ts';
import { defineTreeRule } from './rule.ts';
import { saidRowsOf } from './said-rows.ts';

export const causesSeparated = defineTreeRule({
  id: 'causes-separated',
  group: 'substance',
  says: 'Some check comes out otherwise for any two causes, by the roads that lead to them or by their `shows`.',
  why: 'Where nothing tells two causes apart the reader repairs one of them by luck.',
  wrong: '<Cause id="open-divider" title="Divider open" chance="rare" shows="glow=hot">',
  right: '<Cause id="open-divider" title="Divider open" chance="rare" shows="glow=cool">',
  severity: 'warning',
  *find({ tree, library, file }) {
    const { causes, rows } = saidRowsOf(tree, library);
    // What nothing leads to is told by a rule of its own.
    const reached = reachableFrom(tree, tree.nodes[0]?.id ?? '');
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
});

/** Whether a check that speaks of both comes out otherwise for them. */
function differs(one: readonly number[] | undefined, two: readonly number[] | undefined): boolean {
  return one !== undefined && two !== undefined && one.some((probability, outcome) => probability !== two[outcome]);
}
