import type { TreeNode } from '#core/model/fault-tree.ts';
import { readerTexts, splitSentences } from '../reader-texts.ts';
import type { Rule } from './rule.ts';

export const adviceRules: readonly Rule[] = [
  {
    id: 'forbidden-advice',
    group: 'safety',
    says: 'Nobody is told to defeat an interlock, take off an earth, up-rate a fuse, touch or measure a mains part, touch, wet or unplug anything on a powered unit, or work inside a picture-tube set.',
    why: 'A tired beginner follows the page word for word.',
    wrong: 'Bypass the interlock and read the rail.',
    right: 'Read the rail at the farthest chip.',
    *findInAll(context) {
      for (const { file, key, text, node } of readerTexts(context)) {
        for (const sentence of splitSentences(foldLetters(text))) {
          const found = forbidden.find((advice) => isGiven(advice, sentence, node));
          if (found === undefined) continue;
          yield {
            file,
            key,
            message: `Unexpected advice on ${found.what} ("${sentence.slice(0, 60)}"), expected a safe step.`,
            help: found.instead,
          };
        }
      }
    },
  },
];

interface Forbidden {
  readonly pattern: RegExp;
  readonly what: string;
  readonly instead: string;
  /** Where true, only in a step with power on, and not in a sentence that says unplugged. */
  readonly powered?: boolean;
  /** The forbidden words hold a "without" of their own: only what stands before them can deny them. */
  readonly isDeniedBefore?: boolean;
}

const wet = '(?:alcohol|isopropyl|IPA|freezer|freez(?:e|er|ing)[- ]spray|cold spray|contact cleaner|solvent)';
const isOn = String.raw`(?:powered(?: on| up)?|power(?: is)? on|switched on|plugged in|still on|live|(?:while|with) (?:(?:it|the \w+)(?: is)? )?(?:on|runs|running|working|powered|live))`;
const mainsPart = String.raw`(?:mains(?! (?:lead|plug|cable))|live (?:pin|part|wire|terminal|tag|side|conductor)\w*|live and neutral|primary(?! colou?r)|plug pins?|line voltage|hot side)`;

const safetyEarth = String.raw`(?:(?:safety|protective|mains) (?:earth|ground)|(?:earth|ground) (?:pin|prong|wire|tag|screw)s? of the (?:mains )?(?:plug|lead|inlet|case)|earth (?:pin|prong|contact|wire|conductor)|earth of the (?:mains )?(?:plug|lead|case|unit))\b`;
const finger = String.raw`(?:fingers?|finger ?tips?|thumb|hand|palm)\b`;
const barePart = String.raw`(?:metal|case|chassis|inputs?|pins?|legs?|tags?|tracks?|terminals?|chips?|boards?|heat ?sink|wires?|wiper|base|gate|comparator|op-?amp|transistor|regulator|amplifier|capacitor|resistor)s?\b`;
const isLeftOn = String.raw`(?:while|with) (?:(?:the|both|all|either|your) )?(?:units?|machines?|computers?|power|board|supply|it|they|both) ?(?:is |are )?(?:still )?(?:on|running|powered|live)\b`;

/** Advice that nobody may be given, as patterns over one sentence; each says what to write instead. */
const forbidden: readonly Forbidden[] = [
  {
    pattern:
      /\b(by-?pass|defeat|bridge(?: out)?|override|jumper|short(?: out)?|link out|tape(?: down| over| up)?|wedge|disable|cheat|fool|tie (?:down|back)|hold (?:down|in))\b[^.]{0,50}\b(interlock|(?:safety|door|lid|cover) switch|cut-?out|thermal fuse)/i,
    what: 'defeating an interlock',
    instead: 'Hand over instead.',
  },
  {
    pattern: new RegExp(
      String.raw`\b(lift|cut|disconnect|remove|take off|leave off|undo|unscrew|tape(?: over| up)?|unhook|pull (?:off|out)|break(?: off)?|snap off|file (?:off|down)|bend)\b[^.]{0,30}\b${safetyEarth}`,
      'i',
    ),
    what: 'taking off a safety earth',
    instead: 'Find the loop another way; the earth stays on.',
  },
  {
    pattern:
      /\b(plug|lead|cord|cable|socket|adapter|adaptor|extension)\b(?:(?! or )[^.]){0,20}\b(without (?:an? |its |the )?(?:safety |protective )?(?:earth|ground pin)|with(?: the| its)? earth (?:cut|off|taped|removed))/i,
    what: 'a mains lead without its earth',
    instead: 'Find the loop another way; the earth stays on.',
    isDeniedBefore: true,
  },
  {
    pattern:
      /\b(bigger|larger|stronger|higher[- ]rated) fuse\b|\bfuse\b[^.]{0,40}\b(foil|nail|paper ?clip)\b|\b(foil|nail|paper ?clip)\b[^.]{0,40}\bfuse\b|\b(bridge|bypass|short(?: out)?|wire across|jumper)\b[^.]{0,20}\bfuse\b/i,
    what: 'a fuse of another rating, or none',
    instead: 'Same type and rating, or hand over.',
  },
  {
    pattern: new RegExp(
      String.raw`\b(touch(?! of)|fingers?|thumb|hold (?:a|the|your|one|both|each) (?:meter )?probes?|hold(?:ing)? (?:it|them) (?:on|against|to)|press (?:a|the|your) probe)\b[^.]{0,50}\b${mainsPart}`,
      'i',
    ),
    what: 'a finger or a held probe on a mains part',
    instead: 'Unplugged and discharged only, or hand over.',
  },
  {
    pattern: new RegExp(
      [
        String.raw`\btouch\b[^.]{0,20}\b(?:metal|case|chassis|inputs?|heat ?sink)\b`,
        String.raw`\b(?:hold|put|press|lay|rest|tap)\b[^.]{0,20}\b${finger}[^.]{0,50}\b${barePart}`,
        String.raw`\bwith (?:a|your|one|the) (?:wet |moist )?${finger}[^.]{0,30}\b${barePart}`,
        String.raw`\b(?:tap|touch|press|feel|wet|stroke|dab|poke)\b[^.]{0,60}\b${barePart}[^.]{0,80}\bwith (?:a |your |one |the )?(?:(?:wet|moist|damp|licked|bare) )?${finger}`,
      ].join('|'),
      'i',
    ),
    what: 'a finger on a powered unit',
    instead: 'Bring in a signal or read with a meter; a hand goes in unplugged and discharged only.',
    powered: true,
  },
  {
    pattern:
      /\b(?:ground|earth|scope|black)(?: clip| lead)?\b[^.]{0,20}\b(?:on|to|at) (?:a|the|one|either|its)[^.]{0,20}\b(?:loud)?speaker (?:tag|terminal|wire|output)/i,
    what: 'a ground clip on a loudspeaker line',
    instead: 'In a bridge neither side is ground: the clip goes to board ground.',
  },
  {
    pattern: new RegExp(
      String.raw`\b(pull|unplug|plug|push|insert|remove|take out|disconnect|connect|swap|change)\b(?![^.]{0,30}\b(?:wall|mains))[^.]{0,60}\b${isLeftOn}`,
      'i',
    ),
    what: 'pulling or plugging with power on',
    instead: 'Switch off, do it, switch on.',
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
    pattern:
      /\b(?:leave|left)\b[^.]{0,30}\b(?:on|running|powered|plugged in)\b[^.]{0,20}\b(?:alone|unattended|overnight)\b|\brun(?:ning)?\b[^.]{0,30}\b(?:unattended|overnight)\b/i,
    what: 'leaving a unit on alone',
    instead: 'Stay with it, and switch off when you leave.',
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

/** Words without accents and with plain blanks: a mark over a letter hides no word from the patterns. */
function foldLetters(text: string): string {
  return text.normalize('NFKD').replace(/\p{M}/gu, '').replace(/\s+/g, ' ');
}

function isGiven(
  { pattern, powered = false, isDeniedBefore = false }: Forbidden,
  sentence: string,
  node: TreeNode | undefined,
): boolean {
  const found = pattern.exec(sentence);
  if (found === null) return false;
  const isPowered = (node?.kind === 'check' || node?.kind === 'path') && node.power === 'on';
  if (powered && (!isPowered || unpowered.test(sentence))) return false;
  const end = found.index + (isDeniedBefore ? 0 : found[0].length);
  return !denies.test(clauseUpTo(sentence, found.index, end));
}

/** The clause that the words from `start` to `end` stand in, up to `end`: a "not" in another clause does not deny them. */
function clauseUpTo(sentence: string, start: number, end: number): string {
  const before = sentence.slice(0, start);
  const cut = Math.max(before.lastIndexOf(','), before.lastIndexOf(' but '), before.lastIndexOf(' then '));
  return sentence.slice(cut + 1, end);
}
