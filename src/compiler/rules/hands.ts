import type { FaultTree, TreeNode } from '#core/model/fault-tree.ts';
import { checksBefore, liveReadings, needsOf, opensCase, reachableFromStart, isStep } from '#core/model/node.ts';
import { listParagraphs } from '#core/model/prose.ts';
import { type Telling, findTold } from '../clauses.ts';
import { type PoweredPlace, type PoweredSentence, poweredPlaces } from '../power-told.ts';
import { dischargingSetups } from './cautions.ts';
import type { Rule, TreeRuleContext } from './rule.ts';

/** Hands in an open unit, good parts and the owner's data: what must hold before they are risked. */
export const handsRules: readonly Rule[] = [
  {
    id: 'unplugged-said',
    group: 'safety',
    says: 'Where hands go inside, the words say unplugged, not switched off.',
    why: 'A unit that is switched off keeps mains at its inlet, its fuse and one side of its switch, and a tired reader stops at what the words say.',
    wrong: 'Switch off, then look at the board and press the plug home.',
    right: 'Unplug it, then look at the board and press the plug home.',
    *findInTree(context) {
      for (const { key, node, sentence, powerAt } of sentencesOf(context)) {
        const act = opensCase(node) ? handsIn : opening;
        const found = findTold(sentence, act).find(({ from }) => powerAt(from) === 'switched-off');
        if (found === undefined) continue;
        yield {
          key,
          message: `Unexpected "switched off" where hands go in ("${found.words}"), expected "unplugged".`,
          help: 'Write "Unplug it, …" or "Unplugged, …": switched off, the inlet, the fuse and one side of the switch are live.',
        };
      }
    },
  },
  {
    id: 'clips-first',
    group: 'safety',
    says: 'In an open unit clips go on unplugged and power comes after: nothing is held, moved or clipped while power is on.',
    why: 'A probe held by hand slips while the eye is on the meter, and beside it there may be mains.',
    wrong: 'Plug in, then hold the probe on each pin in turn.',
    right: 'Unplugged, clip on. Hands out, plug in, read, unplug; then the next pin.',
    *findInTree(context) {
      for (const { key, node, part, sentence, powerAt } of sentencesOf(context)) {
        if (!opensCase(node) || part === 'button' || isBenchFed(node)) continue;
        const found = probing
          .flatMap((telling) => findTold(sentence, telling))
          .find(({ from }) => powerAt(from) === 'on');
        if (found === undefined) continue;
        yield {
          key,
          message: `Unexpected probe or clip that moves with power on and the case open ("${found.words}"), expected clips first, power after.`,
          help: 'Write "Unplugged, clip on …. Hands out, plug in, read, unplug."; each move of a clip is unplugged and discharged.',
        };
      }
      for (const node of context.tree.nodes) {
        if (!isStep(node) || node.power !== 'on' || !opensCase(node)) continue;
        if (isBenchFed(node) || !node.instruments.some((family) => touching.has(family))) continue;
        const text = poweredPlaces(node, context.library)
          .map((place) => place.text)
          .join(' ');
        if (staysOn.test(text)) continue;
        yield {
          key: `node/${node.id}`,
          message: `Unexpected reading in an open unit with power on at \`${node.id}\` that does not say when to clip on, expected "unplugged" before it.`,
          help: 'Write "Unplugged, clip on …. Hands out, plug in, read, unplug.", or "Leave the clips on".',
        };
      }
    },
  },
  {
    id: 'power-after-looks',
    group: 'safety',
    says: 'Where an unplugged check can end in “do not power it”, every check with power on behind it names it in `after`, or the tree has order: as-written.',
    why: 'The engine takes checks in the order of their minutes; what decides whether the unit may have power at all must not be overtaken by one that gives it power.',
    wrong: railAfter(''),
    right: railAfter(' after="lamp"'),
    *findInTree({ tree }) {
      if (tree.order === 'as-written') return;
      const forbidding = new Set(
        tree.nodes
          .filter(
            (node) => node.kind === 'hand-over' && noPower.test([node.title, ...listParagraphs(node.prose)].join(' ')),
          )
          .map(({ id }) => id),
      );
      for (const look of tree.nodes) {
        if (look.kind !== 'check' || look.power === 'on') continue;
        if (!look.outcomes.some(({ to }) => forbidding.has(to))) continue;
        const past = reachableFromStart(tree, ({ id }) => id !== look.id);
        for (const node of tree.nodes) {
          if (!isStep(node) || node.power !== 'on' || past.has(node.id)) continue;
          if (checksBefore(tree, node).includes(look.id)) continue;
          yield {
            key: `node/${node.id}`,
            message: `Unexpected power in \`${node.id}\` without \`${look.id}\` in \`after\`, expected what can end in “do not power it” to come first.`,
            help: `Write after="${look.id}" on it or on a check that it comes after; where the order of the whole tree is its safety, write order: as-written into the front matter.`,
          };
        }
      }
    },
  },
  {
    id: 'accessory-alone',
    group: 'safety',
    says: 'A step with power="accessory" names what runs beside the unit, and never plugs the unit in or switches it on.',
    why: 'The page then carries no caution of a powered unit: a plug that goes in all the same goes in without one.',
    wrong: 'Feed the rail from a bench supply. Hands out, plug in, read.',
    right: 'Feed the rail from a bench supply, the unit unplugged. Read.',
    *findInTree({ tree, library }) {
      for (const node of tree.nodes) {
        if (!isStep(node) || node.power !== 'accessory') continue;
        const told = poweredPlaces(node, library).flatMap(({ sentences }) => sentences);
        const [plugs] = told.flatMap(({ sentence }) => findTold(sentence, unitOn));
        if (plugs !== undefined) {
          yield {
            key: `node/${node.id}@power`,
            message: `Unexpected "${plugs.words}" in \`${node.id}\`, which has power="accessory", expected a unit that stays unplugged.`,
            help: 'Write power="on" with the cautions it calls for, or say what is switched on: "switch the bench supply on".',
          };
        }
        if (isBenchFed(node) || told.some(({ sentence }) => besideUnit.test(sentence))) continue;
        yield {
          key: `node/${node.id}@power`,
          message: `Unexpected power="accessory" in \`${node.id}\`, which does not say what runs, expected the bench supply, player, recorder or tester.`,
          help: 'Name it in the words, or write power="off".',
        };
      }
    },
  },
  {
    id: 'ends-unplugged',
    group: 'safety',
    says: 'A step that plugs the unit in with its case open says unplug before it ends.',
    why: 'What the reader does next begins with hands in the case, and the page that says so has not been read yet.',
    wrong: 'Unplugged, clip on. Hands out, plug in, read the rail.',
    right: 'Unplugged, clip on. Hands out, plug in, read the rail, unplug.',
    *findInTree({ tree, library }) {
      for (const node of tree.nodes) {
        if (!isStep(node) || node.power !== 'on') continue;
        if (!opensCase(node) || isBenchFed(node)) continue;
        const told = poweredPlaces(node, library)
          .filter(({ part }) => part === 'step')
          .flatMap(({ sentences }) => sentences);
        const last = told.at(-1);
        if (last?.powerAt(last.sentence.length) !== 'on' || !told.some(({ sentence }) => plugsIn.test(sentence)))
          continue;
        yield {
          key: `node/${node.id}`,
          message: `Unexpected end of \`${node.id}\` with the unit plugged in and its case open, expected "unplug" after the reading.`,
          help: 'Write "Hands out, plug in, read, unplug."',
        };
      }
    },
  },
  {
    id: 'reservoir-empty',
    group: 'safety',
    says: 'Before clips or fingers go to a reservoir, a regulator or a rectifier, the words or the set-up say discharged.',
    why: 'In a supply that does not work nothing drains the can: a slip of the clip puts its whole charge into the chips, or into a finger.',
    wrong: 'Clip onto the legs of the reservoir.',
    right: 'Clip onto the legs of the reservoir, unplugged and discharged.',
    *findInTree(context) {
      const { tree, library } = context;
      const setups = dischargingSetups(tree, library);
      if (setups.length === 0) return;
      for (const node of tree.nodes) {
        const isEmpty = isStep(node) && setups.every((setup) => node.needs.includes(setup));
        if (isEmpty || isBenchFed(node)) continue;
        for (const { key, part, sentences } of poweredPlaces(node, library)) {
          if (part === 'button' || part === 'record' || part === 'substitute') continue;
          let told =
            node.kind === 'cause' && part === 'repair' && setups.every((setup) => needsOf(node).includes(setup))
              ? 'discharged'
              : '';
          for (const { sentence } of sentences) {
            told = `${told} ${sentence}`;
            const found = findTold(sentence, atCharged)[0];
            if (found === undefined || emptied.test(told)) continue;
            yield {
              key,
              message: `Unexpected hands or clips where charge may stand ("${found.words}"), expected "discharged" before it.`,
              help: 'Write "Unplugged and discharged, …" or "input leg below 1 V: …", or give the step needs="discharged".',
            };
          }
        }
      }
    },
  },
  {
    id: 'bare-mains-stops',
    group: 'safety',
    says: 'A step with power on that meets bare mains parts stops there: it is not done, or they are covered first.',
    why: 'What the page calls forbidden in its caution it must not allow with care two lines below.',
    wrong: 'Mains parts bare: strap off, then read the rail.',
    right: 'Mains parts bare: leave this step. Read the rail only where all are covered.',
    *findInTree(context) {
      for (const node of context.tree.nodes) {
        for (const { key, part, sentences } of poweredPlaces(node, context.library)) {
          if (part === 'button' || !isLive(node, part, context)) continue;
          for (const [index, { sentence }] of sentences.entries()) {
            if (!bareMains.test(sentence) || stops.test(`${sentence} ${sentences[index + 1]?.sentence ?? ''}`))
              continue;
            yield {
              key,
              message: `Unexpected way on past bare mains parts at \`${node.id}\` ("${sentence.slice(0, 60)}"), expected the step to end there.`,
              help: 'Write that the step is not done then, or that the cover goes on first with the unit unplugged; give it an answer that leads to a hand-over.',
            };
          }
        }
      }
    },
  },
  {
    id: 'spare-at-risk',
    group: 'safety',
    says: 'A good part or a donor is risked only after the place it goes to, or the suspect, was measured.',
    why: 'What killed the first part kills the second; a shorted suspect takes the machine that was sound with it.',
    wrong: 'Put the suspect into the good machine and look.',
    right: 'Compare the suspect with the good one by ohms first.',
    *findInTree(context) {
      const unmeasured = reachedUnmeasured(context.tree);
      for (const node of context.tree.nodes) {
        for (const { key, part, sentences } of poweredPlaces(node, context.library)) {
          if (part !== 'step' && part !== 'confirm') continue;
          let told = '';
          for (const { sentence } of sentences) {
            const donor = findTold(sentence, intoDonor)[0];
            const spare =
              part === 'step' && unmeasured.has(node.id) && opensCase(node)
                ? findTold(sentence, goodPart)[0]
                : undefined;
            const found = donor ?? spare;
            const before = `${told} ${sentence.slice(0, found?.from ?? 0)}`;
            told = `${told} ${sentence}`;
            if (found === undefined || measured.test(before)) continue;
            yield {
              key,
              message: `Unexpected good part at risk ("${found.words}"), expected a reading before it.`,
              help: 'First read the supply at its place, and ohms from supply to ground, old against good. "Works with the good one" is enough: the suspect never goes into a sound machine.',
            };
          }
        }
      }
    },
  },
  {
    id: 'only-copy',
    group: 'safety',
    says: 'Data that exists once is neither fed to a suspect nor written over: scrap first.',
    why: 'A part can be bought again. A disk with a scratch round it cannot.',
    wrong: 'Insert the owner’s disk and ask for the directory.',
    right: 'Insert a scrap disk, write-protected, and ask for the directory.',
    *findInTree(context) {
      for (const { key, node, sentence } of sentencesOf(context)) {
        const isScrap = needsOf(node).includes('scrap-disk') || scrap.test(sentence);
        const isElsewhere = /\b(?:elsewhere|copied|only if)\b/i.test(sentence);
        const found =
          (isElsewhere ? undefined : findTold(sentence, feeding)[0]) ??
          (isScrap ? undefined : findTold(sentence, writing)[0]);
        if (found === undefined) continue;
        yield {
          key,
          message: `Unexpected risk to data ("${found.words}"), expected a scrap disk or tape.`,
          help: 'Say "a scrap disk that nobody will miss", give the step needs="scrap-disk", and keep what exists once out of the unit.',
        };
      }
    },
  },
];

/** The start of the sample's powered check, for the examples of a rule. */
function railAfter(after: string): string {
  return `<Check id="rail" title="Is the rail in range?" minutes="3" power="on"${after} instrument="multimeter" was="rail-old">`;
}

const noPower = /\b(?:do not|never|not to be|must not be) (?:power|start|plug|switch)(?:ed)?\b(?! (?:open|off))/i;

interface NodeSentence extends PoweredSentence {
  readonly node: TreeNode;
  readonly key: string;
  readonly part: PoweredPlace['part'];
}

function sentencesOf({ tree, library }: TreeRuleContext): readonly NodeSentence[] {
  return tree.nodes.flatMap((node) =>
    poweredPlaces(node, library).flatMap(({ key, part, sentences }) =>
      sentences.map((sentence) => ({ node, key, part, ...sentence })),
    ),
  );
}

/** What hands do inside. */
const handsIn: Telling = {
  act: /\b(?:clip|hook|fit|move|lift|press|push|take (?:(?:the|it|its|each|both)(?: [\w-]+)? )?(?:out|off)|remove|solder|desolder|unsolder|swap|change|touch|wipe|clean|reach|connect|open|unscrew|bend|seat|reseat|brush|rock|probe|measure|pull(?! (?:out )?the mains| the plug(?: at|[,.;]|$)))\b/,
};
const opening: Telling = {
  act: /\b(?:open|take off|lift off|lift|remove|unscrew|reach|work|look)\b/,
  object: /\b(?:the (?:case|lid|cover|housing|back|top)\b|inside\b|into the (?:unit|machine|case))/,
  reach: 3,
};

const probing: readonly Telling[] = [
  {
    act: /\b(?:hold|press|touch|put|place|move|step|walk|slide|run|poke|prod|tap|lay|rest|go|clip|hook|attach|connect|transfer|shift|take)\b/,
    object:
      /\b(?:probes?|probe tip|tips?|prods?|(?:red|black)(?: lead| clip| probe)?|meter leads?|ground clip|clips?|hooks?|grabbers?|alligators?)\b/,
    reach: 4,
  },
  {
    act: /\b(?:(?<!(?:logic|signal|scope|current|×10) )probe|touch|prod|poke)\b/,
    object:
      /\b(?:pins?|legs?|tags?|points?|tracks?|terminals?|outputs?|inputs?|lines?|contacts?|capacitors?|transistors?|chips?|from point|in turn)\b/,
    reach: 5,
  },
  { act: /\b(?:clip|hook) (?:on|onto|to|it|the|red|black)\b/ },
];
const touching: ReadonlySet<string> = new Set([
  'multimeter',
  'oscilloscope',
  'logic-probe',
  'signal-tracer',
  'frequency-counter',
  'known-good-part',
]);
const staysOn =
  /\bunplug|\bclips? (?:stay|on|as)|\bleave (?:the |both |all )?(?:clips?|meter)|\bsame shot\b|\bbattery\b|\btouch nothing\b/i;

const plugsIn = /\bplug(?: \w+)? in\b/i;

/** A board that a bench supply feeds, limited and low: the unit itself is out of the wall. */
function isBenchFed(node: TreeNode): boolean {
  return needsOf(node).includes('bench-supply-ready');
}

/** The unit itself gets power. */
const unitOn: Telling = {
  act: /\b(?:hands out|plug in|plug (?:it|the (?:unit|machine|computer|set|board)) in|(?:switch|turn|power) (?:on|up) the (?:unit|machine|computer|set)|(?:switch|turn|power) the (?:unit|machine|computer|set) (?:on|up))\b/,
};
const besideUnit =
  /\b(?:bench supply|batter(?:y|ies)|(?:media |tape |cassette |music )?player|recorder|tester|radio|generator|(?:other|another|second|good|its own) (?:unit|machine|computer|drive|set))\b/i;

/** Contact with what a supply keeps charged. */
const atCharged: Telling = {
  act: /\b(?:clip|hook|touch|feel|press|solder|desolder|unsolder|lift|bend|short|bridge|read|measure|probe|fit|take|cut|pull|grip|move)\b/,
  object:
    /\b(?:reservoirs?|smoothing|filter capacitors?|(?:big|large|main) (?:cans?|capacitors?|electrolytics?)|bridge(?:'s)? legs|rectifiers?|regulators?(?:'s)? (?:legs?|input|output|tab|input and ground)|(?:input|output) (?:leg|and ground legs?)|legs of the (?:regulator|bridge|rectifier))\b/,
  reach: 5,
};
const emptied =
  /\bdischarged?|\bbelow \d|\bbleed|\bempty\b|\bclipp?(?:ed|s)? (?:the meter )?on (?:first|before)|\bclips? (?:stay|on)\b|\bleave (?:the |both )?clips?|\bout of (?:the|its) (?:board|circuit)|\bone leg (?:free|lifted)|\bfrom outside\b|\bthermometer\b/i;

const bareMains =
  /\b(?:bare|exposed|uncovered|open) mains\b|\bmains (?:parts?|tags?|wiring|terminals?|side)(?: (?:is|are|lies?|lie|left))? (?:bare|exposed|uncovered|open)\b/i;
const stops =
  /\b(?:hand (?:it |the unit )?over|do not (?:do|go on)|not for|leave (?:it|this|the) (?:step|closed|unplugged)|leave this step|never|stop|cover(?:ed|s)?(?: it| them)? (?:first|again)|refit|covers? (?:on|over)|only where all|competent)\b|[“"]/i;

function isLive(node: TreeNode, part: PoweredPlace['part'], { library }: TreeRuleContext): boolean {
  if (isStep(node)) return node.power === 'on';
  return node.kind === 'cause' && (part === 'confirm' || part === 'prove') && liveReadings(node, library).length > 0;
}

const intoDonor: Telling = {
  act: /\b(?:fit|put|plug|seat|try|swap|install|insert|push|move|take|run)\b/,
  object:
    /^\W*(?:\w[\w-]* ){0,4}?(?:suspects?|suspected|old|doubtful|bad|faulty|failed|dead|it|them|chip|memory|processor|board|card|drive)\b.{0,20}\b(?:in|into|onto|on|to) (?:the |a |your |an )?(?:good|known-good|donor|sound|working|second|other|another|sister|healthy|friend's)(?: \w+)? (?:unit|machine|computer|board|set|one|drive|system)\b/,
  reach: 5,
};
const goodPart: Telling = {
  act: /\b(?:fit|put|plug|seat|try|swap|install|insert|push)\b/,
  object:
    /\b(?:good|known-good|donor|spare|borrowed|new|sister's)(?: \w+)? (?:one|chips?|parts?|processor|memory|memories|board|card|set|transistor|regulator|ROM)\b/,
  reach: 6,
};
const measured = /\b(?:read|measure|ohms|compare|below|checked|proved|same (?:volts|ohms))\b/i;

/** Nodes that some road from the start reaches before anything was read with a meter or a better instrument. */
function reachedUnmeasured(tree: FaultTree): ReadonlySet<string> {
  return reachableFromStart(
    tree,
    (node) =>
      !(isStep(node) && node.instruments.some((family) => touching.has(family) && family !== 'known-good-part')),
  );
}

const once =
  /\b(?:only (?:copy|copies|disks?|tapes?|cassettes?|cartridges?|one)|originals?|masters?|(?:owner's|customer's|own|your|their|his|her) (?:only |best |own |original )*(?:disks?|tapes?|cassettes?|programs?|data)|irreplaceable|first disk)\b/;
const feeding: Telling = {
  act: /\b(?:insert|load|play|feed|put in|put|try|run|use|record over|copy onto|boot from|start from|read back)\b/,
  object: once,
  reach: 6,
};
const writing: Telling = {
  act: /\b(?:format|erase|wipe|overwrite|write (?:to|over|on)|record over|save (?:to|over|onto)|initiali[sz]e)\b/,
  object: /\b(?:disks?|tapes?|cassettes?|cartridges?|memory card|medium|side)\b/,
  reach: 5,
};
const scrap = /\b(?:scrap|blank|empty|new|spare|nobody will miss|copy of|copied)\b/i;
