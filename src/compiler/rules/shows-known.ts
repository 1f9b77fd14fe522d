import type { FaultTree, Shows } from '#core/model/fault-tree.ts';
import { wordsOfCheck } from '#core/model/node.ts';
import { suggestName } from '../nearest-name.ts';
import { defineTreeRule } from './rule.ts';

export const showsKnown = defineTreeRule({
  id: 'shows-known',
  group: 'structure',
  says: 'Every `shows` names a check of this tree and outcomes that this check can have.',
  why: 'What a cause makes checks read is what the next check is computed from; a name that does not exist is evidence lost.',
  wrong: 'shows="lamp=flickers rail=none|low"',
  right: 'shows="lamp=no rail=none|low"',
  *find({ tree }) {
    const answers = answersByCheck(tree);
    for (const node of tree.nodes) {
      const shows: Shows = 'shows' in node ? node.shows : {};
      for (const [check, outcomes] of Object.entries(shows)) {
        const known = answers.get(check);
        if (known === undefined) {
          yield {
            key: `node/${node.id}@shows`,
            message: `Unexpected \`${check}\` in \`shows\`, expected a check of this tree.`,
            help: `Name one that exists.${suggestName(check, answers.keys())}`,
          };
          continue;
        }
        for (const outcome of outcomes.filter((word) => !known.includes(word))) {
          yield {
            key: `node/${node.id}@shows`,
            message: `Unexpected outcome \`${outcome}\` of \`${check}\`, expected ${known.join(', ')}.`,
            help: `Use a word that this check answers with.${suggestName(outcome, known)}`,
          };
        }
      }
    }
  },
});

function answersByCheck(tree: FaultTree): ReadonlyMap<string, readonly string[]> {
  return new Map(
    tree.nodes.flatMap((node): [string, readonly string[]][] => {
      if (node.kind === 'check') return [[node.id, [...wordsOfCheck(node), 'sometimes']]];
      if (node.kind === 'path') return [[node.id, [...node.stages.map(({ id }) => id), 'good']]];
      return [];
    }),
  );
}
