import type { HandOverReason, TreeNode } from '#core/model/fault-tree.ts';
import { prosePlaces, splitSentences } from './prose-places.ts';
import { defineTreeRule, type TreeFinding } from './rule.ts';

/** Hazards that licensed or trained work begins at, and the hand-overs that answer them. */
const crossings: Readonly<Record<string, readonly HandOverReason[]>> = {
  'picture-tube': ['picture-tube', 'licensed'],
  'switch-mode': ['switch-mode', 'mains', 'licensed'],
};
/** Roles of parts on the mains side, which a competent person fits. */
const licensedRoles: ReadonlySet<string> = new Set(['mains-safety', 'transformer', 'fuse']);
const mainsReasons: readonly HandOverReason[] = ['mains', 'switch-mode', 'licensed'];

export const handOverPresent = defineTreeRule({
  id: 'hand-over-present',
  group: 'safety',
  says: 'A tree that meets a picture tube, a switch-mode supply or a part on the mains side has a hand-over for it.',
  why: 'Without one the reader stands before an open set with no honest end, and goes on.',
  wrong: 'hazards: [static, mains, switch-mode]',
  right: 'hazards: [static, mains]',
  *find({ tree }) {
    const reasons = new Set(tree.nodes.flatMap((node) => (node.kind === 'hand-over' ? [node.because] : [])));
    for (const [index, hazard] of tree.hazards.entries()) {
      const oneOf = Object.hasOwn(crossings, hazard) ? (crossings[hazard] ?? []) : [];
      if (oneOf.length === 0 || oneOf.some((reason) => reasons.has(reason))) continue;
      yield {
        key: `front/hazards/${index}`,
        message: `Unexpected hazard \`${hazard}\` in a tree without a hand-over for it, expected <HandOver because="${oneOf.join('" or "')}">.`,
        help: 'Lead there from the check that meets it, and say what is known and how to leave the unit safe.',
      };
    }
    if (![...mainsReasons, 'picture-tube' as const].some((reason) => reasons.has(reason))) {
      for (const node of tree.nodes) yield* findCrossing(node);
    }
    for (const cause of tree.nodes) {
      if (cause.kind !== 'cause' || mainsReasons.some((reason) => reasons.has(reason))) continue;
      for (const [index, { role }] of (cause.repair?.substitutes ?? []).entries()) {
        if (!licensedRoles.has(role)) continue;
        yield {
          key: `node/${cause.id}/repair/substitute/${index}@role`,
          message: `Unexpected part in the role \`${role}\` in a tree without a hand-over, expected <HandOver because="mains" or "licensed">.`,
          help: 'Work on the mains side ends in a hand-over: lead there.',
        };
      }
    }
  },
});

/** Words that send hands or probes to where licensed work begins. */
const crossing =
  /\b(open|measure|read|probe|reach|work|look)\b[^.]{0,40}\b(primary side|mains side|mains (?:fuse|filter|switch|inlet|tags)|picture tube|high[- ]voltage (?:part|side|section))\b/i;
const denies = /\b(never|not|no|don[’']t|without)\b/i;

function* findCrossing(node: TreeNode): Iterable<TreeFinding> {
  for (const { key, text } of prosePlaces(node)) {
    for (const sentence of splitSentences(text)) {
      const found = crossing.exec(sentence);
      if (found === null || denies.test(sentence.slice(0, found.index + found[0].length))) continue;
      yield {
        key,
        message: `Unexpected work at "${found[2] ?? ''}" in a tree without a hand-over, expected <HandOver because="mains", "picture-tube" or "licensed">.`,
        help: 'Lead there before hands or probes come near, and say what is known and how to leave the unit safe.',
      };
    }
  }
}
