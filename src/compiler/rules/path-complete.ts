import { defineTreeRule } from './rule.ts';

export const pathComplete = defineTreeRule({
  id: 'path-complete',
  group: 'structure',
  says: 'A path has at least three stages, each with an id of its own, and a first and a last one.',
  why: 'A path is split in the middle, again and again: without a first and a last stage and one between, there is nothing to split.',
  wrong: '<Stage id="input" title="Chip" minutes="2" fault="socket-worn" />',
  right: '<Stage id="chip" title="Chip" minutes="2" fault="socket-worn" />',
  *find({ tree }) {
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
});
