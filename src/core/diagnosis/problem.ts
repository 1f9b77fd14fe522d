import * as v from 'valibot';

// The format of a problem file, from which public/data/schema/plan-problem.json is made; a tree gives a problem of the same shape.
// Messages say what was expected: readProblem puts what was found in front.

const id = v.pipe(v.string('a text in quotes that is not empty'), v.nonEmpty('a text in quotes that is not empty'));

/** Beyond these counts a file is a mistake rather than a unit on a bench. */
const mostItems = 1000;
const mostOutcomes = 32;
/** A set-up mask has one bit for each set-up, and a mask is a 32-bit number. */
const mostSetups = 30;
/** Two thousand years: more minutes are a slip of the keyboard, and would drown the rest in rounding. */
const mostMinutes = 1e9;
/** Only ratios of weights matter, so the scale is free; this keeps their sum within what a number holds. */
const mostWeight = 1e100;
/** Minutes charged for stopping with the fault still there, where nothing else is said. */
const defaultGiveUpMinutes = 240;

const numberBetween = (lowest: number, highest: number) => {
  const expected = highest < 1e6 ? `a number from ${lowest} to ${highest}` : `a number of at least ${lowest}`;
  return v.pipe(v.number(expected), v.minValue(lowest, expected), v.maxValue(highest, expected));
};
const listOf = <const Item extends v.GenericSchema>(item: Item, least: number, most: number) =>
  v.pipe(
    v.array(item, 'a list in square brackets'),
    v.minLength(least, `at least ${least}`),
    v.maxLength(most, `at most ${most}; leave out or join what matters least`),
    v.readonly(),
  );
const record = <const Entries extends v.ObjectEntries>(entries: Entries) =>
  v.pipe(v.object(entries, 'an object in braces'), v.readonly());

const minutes = numberBetween(0, mostMinutes);
const weight = v.pipe(
  numberBetween(0, mostWeight),
  v.description('Relative to the others, any scale; at least one above 0.'),
);
const setupIds = v.pipe(v.optional(listOf(id, 0, mostSetups), []), v.description('Ids of the set-ups that it needs.'));
const $schema = v.optional(v.string('the address of a schema'));

const causeSchema = record({
  id,
  weight,
  repairMinutes: v.pipe(
    v.optional(minutes),
    v.description('Left out where nothing can be done about this cause here: only checks and stopping are left.'),
  ),
  repairSuccess: v.pipe(
    v.optional(numberBetween(0, 1), 1),
    v.description('Probability that the repair cures this cause.'),
  ),
  repairSetup: setupIds,
});

const checkSchema = record({
  id,
  minutes,
  setup: setupIds,
  outcomes: listOf(id, 1, mostOutcomes),
  likelihood: v.pipe(
    listOf(listOf(numberBetween(0, 1 + 1e-9), 0, mostOutcomes), 0, mostItems),
    v.description(
      'P(outcome | cause): one row for each cause in order, one number for each outcome. A row sums to 1; one within 0.02 of that is scaled and noted.',
    ),
  ),
});

const setupSchema = v.pipe(
  record({ id, minutes }),
  v.description(
    'Something that several checks or repairs need and that is paid for once: the case open, the unit out.',
  ),
);

const evidenceSchema = record({
  check: v.optional(id),
  outcome: v.pipe(v.optional(id), v.description('How the check came out, beyond doubt.')),
  likelihood: v.pipe(
    v.optional(listOf(numberBetween(0, mostWeight), 1, mostOutcomes)),
    v.description('For a reading in doubt: how well each outcome agrees with it, any scale; not all 0.'),
  ),
  repaired: v.pipe(v.optional(id), v.description('The cause whose repair was tried and did not cure.')),
});

/** A diagnosis problem: what may be wrong, what can be looked at, what can be done about it. */
export const problemSchema = v.pipe(
  record({
    $schema,
    causes: listOf(causeSchema, 1, mostItems),
    checks: v.optional(listOf(checkSchema, 0, mostItems), []),
    setups: v.optional(listOf(setupSchema, 0, mostSetups), []),
    goal: v.picklist(['isolate', 'repair'], '`isolate` or `repair`'),
    proveMinutes: v.pipe(v.optional(minutes, 0), v.description('Added to every repair that is tried.')),
    giveUpMinutes: v.optional(minutes, defaultGiveUpMinutes),
    evidence: v.pipe(
      v.optional(listOf(evidenceSchema, 0, 2 * mostItems), []),
      v.description(
        'What is known already: a check with its outcome or with a likelihood, or a repair. The order has no meaning. Several entries about one check are joined outcome by outcome and count as one measurement.',
      ),
    ),
  }),
  v.title('A diagnosis problem'),
  v.description(
    'Input of the planner: what may be wrong, what can be looked at, what can be done. Minutes are working minutes. A check is done at most once. A set-up is paid for once, when first needed. A repair is tried at most once, costs its minutes and proveMinutes, and cures its cause with repairSuccess. Stopping is possible at any time and charges giveUpMinutes for the probability still open; with the goal isolate the plan stops when no check separates what is left, and giveUpMinutes has no effect.',
  ),
);

/** A signal path with one faulty stage. */
export const pathSchema = v.pipe(
  record({
    $schema,
    stages: listOf(record({ id, weight }), 1, mostItems),
    probes: v.pipe(
      listOf(record({ minutes }), 0, mostItems - 1),
      v.description('One between each stage and the next: one fewer than stages.'),
    ),
    evidence: v.optional(
      listOf(
        record({
          probe: v.pipe(
            numberBetween(0, mostItems),
            v.integer('a whole number'),
            v.description('Between stage `probe` and the next, from 0.'),
          ),
          outcome: v.optional(v.picklist(['good', 'bad'], '`good` or `bad`')),
          likelihood: v.pipe(
            v.optional(listOf(numberBetween(0, mostWeight), 2, 2)),
            v.description('How well a good and a bad signal agree with the reading, any scale; not both 0.'),
          ),
        }),
        0,
        2 * mostItems,
      ),
      [],
    ),
  }),
  v.title('A signal path'),
  v.description(
    'Stages in a row, one of them faulty; a good probe clears every stage before it, a bad one every stage after it.',
  ),
);

export type ProblemFile = v.InferOutput<typeof problemSchema>;
export type PathFile = v.InferOutput<typeof pathSchema>;

export type ProblemCause = v.InferOutput<typeof causeSchema>;
export type ProblemCheck = v.InferOutput<typeof checkSchema>;
export type ProblemSetup = v.InferOutput<typeof setupSchema>;
/** `isolate`: until no check separates what is left. `repair`: until a repair is proven, or stopping is cheaper. */
export type Goal = ProblemFile['goal'];

/** A problem as it is planned, from a file or from a tree: sound, with its evidence sorted by kind. */
export interface DiagnosisProblem extends Omit<ProblemFile, 'evidence' | '$schema'> {
  readonly kind: 'problem';
  readonly evidence: readonly Evidence[];
}

/** Something that is known already. The order of several pieces of evidence has no meaning. */
export type Evidence =
  /** A check that came out one way, beyond doubt. */
  | { readonly kind: 'outcome'; readonly check: string; readonly outcome: string }
  /** A reading in doubt: how well each outcome of the check agrees with it, in any scale (virtual evidence). */
  | { readonly kind: 'reading'; readonly check: string; readonly likelihood: readonly number[] }
  /** A repair that was tried and did not cure. */
  | { readonly kind: 'repaired'; readonly cause: string };

/** A signal path as it is planned; probe `i` is between stage `i` and stage `i + 1`, from 0. */
export interface PathProblem extends Omit<PathFile, 'evidence' | '$schema'> {
  readonly kind: 'path';
  readonly evidence: readonly PathEvidence[];
}

/** What a probe showed: how well a good and a bad signal agree with it, in any scale; [1, 0] is good beyond doubt. */
export interface PathEvidence {
  readonly probe: number;
  readonly likelihood: readonly [good: number, bad: number];
}
