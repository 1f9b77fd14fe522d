import { fits, formulas } from '#core/reading/formula.ts';
import type { TargetUse, TreeNode } from '#core/model/fault-tree.ts';
import { applyLimits } from '#core/model/limits.ts';
import { printHealthy } from '#core/model/target-text.ts';
import type { Limits, Status, Target } from '#core/model/target.ts';
import { type BaseUnit, findUnit, measuresOf } from '#core/quantity/unit.ts';
import { type QuotedQuantity, findQuantities } from '../find-quantities.ts';
import { suggestName } from '../nearest-name.ts';
import { prosePlaces, splitSentences } from '../reader-texts.ts';
import type { Rule, RuleFinding } from './rule.ts';

export const targetRules: readonly Rule[] = [
  {
    id: 'quantity-unit',
    group: 'measurement',
    says: 'A target measures a known quantity in a unit of that quantity.',
    why: 'A voltage given in ohms cannot be judged, and no reading typed at the bench will ever fit it.',
    wrong: 'quantity: voltage-dc\nunit: kΩ',
    right: 'quantity: voltage-dc\nunit: V',
    from: 'a target',
    *findInAll({ library }) {
      for (const { slug, quantity, unit } of library.targets.values()) {
        const file = `content/targets/${slug}.mdx`;
        const names = Object.keys(quantityUnits);
        const bases = Object.hasOwn(quantityUnits, quantity) ? quantityUnits[quantity] : undefined;
        if (bases === undefined) {
          yield {
            file,
            key: 'front/quantity',
            message: `Unexpected quantity \`${quantity}\`, expected ${names.join(', ')}.`,
            help: `Choose what is measured.${suggestName(quantity, names)}`,
          };
          continue;
        }
        const found = findUnit(unit);
        if (found !== undefined && bases.includes(found.base)) continue;
        const expected = bases.map((base) => `\`${base}\` (${measuresOf(base)})`).join(' or ');
        yield {
          file,
          key: 'front/unit',
          message: `Unexpected unit \`${unit}\` for the quantity \`${quantity}\`, expected ${expected}.`,
          help: found === undefined ? 'Write the unit as other targets do.' : 'Correct the unit, or the quantity.',
        };
      }
    },
  },
  {
    id: 'computed-fits',
    group: 'measurement',
    says: 'A target that no instrument shows in one figure says what is entered and how it is computed, with figures that fit the formula.',
    why: 'Nobody divides by hand at a bench: a slip there is a wrong part ordered.',
    wrong:
      'computed: percent\nentered: [{ name: dc, quantity: voltage-dc, unit: V }, { name: ac, quantity: voltage-ac, unit: V rms }]',
    right:
      'computed: trough\nentered: [{ name: dc, quantity: voltage-dc, unit: V }, { name: ac, quantity: voltage-ac, unit: V rms }]',
    from: 'a target',
    *findInAll({ library }) {
      for (const target of library.targets.values()) {
        const found = findMisfit(target);
        if (found !== undefined) yield { file: `content/targets/${target.slug}.mdx`, key: 'front/computed', ...found };
      }
    },
  },
  {
    id: 'limits-agree',
    group: 'measurement',
    says: 'Limits of a variant or a unit are in order with those of their target.',
    why: 'Limits out of order are ignored on the page: the reader of that unit is given the general numbers and does not know.',
    wrong: 'targets:\n  rail-5v: { low: 5.9 }',
    right: 'targets:\n  rail-5v: { low: 4.9 }',
    from: 'a unit',
    *findInAll({ library }) {
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
  },
  {
    id: 'prose-number',
    group: 'measurement',
    says: 'A sentence that tells the healthy reading quotes the numbers of the target beside it.',
    why: 'Two different numbers on one page: one of them sends the reader the wrong way, and nobody can tell which.',
    wrong: 'Read the rail: it should read 4.5 to 5.5 V.',
    right: 'Read the rail: it should read 4.75 to 5.25 V.',
    severity: 'warning',
    *findInTree({ tree, library }) {
      for (const node of tree.nodes) {
        for (const { key, text, part } of prosePlaces(node)) {
          const targets = targetsBeside(node, part).flatMap(({ target }) => library.targets.get(target) ?? []);
          const [target] = targets;
          if (target === undefined || targets.length > 1) continue;
          for (const sentence of splitSentences(text)) {
            for (const quantity of findQuantities(sentence)) {
              const rest = sentence.slice(quantity.index + quantity.text.length);
              const isClaim = claims.test(sentence.slice(0, quantity.index)) || claimsAfter.test(rest);
              // "… another kind: then 10 kΩ is good" speaks of what the target does not.
              if (!isClaim || settings.test(sentence) || /^then\b/i.test(sentence)) continue;
              if (agrees(quantity, target) || /\btypes?\b/.test(sentence.slice(0, quantity.index))) continue;
              yield {
                key,
                message: `Unexpected "${quantity.text}" beside target \`${target.slug}\`, expected its own numbers: ${printHealthy(target)}.`,
                help: 'Leave the number to the target, or use the target whose number you mean.',
              };
            }
          }
        }
      }
    },
  },
  {
    id: 'honest-source',
    group: 'measurement',
    says: 'The status of a number claims no more than its source: what rests on memory or on common practice is not marked `read`.',
    why: 'The page prints where a number comes from. Readers rely on it, and the next author will not look it up again.',
    wrong: 'source: bench\nstatus: read',
    right: 'source: bench\nstatus: practice',
    from: 'a target',
    *findInAll({ library }) {
      const places = [
        ...[...library.targets.values()].map((item) => ({ ...item, file: `content/targets/${item.slug}.mdx` })),
        ...[...library.cautions.values()].map((item) => ({ ...item, file: `content/cautions/${item.slug}.mdx` })),
      ];
      for (const { file, source, status } of places) {
        const known = library.sources.get(source);
        if (known === undefined || status === 'computed' || rank[status] <= rank[known.status]) continue;
        yield {
          file,
          key: 'front/status',
          message: `Unexpected status \`${status}\` on source \`${source}\`, expected at most \`${known.status}\`.`,
          help: `Mark it \`${known.status}\`, or name the published source that was ${status === 'read' ? 'read' : 'known'}.`,
        };
      }
    },
  },
  {
    id: 'supply-high-band',
    group: 'safety',
    says: 'A target for a supply rail has an upper limit, so that a check of it has an outcome `high`.',
    why: 'A rail that reads too high destroys every chip on it. A target without an upper limit calls it healthy.',
    wrong: 'low: 4.75\nnominal: 5',
    right: 'low: 4.75\nnominal: 5\nhigh: 5.25',
    from: 'a target',
    *findInAll({ library }) {
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
  },
];

/** What each quantity may be measured in. A temperature is °C in content; the reader may type °F. */
export const quantityUnits: Readonly<Record<string, readonly BaseUnit[]>> = {
  'voltage-dc': ['V'],
  'voltage-ac': ['V rms'],
  'voltage-pp': ['Vpp'],
  'diode-test': ['V'],
  current: ['A'],
  'charge-current': ['A'],
  resistance: ['Ω'],
  capacitance: ['F'],
  frequency: ['Hz'],
  speed: ['%'],
  time: ['s'],
  temperature: ['°C'],
  power: ['W'],
  ratio: ['%', 'ppm'],
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

/** Words right before a number that make it a claim about what is healthy. */
const claims =
  /\b(expect|should (?:read|be|show|give|measure)|must (?:read|be|show|give)|healthy (?:is|reads)|good (?:is|reads)|reads?|shows?|want(?:s|ed)?|look for|between|at least|at most)(?: about| around| at least| at most| between| from| near)?\s*$/i;
/** Words right after a number that make it one. */
const claimsAfter = /^ (?:is|are|means) (?:good|healthy|right|fine|normal)\b/i;
/** Numbers that are settings, ratings or the proof that a capacitor is empty, not readings. */
const settings =
  /\b(range|scale|setting|division|rated|rating|marked|label|printed|discharg\w*|bleed|bring (?:it|them)|set (?:it|the)|dc volts|ac volts)\b/i;

function targetsBeside(node: TreeNode, part: string): readonly TargetUse[] {
  if (node.kind === 'check') return node.target === undefined ? [] : [node.target];
  if (node.kind !== 'cause') return [];
  if (part === 'confirm') return node.confirm?.targets ?? [];
  return part === 'prove' ? (node.prove?.targets ?? []) : [];
}

/** Whether every number quoted is an edge or the nominal of the target, within half a per cent, or 0; other units say nothing of it. */
function agrees({ from, to, unit }: QuotedQuantity, target: Target): boolean {
  const own = findUnit(target.unit);
  if (own === undefined || own.base !== unit.base || target.computed !== undefined) return true;
  const known = [
    target.nominal,
    ...target.bands.flatMap((band) => [band.from, band.to]),
    ...Object.values(target.variants).flatMap(({ low, nominal, high }) => [low, nominal, high]),
    ...target.misreads.flatMap((misread) => [misread.from, misread.to]),
  ].filter((value) => value !== undefined);
  const scale = 10 ** (unit.exponent - own.exponent);
  return [from, to]
    .filter((value) => value !== undefined && value !== 0)
    .map((value) => Math.abs(value ?? 0) * scale)
    .every((value) => known.some((edge) => Math.abs(Math.abs(edge) - value) <= 0.005 * Math.abs(edge) + 1e-12));
}

const rank: Readonly<Record<Status, number>> = { read: 3, computed: 3, memory: 2, practice: 1 };

/** A dc voltage that feeds something, told by its slug or title; an input to a regulator is judged by what the regulator needs. */
function isSupply({ quantity, slug, title }: Target): boolean {
  if (quantity !== 'voltage-dc') return false;
  return /\b(rail|supply)\b/i.test(title) || slug.split('-').some((word) => word === 'rail' || word === 'supply');
}

function hasHighBand({ bands }: Target): boolean {
  return bands.findIndex(({ name }) => name === 'in') < bands.length - 1;
}

function findMisfit({
  slug,
  quantity,
  unit,
  computed,
  entered,
}: Target): { message: string; help: string } | undefined {
  const names = Object.keys(formulas).join(', ');
  if (computed === undefined) {
    if (entered.length > 0)
      return {
        message: `Unexpected \`entered\` in \`${slug}\` without \`computed\`, expected one of ${names}.`,
        help: 'Say how the figures become one number.',
      };
    if (quantity !== 'ratio') return undefined;
    return {
      message: `Unexpected share \`${slug}\` that the reader would have to work out, expected \`computed\` and \`entered\`.`,
      help: 'Write computed: percent, and under entered what is read and what it is compared with.',
    };
  }
  const stray = entered.find((figure) => {
    const bases = Object.hasOwn(quantityUnits, figure.quantity) ? quantityUnits[figure.quantity] : undefined;
    const base = findUnit(figure.unit)?.base;
    return base === undefined || bases?.includes(base) !== true;
  });
  if (stray !== undefined)
    return {
      message: `Unexpected unit \`${stray.unit}\` for the quantity \`${stray.quantity}\`, expected a known quantity in a unit of it.`,
      help: `Correct the figure “${stray.name}” under entered.`,
    };
  const bases = entered.flatMap((figure) => findUnit(figure.unit)?.base ?? []);
  const own = findUnit(unit)?.base;
  if (own !== undefined && fits(formulas[computed], bases, own)) return undefined;
  return {
    message: `Unexpected figures in ${bases.join(', ') || 'no unit'} for \`${computed}\` in ${unit}, expected ${formulas[computed].takes}.`,
    help: `Choose another of ${names}, or fix the units.`,
  };
}
