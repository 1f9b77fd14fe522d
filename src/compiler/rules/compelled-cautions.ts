import type { Cause, FaultTree, TreeNode } from '#core/model/fault-tree.ts';
import type { Library } from '#core/model/library.ts';
import { findNode, linksFrom, needsOf, nodeProse, targetsOf } from '#core/model/node.ts';
import { listParagraphs } from '#core/model/prose.ts';
import { substituteRoles } from '#core/model/substitute-roles.ts';
import { exceedsTouchLimit, touchLimits } from '#core/model/touch-limit.ts';
import { findQuantities } from './find-quantities.ts';
import { prosePlaces, splitSentences } from './prose-places.ts';
import { defineTreeRule } from './rule.ts';

export const compelledCautions = defineTreeRule({
  id: 'compelled-cautions',
  group: 'safety',
  says: 'Every node carries the cautions that its instructions, instruments, voltages and parts compel.',
  why: 'A page may be opened straight from a link in a forum: each page must carry its own warning.',
  all: [
    'first step with power on, and a cause confirmed or proved with power on: `mains`',
    'oscilloscope in a step with power on, and a cause whose target is read with one: `scope-ground`',
    'target or sentence above 60 V dc or 30 V ac: `mains`, `charged-capacitor`, `switch-mode-primary` or `picture-tube-voltage`',
    'alcohol, contact cleaner or freezer: `solvent`',
    'soldering in a repair: `hot-parts` and `solder-fume`',
    'a new part: the cautions of its role (see Substitute)',
    'a set-up: its own cautions, which count as written',
  ],
  wrong: 'Seat the chip again. Resolder the socket.',
  right: 'Seat the chip again.',
  *find({ tree, library }) {
    const firstPowered = findFirstPowered(tree);
    for (const node of tree.nodes) {
      const written = new Set([...node.cautions, ...cautionsOfSetups(node, library)]);
      for (const [reason, oneOf] of reasonsFor(node, firstPowered, library)) {
        if (oneOf.some((caution) => written.has(caution))) continue;
        yield {
          key: `node/${node.id}`,
          message: `Unexpected absence of the caution ${oneOf.map((slug) => `\`${slug}\``).join(' or ')} in \`${node.id}\`, expected it because ${reason}.`,
          help: `Add <Caution use="${oneOf[0] ?? ''}" /> at the top of the node.`,
        };
      }
    }
  },
});

const ofHighVoltage = ['mains', 'charged-capacitor', 'switch-mode-primary', 'picture-tube-voltage'];

/** Voltages above the touch limits in sentences that tell to measure; ranges, ratings and labels are none. */
function highVoltagesTold(node: TreeNode): readonly string[] {
  return prosePlaces(node)
    .flatMap(({ text }) => splitSentences(text))
    .filter((sentence) => measures.test(sentence) && !isRating.test(sentence))
    .flatMap(findQuantities)
    .filter(({ from, to = from, unit }) => {
      const volts = Math.max(Math.abs(from), Math.abs(to)) * 10 ** unit.exponent;
      return (
        (unit.base === 'V' && volts > touchLimits.dcVolts) || (unit.base === 'V rms' && volts > touchLimits.acVoltsRms)
      );
    })
    .map(({ text }) => text);
}

const measures = /\b(measure|read|reads|expect|probe|clip|should (?:be|read|show))\b/i;
const isRating = /\b(range|rated|rating|marked|printed|label|or more|at least|stands|withstand|type|fuse|never|not)\b/i;

type Reason = readonly [because: string, oneOf: readonly string[]];

function* reasonsFor(node: TreeNode, firstPowered: ReadonlySet<string>, library: Library): Iterable<Reason> {
  const isStep = node.kind === 'check' || node.kind === 'path';
  if (isStep && firstPowered.has(node.id)) yield ['it may be the first step with power on', ['mains']];
  if (isStep && node.power === 'on' && node.instruments.includes('oscilloscope')) {
    yield ['a scope’s ground clip goes on a powered unit', ['scope-ground']];
  }
  for (const target of targetsOf(node)) {
    const found = library.targets.get(target);
    if (found !== undefined && exceedsTouchLimit(found)) {
      yield [`target \`${target}\` reaches voltages that are dangerous to touch`, ofHighVoltage];
    }
  }
  for (const quoted of highVoltagesTold(node)) {
    yield [`it tells to measure ${quoted}, above what is safe to touch`, ofHighVoltage];
  }
  const text = nodeProse(node).join(' ');
  if (/\balcohol\b|\bisopropyl\b|contact cleaner|\bfreezer\b/i.test(text))
    yield ['it uses alcohol or a spray', ['solvent']];
  if (/\b(re|de|un)?solder(ed|ing)?\b(?! side)/i.test(textOfWork(node))) {
    yield ['it works with the soldering iron', ['hot-parts']];
    yield ['it melts old solder', ['solder-fume']];
  }
  if (node.kind === 'cause') {
    if (powersUp.test(textOfTrials(node))) yield ['it is confirmed or proved with power on', ['mains']];
    for (const slug of targetsOfTrials(node)) {
      const families = library.targets.get(slug)?.instruments ?? [];
      if (families.includes('oscilloscope') && !families.includes('multimeter')) {
        yield [`target \`${slug}\` is read with a scope, whose ground clip goes on a powered unit`, ['scope-ground']];
      }
    }
    for (const { role } of node.repair?.substitutes ?? []) {
      for (const caution of cautionsOfRole(role)) yield [`a part in the role \`${role}\` is fitted`, [caution]];
    }
  }
}

const powersUp =
  /\b(plug(?:ged)? (?:it )?in|switch(?:ed)? (?:it )?on|power(?:ed)? (?:it )?on|power(?:ed)? up|run(?:s|ning)? (?:it|for)|(?:minutes|hours?) of (?:play|use|running|work))\b/i;

/** What is told of making sure and of the proof. */
function textOfTrials({ confirm, prove }: Cause): string {
  return listParagraphs([...(confirm?.prose ?? []), ...(prove?.prose ?? [])]).join(' ');
}

function targetsOfTrials({ confirm, prove }: Cause): readonly string[] {
  return [...(confirm?.targets ?? []), ...(prove?.targets ?? [])].map(({ target }) => target);
}

function cautionsOfRole(role: string): readonly string[] {
  return Object.hasOwn(substituteRoles, role) ? (substituteRoles[role]?.cautions ?? []) : [];
}

function cautionsOfSetups(node: TreeNode, library: Library): readonly string[] {
  return needsOf(node).flatMap((setup) => library.setups.get(setup)?.cautions ?? []);
}

/** Where a soldering iron would be named: repairs only, since checks speak of "the solder side". */
function textOfWork(node: TreeNode): string {
  return node.kind === 'cause' ? repairText(node) : '';
}

function repairText({ repair }: Cause): string {
  if (repair === undefined) return '';
  return listParagraphs([...repair.prose, ...repair.substitutes.flatMap(({ prose }) => prose)]).join(' ');
}

/** Powered steps that some road from the start reaches before any other powered step. */
function findFirstPowered(tree: FaultTree): ReadonlySet<string> {
  const first = new Set<string>();
  const seen = new Set<string>();
  const open = tree.nodes.slice(0, 1).map(({ id }) => id);
  while (open.length > 0) {
    const id = open.pop();
    if (id === undefined || seen.has(id)) continue;
    seen.add(id);
    const node = findNode(tree, id);
    if (node === undefined) continue;
    if ((node.kind === 'check' || node.kind === 'path') && node.power === 'on') first.add(id);
    else open.push(...linksFrom(node).map(({ to }) => to));
  }
  return first;
}
