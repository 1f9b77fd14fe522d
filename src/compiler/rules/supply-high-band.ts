import type { Target } from '#core/model/target.ts';
import type { Rule } from './rule.ts';

export const supplyHighBand: Rule = {
  id: 'supply-high-band',
  group: 'safety',
  says: 'A target for a supply rail has an upper limit, so that a check of it has an outcome `high`.',
  why: 'A rail that reads too high destroys every chip on it. A target without an upper limit calls it healthy.',
  wrong: 'low: 4.75\nnominal: 5',
  right: 'low: 4.75\nnominal: 5\nhigh: 5.25',
  from: 'a target',
  severity: 'error',
  *find({ library }) {
    for (const target of library.targets.values()) {
      if (!isSupply(target) || hasHighBand(target)) continue;
      yield {
        file: `content/targets/${target.slug}.mdx`,
        key: 'front/title',
        message: `Unexpected supply target \`${target.slug}\` without an upper limit, expected \`high:\` or a band above \`in\`.`,
        help: 'Say above which voltage the parts on it are at risk; every check of it then leads somewhere for `high`.',
      };
    }
  },
};

/** A dc voltage that feeds something, told by its slug or title; an input to a regulator is judged by what the regulator needs. */
function isSupply({ quantity, slug, title }: Target): boolean {
  if (quantity !== 'voltage-dc') return false;
  return /\b(rail|supply)\b/i.test(title) || slug.split('-').some((word) => word === 'rail' || word === 'supply');
}

function hasHighBand({ bands }: Target): boolean {
  return bands.findIndex(({ name }) => name === 'in') < bands.length - 1;
}
