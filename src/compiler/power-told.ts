import type { TreeNode } from '#core/model/fault-tree.ts';
import type { Library } from '#core/model/library.ts';
import { liveReadings, isStep } from '#core/model/node.ts';
import { foldedSentences } from './clauses.ts';
import { type ProsePlace, prosePlaces } from './reader-texts.ts';

/** What the words say of the unit's power at one place: plugged in, or only switched off, or out of the wall. */
export type ToldPower = 'on' | 'switched-off' | 'unplugged';

/** One sentence, and what holds at each place of it. */
export interface PoweredSentence {
  readonly sentence: string;
  readonly powerAt: (index: number) => ToldPower;
}

interface Turn {
  readonly index: number;
  readonly power: ToldPower;
}

/** Acts that change the power from there on. */
const turns: readonly (readonly [pattern: RegExp, power: ToldPower])[] = [
  [
    /\b(?:plug(?: (?:it|them|both|each|the (?:unit|machine|set)|this one|everything))? in|(?:switch|power|turn)(?: (?:it|them|both|each|the (?:unit|machine|set|supply|power)|this one|everything))? (?:on|up))\b/gi,
    'on',
  ],
  [
    /\b(?:unplug|pull (?:out )?the (?:mains )?plug|pull the mains lead|leave (?:it|the unit|everything) unplugged|(?:stays|remains) unplugged)\b(?= (?:it|both|the (?:unit|machine|set|brick)|everything|at|now|first|again|before|and|then|once|to)\b|[,.;:?!)]|$| unplugged)/gi,
    'unplugged',
  ],
  [
    /\b(?:switch|turn)(?: (?:it|them|both|all(?: units)?|the (?:unit|machine|set)|the power(?: switch)?|to))? off\b|\bswitch to off\b/gi,
    'switched-off',
  ],
];
/** Words for how it is while the rest of the sentence is done. */
const isOn =
  /\b(?:powered(?: on| up)?|power(?: is)? on|switched on|plugged in|still on|live|(?:while|with|whenever) (?:(?:it|they|both|the \w+|power)(?: is| are)? )?(?:on|in|runs?|running|working|powered|live|playing|plays))\b/i;
const isUnplugged = /\b(?:unplugged|plugs? (?:is |are )?out\b|out of the (?:wall|mains)|off the mains)/i;
const isOff = /\b(?:switched off|power(?: is)? off|powered (?:off|down)|units? off|with (?:it|the power) off)\b/i;
/** Right before a turn: then it has not come yet, or never may. */
const notYet =
  /\b(?:(?:before|until|unless|never|not|don't|without)(?: [^\s,]+){0,3}|every|each|the|a|an|its|this|of|mains|power|supply) ?$/i;

/** A text of a node with its place, sentence by sentence with the power that holds there. */
export interface PoweredPlace extends ProsePlace {
  readonly sentences: readonly PoweredSentence[];
}

/** Every text of a step, and for each sentence whether the unit is plugged in while it is done. Confirm, repair and prove each start afresh. */
export function poweredPlaces(node: TreeNode, library: Pick<Library, 'targets'>): readonly PoweredPlace[] {
  const groups = Map.groupBy(prosePlaces(node), ({ key, part }) =>
    part === 'button' || key.includes('@') ? key : partOf[part],
  );
  const step = (groups.get('step') ?? []).map(({ text }) => text).join(' ');
  return [...groups.values()].flatMap((places) => {
    const start = startOf(node, places[0], step, library);
    const walked = walkPower(
      places.map(({ text }) => text),
      start,
    );
    return places.map((place, index) => ({ ...place, sentences: walked[index] ?? [] }));
  });
}

const partOf: Readonly<Record<ProsePlace['part'], string>> = {
  step: 'step',
  button: 'button',
  confirm: 'confirm',
  record: 'repair',
  repair: 'repair',
  substitute: 'repair',
  prove: 'prove',
};

function startOf(
  node: TreeNode,
  place: ProsePlace | undefined,
  step: string,
  { targets }: Pick<Library, 'targets'>,
): ToldPower {
  if (isStep(node)) {
    if (node.power !== 'on' || place?.part === 'button') return 'unplugged';
    // What a stage says of its point belongs to the move that the prose tells of.
    return place?.key.includes('/stage/') === true && isUnplugged.test(step) ? 'unplugged' : 'on';
  }
  if (node.kind !== 'cause' || (place?.part !== 'confirm' && place?.part !== 'prove')) return 'unplugged';
  const { [place.part]: part } = node;
  const isLive =
    liveReadings({ ...node, confirm: undefined, prove: undefined, [place.part]: part }, { targets }).length > 0;
  return isLive ? 'on' : 'unplugged';
}

/**
 * The sentences of one text with the power that holds in them, from `start` on. What is told in passing ("unplugged, …") holds for its
 * sentence; in a step with power on it lasts until the words say "plug in", and where they never do, no longer than its sentence.
 */
export function walkPower(texts: readonly string[], start: ToldPower): readonly (readonly PoweredSentence[])[] {
  const all = texts.map((text) => foldedSentences(text).map((sentence) => ({ sentence, found: turnsIn(sentence) })));
  const flat = all.flat();
  let place = 0;
  let power = start;
  return all.map((sentences) =>
    sentences.map(({ sentence, found }): PoweredSentence => {
      const before = power;
      place += 1;
      const isPluggedLater = flat.slice(place).some((later) => later.found.some((turn) => turn.power === 'on'));
      const bounds = [0, ...found.map(({ index }) => index), sentence.length];
      const states = bounds.slice(0, -1).map((from, segment) => {
        const words = sentence.slice(from, bounds[segment + 1]);
        const turned = segment === 0 ? before : (found[segment - 1]?.power ?? before);
        return { from, ...stateOf(words, turned) };
      });
      const last = states.at(-1) ?? { after: before, isPassing: false };
      power = last.isPassing && start === 'on' && !isPluggedLater ? (found.at(-1)?.power ?? before) : last.after;
      return { sentence, powerAt: (index) => states.findLast(({ from }) => from <= index)?.during ?? before };
    }),
  );
}

function stateOf(words: string, turned: ToldPower): { during: ToldPower; after: ToldPower; isPassing: boolean } {
  if (isOn.test(words)) return { during: 'on', after: turned, isPassing: false };
  if (isUnplugged.test(words))
    return { during: 'unplugged', after: 'unplugged', isPassing: turned !== 'unplugged' && !words.endsWith(':') };
  if (isOff.test(words)) return { during: 'switched-off', after: 'switched-off', isPassing: true };
  return { during: turned, after: turned, isPassing: false };
}

function turnsIn(sentence: string): readonly Turn[] {
  return turns
    .flatMap(([pattern, power]) =>
      [...sentence.matchAll(pattern)].flatMap(({ index }): Turn[] =>
        notYet.test(sentence.slice(0, index)) && power === 'on' ? [] : [{ index, power }],
      ),
    )
    .toSorted((one, other) => one.index - other.index);
}
