import type { LibraryBeside } from '#core/model/library.ts';
import { type Telling, findTold } from '../clauses.ts';
import { type PoweredSentence, type ToldPower, poweredPlaces, walkPower } from '../power-told.ts';
import type { ReaderText } from '../reader-texts.ts';
import type { Rule } from './rule.ts';

export const adviceRules: readonly Rule[] = [
  {
    id: 'forbidden-advice',
    group: 'safety',
    says: 'Nobody is told to defeat an interlock, take off an earth, let anything but the right fuse stand in its place, touch or measure a mains part, touch, wet or unplug anything on a powered unit, short a capacitor, or work inside a picture-tube set.',
    why: 'A tired beginner follows the page word for word.',
    wrong: 'Bypass the interlock and read the rail.',
    right: 'Read the rail at the farthest chip.',
    *findInTexts({ texts, library }) {
      for (const { key, sentences } of toldTexts(texts, library)) {
        for (const { sentence, powerAt } of sentences) {
          const found = forbidden.find((advice) => isGiven(advice, sentence, powerAt));
          if (found === undefined) continue;
          yield {
            key,
            message: `Unexpected advice on ${found.what} ("${sentence.slice(0, 60)}"), expected a safe step.`,
            help: found.instead,
          };
        }
      }
    },
  },
];

interface ToldText {
  readonly key: string;
  readonly sentences: readonly PoweredSentence[];
}

/** Each text with the power that holds in it. */
function* toldTexts(texts: readonly ReaderText[], library: LibraryBeside): Iterable<ToldText> {
  const nodes = new Set(texts.flatMap(({ node }) => node ?? []));
  const powered = new Map(
    [...nodes].flatMap((node) => poweredPlaces(node, library)).map(({ key, sentences }) => [key, sentences]),
  );
  for (const { key, text } of texts) {
    yield { key, sentences: powered.get(key) ?? walkPower([text], 'unplugged').flat() };
  }
}

interface Forbidden extends Telling {
  readonly what: string;
  readonly instead: string;
  /** Where given, forbidden only while the unit is in this state. */
  readonly while?: ToldPower;
  /** Words of the sentence that make it harmless. */
  readonly except?: RegExp;
}

const wet =
  /\b(?:alcohol|isopropyl|IPA|freezer|freez(?:e|er|ing)[- ]spray|cold spray|contact (?:cleaner|spray)|switch cleaner|solvent)\b/;
const mainsPart =
  /\b(?:mains(?! (?:lead|plug|cable|voltage of|is\b))|live (?:pin|part|wire|terminal|tag|side|conductor)\w*|live and neutral|primary(?! colou?r)|plug pins?|line voltage|hot side)/;
const safetyEarth =
  /\b(?:(?:safety|protective|mains) (?:earth|ground)|(?:earth|ground) (?:pin|prong|wire|tag|screw)s? of the (?:mains )?(?:plug|lead|inlet|case)|earth (?:pin|prong|contact|wire|conductor)|earth of the (?:mains )?(?:plug|lead|case|unit)|third (?:pin|prong|wire) of the (?:mains )?(?:plug|lead))\b/;
const finger = String.raw`(?:(?:bare |wet |moist |damp |licked |index |dry )*(?:fingers?|finger ?tips?|finger ?nails?|thumbs?|hands?(?!-)|palms?|knuckles?|tongue|skin))\b`;
const barePart =
  /\b(?:metal|chassis|inputs?|pins?|legs?|tags?|tracks?|terminals?|contacts?|chips?|boards?|heat ?sinks?|tabs?|wires?|wiper|base|gate|comparators?|op-?amps?|transistors?|regulators?|rectifiers?|amplifiers?|capacitors?|cans?|resistors?|crystals?|joints?|solder side|ICs?|bridge|transformers?|coils?|diodes?|collector|emitter|valves?)\b/;
const capacitor = /\b(?:capacitors?|reservoirs?|cans?|electrolytics?)\b/;
const tube =
  /\b(?:anode(?: cap)?|flyback|line output transformer|neck of the (?:picture )?tube|focus lead|rubber cap|suction cup|deflection yoke|yoke)\b/;
const standIn =
  '(?:lamp|bulb|light|loudspeaker|speaker|meter|multimeter|ammeter|resistor|coil|choke|wire|link|screw|nail|bolt|foil|paper ?clip|coin|solder|diode)s?';

/** Advice that nobody may be given; each says what to write instead. */
const forbidden: readonly Forbidden[] = [
  {
    act: /\b(?:by-?pass|defeat|bridge(?: out)?|override|jumper|short(?: out)?|link out|tape(?: down| over| up)?|wedge|jam|disable|cheat|fool|trick|tie (?:down|back)|hold (?:down|in|closed)|press (?:down|in)|keep (?:down|in|pressed))\b/,
    object:
      /\b(?:interlocks?|(?:safety|door|lid|cover) (?:micro)?switch|cut-?out|thermal (?:fuse|link)|residual-current device|earth leakage trip)\b/,
    what: 'defeating an interlock',
    instead:
      'An interlock, a cut-out and a trip stay as they are: write what can be read with them working, or hand over.',
  },
  {
    isThing: true,
    act: /\b(?:interlocks?|(?:safety|door|lid|cover) (?:micro)?switch|cut-?out|thermal (?:fuse|link))\b/,
    object:
      /\b(?:bypassed|defeated|bridged|overridden|shorted|jumpered|taped|wedged|pressed|(?:held|kept) (?:down|in|closed)|tied back|linked out)\b/,
    reach: 4,
    what: 'defeating an interlock',
    instead:
      'An interlock, a cut-out and a trip stay as they are: write what can be read with them working, or hand over.',
  },
  {
    act: /\b(?:lift|cut|disconnect|remove|take off|leave off|leave out|undo|unscrew|tape(?: over| up)?|unhook|pull (?:off|out)|break(?: off)?|snap off|file (?:off|down)|bend)\b/,
    object: safetyEarth,
    reach: 5,
    what: 'taking off a safety earth',
    instead: 'Find the loop another way; the earth stays on.',
  },
  {
    isThing: true,
    act: /\b(?:plug|lead|cord|cable|socket|adapter|adaptor|extension)\b/,
    object:
      /^(?:(?! or )[^.]){0,20}\b(?:without (?:an? |its |the )?(?:safety |protective )?(?:earth|ground pin)|with(?: the| its)? earth (?:cut|off|taped|removed)|whose (?:safety )?earth is (?:not|off|cut|open|missing))\b/,
    reach: 0,
    isDeniedBefore: true,
    what: 'a mains lead without its earth',
    instead: 'Find the loop another way; the earth stays on.',
  },
  {
    isThing: true,
    act: /\b(?:bigger|larger|stronger|heavier|higher[- ]rated|up-?rated|next size up of) fuse\b/,
    what: 'a fuse of another rating, or none',
    instead: 'Same type and rating, or hand over.',
  },
  {
    act: /(?<=\bfuse\b.{0,60})\b(?:use|fit|take|put in)\b/,
    object: /\b(?:larger|bigger|stronger|heavier|higher[- ]rated) one\b/,
    reach: 4,
    what: 'a fuse of another rating, or none',
    instead: 'Same type and rating, or hand over.',
  },
  {
    isThing: true,
    act: /\bfuse\b/,
    object:
      /\b(?:foil|nail|paper ?clip|bolt|coin|(?:copper|bare) wire|(?:larger|bigger|stronger|heavier|higher) one|next size|of twice|of double|of a higher|with a higher|rated higher)\b/,
    reach: 8,
    what: 'a fuse of another rating, or none',
    instead: 'Same type and rating, or hand over.',
  },
  {
    act: /\b(?:bridge|by-?pass|short(?: out)?|wire across|jumper|solder across|solder over|replace|stand in for)\b/,
    object: /\b(?:fuse(?! holder)s?|fuse holder)\b(?! (?:by|with) (?:one|a fuse|the same|another))/,
    reach: 4,
    except: /\b(?:same (?:type|rating|letter)|printed rating|new fuse|replace (?:the|a|its) fuse only)\b/i,
    what: 'a fuse of another rating, or none',
    instead: 'Same type and rating, or hand over.',
  },
  {
    isThing: true,
    act: new RegExp(String.raw`\b${standIn}\b`),
    object:
      /^\W*(?:\w[\w-]* ){0,4}(?:in(?:to)? (?:the )?place of|instead of|as|acts as|serves as|stands in for|for|in(?:to)?|across|over|a?round) (?:the |a |its |that |your )?(?:[\w-]+ ){0,2}(?:fuse\b(?! (?:test|reading|holder’s))|fuse holder)/,
    reach: 5,
    isDeniedBefore: true,
    except: /\b(?:read|ohms|unplugged|out of its holder)\b/i,
    what: 'something else in the place of a fuse',
    instead:
      'Only a fuse of the printed type and rating goes there. A first start goes through a ready-made, enclosed series lamp, or is handed over.',
  },
  {
    act: /\b(?:read|measure|look for|check for|meter on|clip)\b/,
    object:
      /\b(?:(?:dc|volts|voltage|millivolts)\b.{0,40}\b(?:across|at|on|over|to) (?:the |its |a |one )?(?:loud)?speaker)/,
    reach: 8,
    while: 'on',
    except: /\b(?:in its place|resistor|dummy|ohms|Ω|pull(?:ed)?|off\b|before the first note|within \d+ mV)/i,
    what: 'measuring dc with the loudspeaker as its load',
    instead: 'A bad amplifier burns the loudspeaker that tells of it: pull its leads and clip 8 Ω, 10 W in its place.',
  },
  {
    isThing: true,
    act: new RegExp(
      String.raw`\b(?:touch(?! of)|(?<!slip of (?:the|a) )(?!hand(?: it| the unit)? over)${finger}|hold (?:a|the|your|one|both|each) (?:meter )?(?:probes?|tips?|leads?)|hold(?:ing)? (?:it|them) (?:on|against|to)|press (?:a|the|your|one|both) (?:probes?|tips?))`,
    ),
    object: mainsPart,
    what: 'a finger or a held probe on a mains part',
    instead: 'Unplugged and discharged only, or hand over.',
  },
  {
    act: /\b(?:touch|feel|prod|poke|stroke|dab|lick|grab|grip|squeeze|pinch)\b(?! (?:nothing|none|screen|of))/,
    object: barePart,
    reach: 4,
    while: 'on',
    what: 'a finger on a powered unit',
    instead:
      'Bring in a signal, or read with a meter clipped on unplugged. A hand goes in unplugged and discharged only; heat is read with a thermometer.',
  },
  {
    act: new RegExp(
      String.raw`\b(?:hold|put|press|lay|rest|tap|rub|slide|run|wipe|cup|with|use)\b (?:[\w-]+ ){0,4}?${finger}`,
    ),
    object: barePart,
    while: 'on',
    what: 'a finger on a powered unit',
    instead:
      'Bring in a signal, or read with a meter clipped on unplugged. A hand goes in unplugged and discharged only; heat is read with a thermometer.',
  },
  {
    act: /\b(?:tap|touch|press|feel|wet|stroke|dab|poke|bridge|cover|hold|rub|move|wiggle)\b/,
    object: new RegExp(String.raw`${barePart.source}.{0,60}\b(?:with|by|using) (?:a |your |one |the )?${finger}`),
    while: 'on',
    what: 'a finger on a powered unit',
    instead:
      'Bring in a signal, or read with a meter clipped on unplugged. A hand goes in unplugged and discharged only; heat is read with a thermometer.',
  },
  {
    act: /\b(?:reach (?:in|into|inside|behind|under)|lean (?:in|into|over)|put (?:a|your|one|the other) hand (?:in|inside|into)|(?:a |your |one |both |the other )?hands? (?:stay|stays|kept|keep|go|goes|in|inside) (?:in|inside|right|left|clear|away|the|your|a)|one hand in (?:a|your|the) pocket)\b/,
    while: 'on',
    what: 'a hand in an open unit with power on',
    instead:
      'Unplugged, clip on; hands out, plug in, read, unplug. No way of holding hands makes an open live case safe.',
  },
  {
    isThing: true,
    act: /\b(?:ground|earth|scope|black)(?: clip| lead)?\b/,
    object:
      /\b(?:on|to|at) (?:a|the|one|either|its) (?:[\w-]+ ){0,2}(?:loud)?speaker (?:tag|terminal|wire|output|lead)/,
    reach: 4,
    what: 'a ground clip on a loudspeaker line',
    instead: 'In a bridge neither side is ground: the clip goes to board ground.',
  },
  {
    act: /\b(?:pull|unplug|plug|push|insert|remove|take out|disconnect|connect|swap|change|fit|lift|seat)\b/,
    object:
      /\b(?:(?:while|with|whenever) (?:(?:the|both|all|either|your) )?(?:units?|machines?|computers?|power|board|supply|it|they|both|everything|drives?) ?(?:is |are )?(?:still )?(?:on|running|powered|live)|hot[- ]plug)\b/,
    reach: 14,
    except: /\b(?:at the wall|mains plug)\b/i,
    what: 'pulling or plugging with power on',
    instead: 'Unplug the unit, do it, plug in again.',
  },
  {
    act: /\b(?:pull|unplug|insert|remove|take out|lift out|lift|swap|change|fit|seat|reseat|push in|wiggle|rock|solder|desolder|unsolder|resolder)\b/,
    object:
      /^\W*(?:\w[\w-]* ){0,3}?(?:chips?|boards?|cards?|connectors?|ribbons?|flat cables?|memory|processors?|ROMs?|ICs?|sockets?|joints?|capacitors?|resistors?|transistors?|fuses?)\b/,
    reach: 4,
    while: 'on',
    what: 'pulling, plugging or soldering inside with power on',
    instead: 'Unplug and discharge first; plug in again when hands are out.',
  },
  {
    act: /\b(?:measure|read|probe|clip|meter)\b/,
    object:
      /\b(?:live and neutral|mains (?:inlet|terminals?|tags?|side|voltage|fuse|filter|switch|socket)|primary (?:side|winding|capacitor)|across the primary|fuse holder)\b/,
    while: 'on',
    what: 'a measurement on a mains part with power on',
    instead: 'Measure it unplugged and discharged, or hand over.',
  },
  {
    act: /\b(?:spray|use|apply|wipe|clean|brush|drip|dab|cool|swab|wash|squirt|freeze)\b/,
    object: wet,
    while: 'on',
    what: 'alcohol or freezer on a powered board',
    instead:
      'Unplug, apply, let it dry, then plug in: say "unplugged" in the same sentence, or make it a step with power off.',
  },
  {
    act: /\b(?:short|bridge|link|join|ground(?! (?:pin|leg|clip|lead|side|way|wire))|connect|tap|touch)\b/,
    object:
      /\b(?:pins?|legs?|contacts?|terminals?|reset|halt|interrupt)\b.{0,50}\b(?:with|using|by|to) (?:a |the |your )?(?:screwdriver|tweezers|blade|paper ?clip|bit of wire|piece of wire|wire link|coin|ground|each other)\b/,
    while: 'on',
    what: 'bridging pins on a powered board',
    instead: 'A slip there burns what was sound: fit the clip unplugged, or use the unit’s own button.',
  },
  {
    act: /\b(?:wet|lick|moisten|dampen) (?:a|your|one|the) (?:finger|thumb)/,
    what: 'a finger as a signal source',
    instead: 'Bring in a tone from a battery player, clipped on unplugged.',
  },
  {
    act: /\b(?:go to bed|go out|walk away|leave the room|go home)\b/,
    object: /\b(?:runs?|running|on|plays?|playing|morning|later)\b/,
    while: 'on',
    what: 'leaving a unit on alone',
    instead: 'Stay with it, and switch off when you leave.',
  },
  {
    act: /\b(?:leave|left|let)\b/,
    object:
      /\b(?:on|running|run|play|playing|powered|plugged in|soak)\b.{0,20}\b(?:alone|unattended|overnight|by itself for|while you (?:sleep|are out|go|do something else))\b/,
    reach: 5,
    what: 'leaving a unit on alone',
    instead: 'Stay with it, and switch off when you leave.',
  },
  {
    act: /\brun(?:ning|s)?\b/,
    object: /\b(?:unattended|overnight|while you (?:sleep|are out))\b/,
    reach: 6,
    what: 'leaving a unit on alone',
    instead: 'Stay with it, and switch off when you leave.',
  },
  {
    isThing: true,
    act: /\bscrewdriver\b/,
    object: /\b(?:short|discharge)/,
    reach: 8,
    what: 'discharging with a screwdriver',
    instead: 'A resistor tool, then measure.',
  },
  {
    act: /\b(?:short|discharge|empty|drain)/,
    object:
      /\b(?:screwdriver|pliers|tweezers|spanner|blade|bare wire|(?:bit|piece|length) of wire|clip lead|paper ?clip|nail)\b/,
    except: /\b(?:resistor|Ω|ohms)\b/i,
    what: 'discharging with bare metal',
    instead: 'A resistor tool, then measure.',
  },
  {
    act: /\bshort(?: out| across)? (?:the|its|each|every|all|both|that)\b/,
    object: capacitor,
    reach: 4,
    what: 'shorting a charged capacitor',
    instead: 'A resistor tool, then measure.',
  },
  {
    act: /\b(?:discharge|lift|pull|take|unhook|measure|probe|touch|reach|clip)\b/,
    object: tube,
    what: 'work inside a picture-tube set',
    instead: 'Hand over instead.',
  },
];

function isGiven(advice: Forbidden, sentence: string, powerAt: PoweredSentence['powerAt']): boolean {
  if (advice.except?.test(sentence) === true) return false;
  return findTold(sentence, advice).some(({ from }) => advice.while === undefined || powerAt(from) === advice.while);
}
