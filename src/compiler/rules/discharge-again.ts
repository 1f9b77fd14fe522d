import { findNode, linksFrom } from '#core/model/links.ts';
import { defineTreeRule } from './rule.ts';

export const dischargeAgain = defineTreeRule({
  id: 'discharge-again',
  says: 'Where the unit may store charge, hands go in after a powered step only with the set-up `discharged`.',
  *find({ tree, library }) {
    const setups = tree.hazards
      .map((hazard) => library.hazards.get(hazard)?.setup)
      .filter((setup) => setup !== undefined);
    if (setups.length === 0) return;
    const reported = new Set<string>();
    for (const step of tree.nodes) {
      if ((step.kind !== 'check' && step.kind !== 'path') || step.power !== 'on') continue;
      for (const { to } of linksFrom(step)) {
        const next = findNode(tree, to);
        if (next === undefined || reported.has(next.id)) continue;
        if (next.kind !== 'check' && next.kind !== 'path') continue;
        if (next.power === 'on' || !next.needs.some((setup) => setup === 'case-open' || setup === 'board-out'))
          continue;
        const missing = setups.filter((setup) => !next.needs.includes(setup));
        if (missing.length === 0) continue;
        reported.add(next.id);
        yield {
          key: `node/${next.id}@needs`,
          message: `Unexpected hands inside at \`${next.id}\` after power was on at \`${step.id}\`, expected the set-up \`${missing.join(' ')}\`.`,
          help: `Add it to needs="…": what was discharged is charged again at every power-on.`,
        };
      }
    }
  },
});
