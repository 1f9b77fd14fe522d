import type { Cause, Check, FaultTree, Outcome, TargetUse, TreeNode } from '#core/model/fault-tree.ts';
import type { Library } from '#core/model/library.ts';
import { agreesWithPlace, type Hypothesis, isHypothesis } from '#core/diagnosis/tree/derive-problem.ts';
import {
  findNode,
  type Link,
  linksFrom,
  linksTo,
  liveReadings,
  reachableFrom,
  reachableFromStart,
  stagesToldBy,
  isHealthyEnd,
} from '#core/model/node.ts';
import { listParagraphs } from '#core/model/prose.ts';
import type { Target } from '#core/model/target.ts';
import { findTold, foldedSentences } from '../clauses.ts';
import { findQuantities } from '../find-quantities.ts';
import { prosePlaces } from '../reader-texts.ts';
import type { Rule } from './rule.ts';
import { hasLostWay } from './structure.ts';

/** What an answer, a road or a proof may be taken to say. */
export const evidenceRules: readonly Rule[] = [
  {
    id: 'answer-says-something',
    group: 'substance',
    says: 'An answer that says nothing, such as "not tried" or "nothing here can measure it", is a button of its own and leads to no verdict.',
    why: 'A reader without a spare is then told what the spare would have told, and repairs a part that nobody suspected.',
    wrong: '<Outcome when="clean" to="socket-worn" says="Clean, or I could not look" />',
    right: '<Outcome when="clean" to="socket-worn" says="Clean" />',
    *findInTree({ tree }) {
      for (const check of tree.nodes) {
        if (check.kind !== 'check') continue;
        for (const [index, outcome] of check.outcomes.entries()) {
          const end = findNode(tree, outcome.to);
          if (end === undefined || !isVerdictOnNothing(check, outcome, end)) continue;
          yield {
            key: `node/${check.id}/outcome/${index}`,
            message: `Unexpected verdict on an answer that says nothing ("${outcome.says ?? outcome.when.join(' ')}"), expected a button of its own that leads on.`,
            help: 'Give "not tried" its own <Outcome when="not-tried">, which leads to another check or a hand-over; or ask for the instrument in a check before.',
          };
        }
        for (const { key, text, part } of prosePlaces(check)) {
          if (part !== 'step') continue;
          const sentences = foldedSentences(text);
          for (const [place, sentence] of sentences.entries()) {
            // "No spare: take it that …" is two to the eye.
            if (!wantsSpare.test(sentence) || !asIf.test(`${sentence} ${sentences[place + 1] ?? ''}`)) continue;
            yield {
              key,
              message: `Unexpected verdict on what was not tried ("${sentence.slice(0, 60)}"), expected an answer of its own.`,
              help: 'Add <Outcome when="not-tried"> with its button, and lead on from there.',
            };
          }
        }
      }
    },
  },
  {
    id: 'answers-cover',
    group: 'substance',
    says: 'Every case that a check speaks of has a button: what it tells to skip, and each figure between two answers.',
    why: 'Somebody reads just that, and stands before a page on which no button is true.',
    wrong:
      '<Outcome when="dark" to="leave-it" says="Below 1 Ω" />\n<Outcome when="clean" to="socket-worn" says="Above 100 Ω" />',
    right:
      '<Outcome when="dark" to="leave-it" says="Below 1 Ω" />\n<Outcome when="clean" to="socket-worn" says="1 Ω or more" />',
    *findInTree({ tree }) {
      for (const check of tree.nodes) {
        if (check.kind !== 'check') continue;
        const buttons = check.outcomes.map(({ when, says = '' }) => `${when.join(' ')} ${says}`).join(' ');
        for (const { key, text, part } of prosePlaces(check)) {
          if (part !== 'step' || leftOut.test(buttons)) continue;
          const told = foldedSentences(text).flatMap((sentence) => findTold(sentence, skipping))[0];
          if (told === undefined) continue;
          yield {
            key,
            message: `Unexpected "${told.words}" in \`${check.id}\`, which has no button for it, expected one.`,
            help: 'Add an <Outcome> for those who cannot do it, and quote its button here.',
          };
        }
        const gap = check.target === undefined ? gapBetween(check.outcomes) : undefined;
        if (gap === undefined) continue;
        yield {
          key: `node/${check.id}`,
          message: `Unexpected gap between the answers of \`${check.id}\`, expected one for a reading between ${gap}.`,
          help: 'Let one answer begin where the other ends, or add the one between.',
        };
      }
    },
  },
  {
    id: 'end-agrees',
    group: 'substance',
    says: 'Some road to each end is walked by the readings that this end makes: no end blames what the road there found right.',
    why: 'A regulator whose output read right on the way and that is called dead at the end is changed for nothing.',
    wrong: '<Cause id="socket-worn" title="Socket worn" chance="rare" lies="unit" shows="lamp=no">',
    right: '<Cause id="socket-worn" title="Socket worn" chance="rare" lies="unit" shows="lamp=yes">',
    *findInTree({ tree }) {
      if (hasLostWay(tree)) return;
      const reached = reachableFromStart(tree);
      for (const end of tree.nodes) {
        if (!('shows' in end) || !reached.has(end.id)) continue;
        const blocked = blockedRoads(tree, end.id, end.shows);
        if (blocked !== undefined) {
          yield {
            key: `node/${end.id}@shows`,
            message: `Unexpected end \`${end.id}\` whose \`shows\` is met by no road to it (${blocked}), expected a road with its own readings.`,
            help: 'Correct `shows`, or lead to this end from the answer that it gives.',
          };
        }
        const cleared = end.kind === 'cause' ? clearedOutput(tree, end) : undefined;
        if (cleared === undefined) continue;
        yield {
          key: `node/${end.id}`,
          message: `Unexpected end "${end.title}" behind \`${cleared}\`, which read right on every road to it, expected an end that the roads agree with.`,
          help: 'What read right there has not failed: blame what lies behind it, or end in "the loss is spread", "not found here".',
        };
      }
    },
  },
  {
    id: 'place-agrees',
    group: 'substance',
    says: 'Where an answer says `says-before` or `says-after`, neither the end it leads to nor a cause that shows it lies on the other side.',
    why: 'The engine clears the stretch that such an answer rules out. A cause that lies there, and gives that answer, is never found.',
    wrong: '<Outcome when="clean" to="socket-worn" says-before="supply-path/output" />',
    right: '<Outcome when="clean" to="socket-worn" says-after="supply-path/output" />',
    *findInTree({ tree }) {
      const reached = new Map(tree.nodes.map(({ id }) => [id, reachableFrom(tree, id)]));
      const isRuledOut = (outcome: Outcome, cause: Hypothesis): boolean =>
        agreesWithPlace(tree, outcome, cause, (from, to) => reached.get(from)?.has(to) === true) === false;
      for (const check of tree.nodes) {
        if (check.kind !== 'check' || !check.outcomes.some((outcome) => stagesToldBy(outcome).length > 0)) continue;
        for (const [index, outcome] of check.outcomes.entries()) {
          const end = findNode(tree, outcome.to);
          if (end === undefined || !isHypothesis(end) || !isRuledOut(outcome, end)) continue;
          yield {
            key: `node/${check.id}/outcome/${index}`,
            message: `Unexpected end \`${end.id}\` behind an answer that says the fault lies on the other side, expected one of its own side.`,
            help: 'Correct says-before or says-after, or lead on to a cause of that side.',
          };
        }
        for (const cause of tree.nodes.filter(isHypothesis)) {
          const shown = check.outcomes.filter(({ when }) => when.some((word) => cause.shows[check.id]?.includes(word)));
          if (shown.length === 0 || !shown.every((outcome) => isRuledOut(outcome, cause))) continue;
          yield {
            key: `node/${cause.id}@shows`,
            message: `Unexpected \`${check.id}=${cause.shows[check.id]?.join('|') ?? ''}\`, which says that the fault lies on the other side of \`${cause.id}\`, expected an answer that allows it.`,
            help: 'Correct `shows`, or take says-before or says-after off that answer: it must hold whatever is broken.',
          };
        }
      }
    },
  },
  {
    id: 'confirm-adds',
    group: 'substance',
    says: 'A confirmation does not only repeat the reading that led there.',
    why: 'The same wrong clip gives the same wrong figure twice. A second look from another side finds the slip before a part is cut out.',
    wrong: 'Read the rail once more.\n\n<Target use="rail-5v" point="chip-supply" />',
    right: 'Read the rail once more, then against a good unit.\n\n<Target use="rail-5v" point="chip-supply" />',
    *findInTree({ tree }) {
      for (const cause of tree.nodes) {
        if (cause.kind !== 'cause' || cause.confirm === undefined || !repeatsItsRoad(tree, cause)) continue;
        if (adds.test(listParagraphs(cause.confirm.prose).join(' '))) continue;
        yield {
          key: `node/${cause.id}/confirm`,
          message: `Unexpected confirmation of \`${cause.id}\` that repeats the check that led there, expected a look from another side.`,
          help: 'Compare it with its sister, read it out of the board or with its neighbour off, or change it for a good one and back.',
        };
      }
    },
  },
  {
    id: 'proof-runs',
    group: 'substance',
    says: 'A proof runs the unit: a reading with power on, or minutes, starts, keys, pages of use.',
    why: 'A part that reads well proves itself. Whether the unit is repaired only the unit tells.',
    wrong: '<Prove minutes="3">Look at it again.</Prove>',
    right: '<Prove minutes="3">Put it back, use it for an hour and read again.</Prove>',
    *findInTree({ tree, library }) {
      for (const cause of tree.nodes) {
        if (cause.kind !== 'cause' || cause.prove === undefined) continue;
        if (liveReadings({ ...cause, confirm: undefined }, library).length > 0) continue;
        if (runs.test(listParagraphs(cause.prove.prose).join(' '))) continue;
        yield {
          key: `node/${cause.id}/prove`,
          message: `Unexpected proof of \`${cause.id}\` in which the unit never runs, expected starts, minutes or a use of it.`,
          help: 'Say how long it is used, or how often it is started, with someone present.',
        };
      }
    },
  },
  {
    id: 'one-limit',
    group: 'measurement',
    says: 'One quantity at one test point is judged by the same limits in every tree.',
    why: 'The same 4.5 V is healthy on one page and a fault on the next, and nobody can tell which page is right.',
    wrong: '<Target use="rail-loose" point="chip-supply" />',
    right: '<Target use="rail-5v" point="chip-supply" />',
    *findInAll({ trees, library }) {
      const uses = trees.flatMap(({ tree, file }) => usesIn(tree, file));
      for (const [place, use] of uses.entries()) {
        const other = uses.slice(0, place).find((earlier) => isRival(use, earlier, uses, library));
        if (other === undefined) continue;
        yield {
          file: use.file,
          key: use.key,
          message: `Unexpected target \`${use.target}\` at \`${use.point}\`, expected \`${other.target}\`, by which tree \`${other.slug}\` judges the same reading.`,
          help: 'Use one target in both, or a test point of its own where it is another reading.',
          other: { file: other.file, key: other.key, says: 'the other limits' },
        };
      }
    },
  },
];

/** An answer that tells of what was not done or cannot be told. */
const nothingSaid =
  /\b(?:(?:not|never|un)[ -]?(?:tried|looked at|measured|counted|done)|(?:I )?(?:cannot|could not|can't) (?:\w+ )?(?:tell|say|count|measure|look|be done|see|try|do)\b|nothing here can|(?:have|I have) (?:none|no \w+)|no (?:figure|spare|scope|meter|good one|second one|such lamp)|do not know|don't know|(?:not|un)[ -]?sure|skipped)/i;
const judging = /^(?:follows|stays|both-bad)$/;

/** Where it is mixed with an answer that judges, or leads to a cause by itself. A look that chooses the kind of unit may be in doubt. */
function isVerdictOnNothing(check: Check, { when, says = '' }: Outcome, end: TreeNode): boolean {
  const words = says.replace(/[’‘]/g, "'");
  if (end.kind === 'hand-over' && !isHealthyEnd(end)) return false;
  const isNothing = nothingSaid.test(words) || when.some((word) => nothingSaid.test(word.replaceAll('-', ' ')));
  if (!isNothing) return false;
  const isJudged = end.kind === 'cause' || end.kind === 'elsewhere';
  const isKind =
    check.target === undefined && check.swap === undefined && check.instruments.every((family) => family === 'eyes');
  const isMixed = / or /.test(words) && !nothingSaid.test(words.split(' or ')[0] ?? '');
  return (
    isJudged ||
    (isMixed && !isKind && (when.length > 1 || !nothingSaid.test(when[0]?.replaceAll('-', ' ') ?? ''))) ||
    when.some((word) => judging.test(word) && !isMixed)
  );
}

const wantsSpare =
  /\b(?:(?:no|without an?|have no|have none|cannot get an?) ?(?:spare|second|other|good|known-good|such|scope|meter|swap)?|not tried)\b/i;
const asIf = /\b(?:as if|treat (?:it|this) as|take it (?:as|that)|count (?:it|this) as|assume)\b/i;

const skipping = {
  act: /\b(?:skip (?:this|it|the)|leave (?:this check|it) out|pass (?:this|it) over|go on (?:without|to the next|with the next)|miss this (?:check|step) out)\b/,
};
const leftOut = /\b(?:none|no|not|without|skip\w*|neither|cannot|nowhere|nothing)\b/i;

interface Span {
  readonly from: number;
  readonly to: number;
  readonly base: string;
  readonly text: string;
}

/** Words of two neighbouring limits with nothing between, where every answer carries a figure of one unit. */
function gapBetween(outcomes: readonly Outcome[]): string | undefined {
  const spans = outcomes.map(({ says = '' }) => spanOf(says));
  const known = spans.filter((span) => span !== undefined);
  if (known.length < 2 || known.length < spans.length || new Set(known.map(({ base }) => base)).size > 1)
    return undefined;
  const sorted = known.toSorted((one, other) => one.from - other.from);
  let reached = sorted[0];
  for (const span of sorted.slice(1)) {
    if (reached !== undefined && span.from > reached.to * 1.001 + 1e-12) return `${reached.text} and ${span.text}`;
    if (reached === undefined || span.to > reached.to) reached = span;
  }
  return undefined;
}

function spanOf(says: string): Span | undefined {
  const quantities = findQuantities(says);
  const [quantity] = quantities;
  // "Too high on both, or above 5.5 V" tells of more than the figure.
  if (quantity === undefined || quantities.length > 1 || says.includes(',')) return undefined;
  const scale = 10 ** quantity.unit.exponent;
  const before = says.slice(0, quantity.index);
  const after = says.slice(quantity.index + quantity.text.length);
  const value = quantity.from * scale;
  const place = { base: quantity.unit.base, text: quantity.text };
  if (quantity.to !== undefined) return { from: value, to: quantity.to * scale, ...place };
  if (
    /\b(?:below|under|less than|at most|up to)(?: about)? $/i.test(before) ||
    /^ or (?:less|lower|below)\b/i.test(after)
  )
    return { from: Number.NEGATIVE_INFINITY, to: value, ...place };
  if (
    /\b(?:above|over|more than|at least|from)(?: about)? $/i.test(before) ||
    /^ (?:or more|or higher|or above|and more|and up)\b/i.test(after)
  )
    return { from: value, to: Number.POSITIVE_INFINITY, ...place };
  return undefined;
}

/** Nothing where the end is met by its own readings; else where the roads part from them. */
function blockedRoads(
  tree: FaultTree,
  end: string,
  shows: Readonly<Record<string, readonly string[]>>,
): string | undefined {
  const isShown = ({ id }: TreeNode, { words }: Link): boolean =>
    shows[id] === undefined || words.some((word) => shows[id]?.includes(word));
  const reached = reachableFromStart(tree, isShown);
  if (reached.has(end)) return undefined;
  return [...reached]
    .flatMap((id) => findNode(tree, id) ?? [])
    .filter((node) => linksFrom(node).some((link) => !isShown(node, link)))
    .map(({ id }) => `${id}=${shows[id]?.join('|') ?? ''}`)
    .join(', ');
}

const failed = /\b(?:dead|failed|open|shorted|weak|tired|faulty|worn|bad|oscillates|defective|gone)\b/i;

/** The check that read the output of the very thing that a cause blames as right, and that every road to it passes so. */
function clearedOutput(tree: FaultTree, { id, title }: Cause): string | undefined {
  if (!failed.test(title)) return undefined;
  const thing =
    title
      .toLowerCase()
      .split(/\s/)
      .find((word) => /^[a-z]{4,}$/.test(word)) ?? '';
  return tree.nodes.find((check) => {
    if (check.kind !== 'check' || !check.outcomes.some(({ when }) => when.includes('in'))) return false;
    const { point = '' } = check.target ?? {};
    if (!point.startsWith(`${thing}-`) || !/-(?:out|output)$/.test(point)) return false;
    const isReachedBy = (isIn: boolean): boolean =>
      reachableFromStart(tree, (node, { words }) => node.id !== check.id || words.includes('in') === isIn).has(id);
    return isReachedBy(true) && !isReachedBy(false);
  })?.id;
}

function repeatsItsRoad(tree: FaultTree, cause: Cause): boolean {
  const own = cause.confirm?.targets ?? [];
  const from = linksTo(tree, cause.id).map((link) => findNode(tree, link.from));
  return (
    own.length > 0 &&
    from.length > 0 &&
    own.every(({ target, point }) =>
      from.every((check) => check?.kind === 'check' && check.target?.target === target && check.target.point === point),
    )
  );
}

const adds =
  /\b(?:then|against|compar\w+|swap\w*|good|another|other|second|sisters?|cold|warm|add up|back to|brown|changes|alone|free|lifted)\b/i;

const runs =
  /\b(?:starts?|started|use|uses|used|plays?|playing|run|runs|running|works?|typing|types?|keys?|power|plug(?:ged)? in|switch(?:ed)? on|minutes?|hours?|times|turned|volume|pages?|end to end|directory|bench supply|tests?|picture|load|direct)\b/i;

interface PlacedUse {
  readonly slug: string;
  readonly file: string;
  readonly key: string;
  readonly target: string;
  readonly point: string;
}

/** The targets of a tree that are read at a test point, each pair once. */
function usesIn(tree: FaultTree, file: string): readonly PlacedUse[] {
  const uses = tree.nodes.flatMap((node): readonly (readonly [TargetUse, string])[] => {
    const key = `node/${node.id}`;
    if (node.kind === 'check') return node.target === undefined ? [] : [[node.target, key]];
    if (node.kind === 'path')
      return node.stages.flatMap(({ id, target, point }) =>
        target === undefined ? [] : [[{ target, point }, `${key}/stage/${id}`] as const],
      );
    if (node.kind !== 'cause') return [];
    return [...(node.confirm?.targets ?? []), ...(node.prove?.targets ?? [])].map((use) => [use, key] as const);
  });
  const placed = uses.flatMap(([{ target, point }, key]) =>
    point === undefined ? [] : [{ slug: tree.slug, file, key, target, point }],
  );
  return placed.filter(
    (use, index) => placed.findIndex(({ target, point }) => target === use.target && point === use.point) === index,
  );
}

/** Whether two trees judge one reading by limits that are not the same. A tree that has both has said what parts them. */
function isRival(use: PlacedUse, other: PlacedUse, uses: readonly PlacedUse[], { targets }: Library): boolean {
  if (use.slug === other.slug || use.point !== other.point || use.target === other.target) return false;
  const [one, two] = [targets.get(use.target), targets.get(other.target)];
  if (one === undefined || two === undefined || readingOf(one) !== readingOf(two)) return false;
  if (!one.instruments.some((family) => two.instruments.includes(family))) return false;
  const hasBoth = [use.slug, other.slug].some((slug) =>
    [use.target, other.target].every((target) =>
      uses.some((each) => each.slug === slug && each.point === use.point && each.target === target),
    ),
  );
  return !hasBoth && overlapUnequal(one, two);
}

function readingOf({ quantity, unit, computed, entered }: Target): string {
  return [quantity, unit, computed, ...entered.map((figure) => `${figure.quantity} ${figure.unit}`)].join(' ');
}

function overlapUnequal(one: Target, two: Target): boolean {
  const [a, b] = [one, two].map(({ bands }) => bands.find(({ name }) => name === 'in'));
  const from = (band: typeof a): number => band?.from ?? Number.NEGATIVE_INFINITY;
  const to = (band: typeof a): number => band?.to ?? Number.POSITIVE_INFINITY;
  const isEqual = from(a) === from(b) && to(a) === to(b);
  return !isEqual && from(a) < to(b) && from(b) < to(a);
}
