import { defineTreeRule } from './rule.ts';

export const cautionFirst = defineTreeRule({
  id: 'caution-first',
  group: 'safety',
  says: 'A caution stands before the instruction it concerns.',
  why: 'People do what they read first. A caution below the step is read with the fingers already in.',
  wrong: 'Read the rail at the farthest chip.\n\n<Caution use="static" />',
  right: '<Caution use="static" />\n\nRead the rail at the farthest chip.',
  *find({ tree, positions }) {
    for (const { id, cautions, prose } of tree.nodes) {
      const firstProse = positions.find(`node/${id}/prose/0`);
      if (prose.length === 0 || firstProse === 'unavailable') continue;
      for (const index of cautions.keys()) {
        const place = positions.find(`node/${id}/caution/${index}`);
        if (place === 'unavailable' || place.line < firstProse.line) continue;
        yield {
          key: `node/${id}/caution/${index}`,
          message: `Unexpected caution after the text of \`${id}\`, expected it before.`,
          help: 'Move it to the top of the node: people do what they read first.',
        };
      }
    }
  },
});
