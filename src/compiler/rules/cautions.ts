import type { Cause, FaultTree, HandOverReason, TreeNode } from '#core/model/fault-tree.ts';
import type { LibraryBeside } from '#core/model/library.ts';
import {
  findNode,
  linksFrom,
  needsOf,
  nodeProse,
  opensCase,
  reachableFromStart,
  targetsOf,
  isStep,
} from '#core/model/node.ts';
import { listParagraphs } from '#core/model/prose.ts';
import { substituteRoles } from '#core/model/substitute-roles.ts';
import { exceedsTouchLimit, touchLimits } from '#core/model/touch-limit.ts';
import { type Telling, findTold, foldedSentences } from '../clauses.ts';
import { poweredPlaces } from '../power-told.ts';
import { findQuantities } from '../find-quantities.ts';
import type { Positions } from '../position.ts';
import { prosePlaces, splitSentences } from '../reader-texts.ts';
import type { Rule, FileFinding } from './rule.ts';

export const cautionRules: readonly Rule[] = [
  {
    id: 'caution-first',
    group: 'safety',
    says: 'A caution stands before the instruction it concerns.',
    why: 'People do what they read first. A caution below the step is read with the fingers already in.',
    wrong: 'Read the rail at the farthest chip.\n\n<Caution use="static" />',
    right: '<Caution use="static" />\n\nRead the rail at the farthest chip.',
    *findInTree({ tree, positions }) {
      for (const node of tree.nodes) {
        const first = firstLine(partsOf(node), positions);
        for (const index of node.cautions.keys()) {
          const place = positions.find(`node/${node.id}/caution/${index}`);
          if (place === 'unavailable' || first === undefined || place.line < first) continue;
          yield {
            key: `node/${node.id}/caution/${index}`,
            message: `Unexpected caution after the text of \`${node.id}\`, expected it before.`,
            help: 'Move it to the top of the node: people do what they read first.',
          };
        }
      }
    },
  },
  {
    id: 'answers-last',
    group: 'safety',
    says: 'Nothing is told behind the first answer of a check.',
    why: 'People press an answer as soon as they have read it: an instruction or a warning below the buttons comes too late.',
    wrong: '<Outcome when="clean" to="socket-worn" />\n\nSeat the chip again.',
    right: 'Seat the chip again.\n\n<Outcome when="clean" to="socket-worn" />',
    *findInTree({ tree, positions }) {
      for (const node of tree.nodes) {
        if (node.kind !== 'check') continue;
        const answer = positions.find(`node/${node.id}/outcome/0`);
        if (answer === 'unavailable') continue;
        for (const index of listParagraphs(node.prose).keys()) {
          const key = `node/${node.id}/prose/${index}`;
          const place = positions.find(key);
          if (place === 'unavailable' || place.line < answer.line) continue;
          yield {
            key,
            message: `Unexpected text behind an answer of \`${node.id}\`, expected it before the first.`,
            help: 'Move it above the outcomes, or into `says` of one.',
          };
        }
      }
    },
  },
  {
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
    *findInTree({ tree, library }) {
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
  },
  {
    id: 'hazard-cautioned',
    group: 'safety',
    says: 'Each hazard of the front matter has its cautions somewhere in the tree.',
    why: 'A hazard named and not warned of is worse than none: the author knew.',
    wrong: 'hazards: [static, mains, chemical]',
    right: 'hazards: [static, mains]',
    *findInTree({ tree, library }) {
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
  },
  {
    id: 'discharge-again',
    group: 'safety',
    says: 'Where the unit may store charge, hands go in after a powered step only with the set-up `discharged`.',
    why: 'A capacitor proved empty is full again after every switch-on, and the next page asks for a hand inside.',
    wrong: 'power="off" needs="case-open"',
    right: 'power="off" needs="case-open discharged"',
    *findInTree({ tree, library }) {
      const setups = dischargingSetups(tree, library);
      if (setups.length === 0) return;
      for (const [id, poweredAt] of findCharged(tree, setups)) {
        const node = findNode(tree, id);
        if (node === undefined || !(putsHandsIn(node) || movesClips(node, library))) continue;
        const needs = needsOf(node);
        const missing = setups.filter((setup) => !needs.includes(setup));
        if (missing.length === 0) continue;
        yield {
          key: node.kind === 'cause' ? `node/${id}/repair@needs` : `node/${id}@needs`,
          message: `Unexpected hands inside at \`${id}\` after power was on at \`${poweredAt}\`, expected the set-up \`${missing.join(' ')}\`.`,
          help: `Add it to needs="…": what was discharged is charged again at every power-on.`,
        };
      }
    },
  },
  {
    id: 'hand-over-present',
    group: 'safety',
    says: 'A tree that meets a picture tube, a switch-mode supply or a part on the mains side has a hand-over for it.',
    why: 'Without one the reader stands before an open set with no honest end, and goes on.',
    wrong: 'hazards: [static, mains, switch-mode]',
    right: 'hazards: [static, mains]',
    *findInTree({ tree }) {
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
  },
];

/** The set-ups that a tree’s hazards ask for before hands go in. */
export function dischargingSetups({ hazards }: FaultTree, library: LibraryBeside): readonly string[] {
  const setups = hazards.map((hazard) => library.hazards.get(hazard)?.setup).filter((setup) => setup !== undefined);
  return [...new Set(setups)];
}

/** Keys of everything in a node that tells what to do. */
function partsOf(node: TreeNode): readonly string[] {
  const key = `node/${node.id}`;
  const own = node.prose.length === 0 ? [] : [`${key}/prose/0`];
  if (node.kind === 'path') return [...own, ...node.stages.map(({ id }) => `${key}/stage/${id}`)];
  if (node.kind !== 'cause') return own;
  const parts = (['confirm', 'repair', 'prove'] as const).filter((part) => node[part] !== undefined);
  return [...own, ...parts.map((part) => `${key}/${part}`)];
}

function firstLine(keys: readonly string[], positions: Positions): number | undefined {
  const lines = keys.flatMap((key) => {
    const place = positions.find(key);
    return place === 'unavailable' ? [] : [place.line];
  });
  return lines.length === 0 ? undefined : Math.min(...lines);
}

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

function* reasonsFor(node: TreeNode, firstPowered: ReadonlySet<string>, library: LibraryBeside): Iterable<Reason> {
  if (isStep(node) && firstPowered.has(node.id)) yield ['it may be the first step with power on', ['mains']];
  if (isStep(node) && node.power !== 'off' && node.instruments.includes('oscilloscope')) {
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

function cautionsOfSetups(node: TreeNode, library: LibraryBeside): readonly string[] {
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
  const isPowered = (node: TreeNode): boolean => isStep(node) && node.power === 'on';
  const reached = reachableFromStart(tree, (node) => !isPowered(node));
  return new Set(tree.nodes.filter((node) => reached.has(node.id) && isPowered(node)).map(({ id }) => id));
}

/** Steps without power and repairs that open the case or take the board out. */
function putsHandsIn(node: TreeNode): boolean {
  const isUnpowered = node.kind === 'cause' || (isStep(node) && node.power !== 'on');
  return isUnpowered && opensCase(node);
}

/** Steps with power on whose words send hands in before it, without a word of discharging. Clips that stay where they are move nothing. */
function movesClips(node: TreeNode, library: LibraryBeside): boolean {
  if (!isStep(node) || node.power !== 'on' || !opensCase(node)) return false;
  return poweredPlaces(node, library)
    .filter(({ part }) => part === 'step')
    .flatMap(({ sentences }) => sentences)
    .some(
      ({ sentence, powerAt }) =>
        !/\bdischarged?\b/i.test(sentence) &&
        findTold(sentence, clipping).some(({ from }) => powerAt(from) === 'unplugged'),
    );
}

const clipping: Telling = {
  act: /\b(?:clip|hook|move|lift|pull|press|take (?:out|off)|remove|solder|unsolder|desolder|swap|fit|bend|seat)\b/,
};

/** Nodes that some road reaches with the unit charged: the powered step before, and no discharge between. Cost O(links). */
function findCharged(tree: FaultTree, setups: readonly string[]): ReadonlyMap<string, string> {
  const charged = new Map<string, string>();
  const open: { readonly id: string; readonly poweredAt: string }[] = tree.nodes.flatMap((node) =>
    isStep(node) && node.power === 'on' ? linksFrom(node).map(({ to }) => ({ id: to, poweredAt: node.id })) : [],
  );
  for (let next = open.shift(); next !== undefined; next = open.shift()) {
    const { id, poweredAt } = next;
    const node = findNode(tree, id);
    if (node === undefined || charged.has(id)) continue;
    charged.set(id, poweredAt);
    const isEmptied = isStep(node) && setups.every((setup) => node.needs.includes(setup));
    if (isStep(node) && node.power !== 'on' && !isEmptied)
      open.push(...linksFrom(node).map(({ to }) => ({ id: to, poweredAt })));
  }
  return charged;
}

/** Hazards that licensed or trained work begins at, and the hand-overs that answer them. */
const crossings: Readonly<Record<string, readonly HandOverReason[]>> = {
  'picture-tube': ['picture-tube', 'licensed'],
  'switch-mode': ['switch-mode', 'mains', 'licensed'],
};
/** Roles of parts on the mains side, which a competent person fits. */
const licensedRoles: ReadonlySet<string> = new Set(['mains-safety', 'transformer', 'fuse']);
const mainsReasons: readonly HandOverReason[] = ['mains', 'switch-mode', 'licensed'];

/** Words that send hands or probes to where licensed work begins. */
const crossing: Telling = {
  act: /\b(?:open|measure|read|probe|reach|work|look)\b/,
  object:
    /\b(?:primary side|mains side|mains (?:fuse|filter|switch|inlet|tags)|picture tube|high[- ]voltage (?:part|side|section))\b/,
  reach: 8,
};

function* findCrossing(node: TreeNode): Iterable<FileFinding> {
  for (const { key, text } of prosePlaces(node)) {
    for (const { words } of foldedSentences(text).flatMap((sentence) => findTold(sentence, crossing).slice(0, 1))) {
      yield {
        key,
        message: `Unexpected work ("${words}") in a tree without a hand-over, expected <HandOver because="mains", "picture-tube" or "licensed">.`,
        help: 'Lead there before hands or probes come near, and say what is known and how to leave the unit safe.',
      };
    }
  }
}
