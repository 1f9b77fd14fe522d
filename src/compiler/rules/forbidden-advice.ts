import type { TreeNode } from '#core/model/fault-tree.ts';
import { prosePlaces } from './prose-places.ts';
import { defineTreeRule } from './rule.ts';
import { splitSentences } from './split-sentences.ts';

interface Forbidden {
  readonly pattern: RegExp;
  readonly what: string;
  readonly instead: string;
  /** Where true, only in a step with power on, and not in a sentence that says unplugged. */
  readonly powered?: boolean;
}

const wet = '(?:alcohol|isopropyl|IPA|freezer|freez(?:e|er|ing)[- ]spray|cold spray|contact cleaner|solvent)';
const isOn = String.raw`(?:powered(?: on| up)?|power(?: is)? on|switched on|plugged in|still on|live|(?:while|with) (?:(?:it|the \w+)(?: is)? )?(?:on|runs|running|working|powered|live))`;
const mainsPart = String.raw`(?:mains(?! (?:lead|plug|cable))|live (?:pin|part|wire|terminal|tag|side|conductor)\w*|live and neutral|primary(?! colou?r)|plug pins?|line voltage|hot side)`;

/** Advice that nobody may be given, as patterns over one sentence; each says what to write instead. */
const forbidden: readonly Forbidden[] = [
  {
    pattern:
      /\b(bypass|defeat|bridge(?: out)?|override|jumper|short(?: out)?|link out|tape(?: down| over| up)?|wedge|disable|cheat|fool|tie (?:down|back)|hold (?:down|in))\b[^.]{0,50}\b(interlock|(?:safety|door|lid|cover) switch|cut-?out|thermal fuse)/i,
    what: 'defeating an interlock',
    instead: 'Hand over instead.',
  },
  {
    pattern:
      /\b(lift|cut|disconnect|remove|tape over|unhook|break off|snap off)\b[^.]{0,30}\b((?:safety|protective|mains) (?:earth|ground)|(?:earth|ground) (?:pin|prong) of the plug)\b/i,
    what: 'taking off a safety earth',
    instead: 'Find the loop another way; the earth stays on.',
  },
  {
    pattern:
      /\b(bigger|larger|stronger|higher[- ]rated) fuse\b|\bfuse\b[^.]{0,40}\b(foil|nail|paper ?clip)\b|\b(foil|nail|paper ?clip)\b[^.]{0,40}\bfuse\b|\b(bridge|bypass|short(?: out)?|wire across|jumper)\b[^.]{0,20}\bfuse\b/i,
    what: 'a fuse of another rating, or none',
    instead: 'Same type and rating, or hand over.',
  },
  {
    pattern: new RegExp(
      String.raw`\b(touch|fingers?|thumb|hold (?:a|the|your|one|both|each) (?:meter )?probes?|hold(?:ing)? (?:it|them) (?:on|against|to)|press (?:a|the|your) probe)\b[^.]{0,50}\b${mainsPart}`,
      'i',
    ),
    what: 'a finger or a held probe on a mains part',
    instead: 'Unplugged and discharged only, or hand over.',
  },
  {
    pattern:
      /\b(measure|read|probe|clip|meter)\b[^.]{0,50}\b(live and neutral|mains (?:inlet|terminals|tags|side|voltage|fuse)|primary (?:side|winding|capacitor)|across the primary)/i,
    what: 'a measurement on a mains part with power on',
    instead: 'Measure it unplugged and discharged, or hand over.',
    powered: true,
  },
  {
    pattern: new RegExp(String.raw`\b${wet}\b[^.]{0,80}\b${isOn}\b|\b${isOn}\b[^.]{0,80}\b${wet}\b`, 'i'),
    what: 'alcohol or freezer on a powered board',
    instead: 'Power off, apply, let it dry, then power on.',
  },
  {
    pattern: new RegExp(String.raw`\b(spray|use|apply|wipe|clean|brush|drip|dab|cool)\b[^.]{0,50}\b${wet}\b`, 'i'),
    what: 'alcohol or freezer on a powered board',
    instead: 'This step has power on: say "unplugged" in the same sentence, or make it a step with power off.',
    powered: true,
  },
  {
    pattern: /\bscrewdriver\b[^.]{0,40}\b(short|discharge)|\b(short|discharge)\b[^.]{0,40}\bscrewdriver\b/i,
    what: 'discharging with a screwdriver',
    instead: 'A resistor tool, then measure.',
  },
  {
    pattern:
      /\b(discharge|lift|pull|take|unhook|measure|probe|touch|reach)\b[^.]{0,40}\b(anode(?: cap)?|flyback|line output transformer|neck of the (?:picture )?tube)\b/i,
    what: 'work inside a picture-tube set',
    instead: 'Hand over instead.',
  },
];

const denies = /\b(never|not|no|don[’']t|nobody|nothing|without|instead of|cannot|neither|nor)\b/i;
const unpowered = /\b(unplugged|unplug|power off|switched off|power is off)\b/i;

export const forbiddenAdvice = defineTreeRule({
  id: 'forbidden-advice',
  group: 'safety',
  says: 'Nobody is told to defeat an interlock, take off an earth, up-rate a fuse, touch or measure a mains part, wet a powered board, or work inside a picture-tube set.',
  why: 'A tired beginner follows the page word for word.',
  wrong: 'Bypass the interlock and read the rail.',
  right: 'Read the rail at the farthest chip.',
  *find({ tree }) {
    for (const node of tree.nodes) {
      for (const { key, text } of prosePlaces(node)) {
        for (const sentence of splitSentences(text)) {
          const found = forbidden.find((advice) => isGiven(advice, sentence, node));
          if (found === undefined) continue;
          yield {
            key,
            message: `Unexpected advice on ${found.what} ("${sentence.slice(0, 60)}"), expected a safe step.`,
            help: found.instead,
          };
        }
      }
    }
  },
});

function isGiven({ pattern, powered = false }: Forbidden, sentence: string, node: TreeNode): boolean {
  const found = pattern.exec(sentence);
  if (found === null) return false;
  const isPowered = (node.kind === 'check' || node.kind === 'path') && node.power === 'on';
  if (powered && (!isPowered || unpowered.test(sentence))) return false;
  return !denies.test(clauseUpTo(sentence, found.index, found.index + found[0].length));
}

/** The clause that the words from `start` to `end` stand in, up to `end`: a "not" in another clause does not deny them. */
function clauseUpTo(sentence: string, start: number, end: number): string {
  const before = sentence.slice(0, start);
  const cut = Math.max(before.lastIndexOf(','), before.lastIndexOf(' but '), before.lastIndexOf(' then '));
  return sentence.slice(cut + 1, end);
}
