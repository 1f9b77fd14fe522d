import { defineTreeRule } from './rule.ts';

export const hazardCautioned = defineTreeRule({
  id: 'hazard-cautioned',
  group: 'safety',
  says: 'Each hazard of the front matter has its cautions somewhere in the tree.',
  why: 'A hazard named and not warned of is worse than none: the author knew.',
  wrong: 'hazards: [static, mains, chemical]',
  right: 'hazards: [static, mains]',
  *find({ tree, library }) {
    const written = new Set(tree.nodes.flatMap(({ cautions }) => cautions));
    for (const [index, hazard] of tree.hazards.entries()) {
      const missing = (library.hazards.get(hazard)?.cautions ?? []).filter((caution) => !written.has(caution));
      if (missing.length === 0) continue;
      yield {
        key: `front/hazards/${index}`,
        message: `Unexpected hazard \`${hazard}\` without ${missing.map((slug) => `\`${slug}\``).join(', ')}, expected its cautions in the tree.`,
        help: 'Put <Caution use="…" /> into the node where the hazard is met, or remove the hazard.',
      };
    }
  },
});
