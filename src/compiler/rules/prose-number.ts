import type { TargetUse, TreeNode } from '#core/model/fault-tree.ts';
import type { Target } from '#core/model/target.ts';
import { printHealthy } from '#core/model/target-text.ts';
import { findUnit } from '#core/quantity/unit.ts';
import { findQuantities, type QuotedQuantity } from './find-quantities.ts';
import { prosePlaces, splitSentences } from './prose-places.ts';
import { defineTreeRule } from './rule.ts';

/** Words right before a number that make it a claim about what is healthy. */
const claims =
  /\b(expect|should (?:read|be|show|give|measure)|must (?:read|be|show|give)|healthy (?:is|reads)|good (?:is|reads)|reads?|shows?|want(?:s|ed)?|look for|between|at least|at most)(?: about| around| at least| at most| between| from| near)?\s*$/i;
/** Words right after a number that make it one. */
const claimsAfter = /^ (?:is|are|means) (?:good|healthy|right|fine|normal)\b/i;
/** Numbers that are settings, ratings or the proof that a capacitor is empty, not readings. */
const settings =
  /\b(range|scale|setting|division|rated|rating|marked|label|printed|discharg\w*|bleed|bring (?:it|them)|set (?:it|the)|dc volts|ac volts)\b/i;

export const proseNumber = defineTreeRule({
  id: 'prose-number',
  group: 'measurement',
  says: 'A sentence that tells the healthy reading quotes the numbers of the target beside it.',
  why: 'Two different numbers on one page: one of them sends the reader the wrong way, and nobody can tell which.',
  wrong: 'Read the rail: it should read 4.5 to 5.5 V.',
  right: 'Read the rail: it should read 4.75 to 5.25 V.',
  severity: 'warning',
  *find({ tree, library }) {
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
});

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
