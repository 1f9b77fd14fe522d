import { applyLimits } from '#core/model/limits.ts';
import type { Limits, Target } from '#core/model/target.ts';
import type { Rule, RuleFinding } from './rule.ts';

export const limitsAgree: Rule = {
  id: 'limits-agree',
  group: 'measurement',
  says: 'Limits of a variant or a unit are in order with those of their target.',
  why: 'Limits out of order are ignored on the page: the reader of that unit is given the general numbers and does not know.',
  wrong: 'targets:\n  rail-5v: { low: 5.9 }',
  right: 'targets:\n  rail-5v: { low: 4.9 }',
  from: 'a unit',
  severity: 'error',
  *find({ library }) {
    for (const target of library.targets.values()) {
      for (const [variant, limits] of Object.entries(target.variants)) {
        yield* findDisorder(target, limits, {
          file: `content/targets/${target.slug}.mdx`,
          key: `front/variants/${variant}`,
        });
      }
    }
    for (const unit of library.units.values()) {
      for (const [slug, limits] of Object.entries(unit.targets)) {
        const target = library.targets.get(slug);
        if (target === undefined) continue;
        yield* findDisorder(target, limits, {
          file: `content/units/${unit.slug}.mdx`,
          key: `front/targets/${slug}`,
        });
      }
    }
  },
};

function* findDisorder(
  target: Target,
  limits: Limits,
  place: Pick<RuleFinding, 'file' | 'key'>,
): Iterable<RuleFinding> {
  const changed = applyLimits(target, limits);
  if (changed === target) {
    yield {
      ...place,
      message: `Unexpected limits out of order with target \`${target.slug}\`, expected none below low below high.`,
      help: 'A limit that is left out keeps the target’s own: give both where both differ. Named bands cannot be changed.',
    };
    return;
  }
  const healthy = changed.bands.find(({ name }) => name === 'in');
  const { nominal } = changed;
  if (nominal === undefined || healthy === undefined) return;
  if (nominal >= (healthy.from ?? nominal) && nominal <= (healthy.to ?? nominal)) return;
  yield {
    ...place,
    message: `Unexpected nominal ${nominal} outside ${healthy.from ?? '…'} to ${healthy.to ?? '…'}, expected it between the limits.`,
    help: 'Give `nominal` with the limits where it differs from the target’s own.',
  };
}
