import { supplyKinds } from '#core/model/supply.ts';
import type { NameKind } from './position.ts';

/** What an attribute may hold. The element reference is made from these tables, and the readers read by them. */
export interface AttributeSpec {
  readonly kind: 'id' | 'ids' | 'former' | 'text' | 'minutes' | 'count' | 'one-of' | 'words' | 'shows' | 'place';
  readonly says: string;
  readonly required?: boolean;
  readonly oneOf?: readonly string[];
  readonly maxLength?: number;
  /** What its words name. */
  readonly refers?: NameKind;
}

export interface ElementSpec {
  readonly name: string;
  readonly says: string;
  readonly attributes: Readonly<Record<string, AttributeSpec>>;
  /** Elements that may stand inside, by name. */
  readonly children: readonly string[];
  readonly prose: 'required' | 'allowed' | 'none';
}

const id = { kind: 'id', required: true, says: 'name of the node in its address, unique in the tree' } as const;
const title = { kind: 'text', required: true, maxLength: 60, says: 'heading of the page' } as const;
const minutes = { kind: 'minutes', required: true, says: 'minutes it takes once set up' } as const;
const was = {
  kind: 'former',
  says: 'earlier ids of this node, which keep answering; tree/id where it came from another tree',
} as const;
const power = {
  kind: 'one-of',
  required: true,
  oneOf: ['off', 'on', 'accessory'],
  says: 'whether the unit is powered for this step; accessory: it is off, and what is beside it runs (bench supply, player, tester)',
} as const;
const needs = { kind: 'ids', refers: 'setup', says: 'set-ups that must hold, slugs of setups.yaml' } as const;
const after = { kind: 'ids', refers: 'check', says: 'checks that must have been done before' } as const;
const instrument = {
  kind: 'ids',
  refers: 'instrument',
  says: 'families of instruments, the better one first: "oscilloscope or logic-probe"',
} as const;
const leaves = { kind: 'one-of', oneOf: ['nothing', 'mark', 'damage'], says: 'what it leaves behind' } as const;
const chance = {
  kind: 'one-of',
  oneOf: ['common', 'occasional', 'rare'],
  says: 'how often it is the reason, by experience',
} as const;
const shows = { kind: 'shows', says: 'what this makes other checks read: check=outcome|outcome' } as const;

export const checkSpec = {
  name: 'Check',
  says: 'one thing to look at or measure',
  attributes: {
    id,
    title,
    minutes,
    power,
    instrument,
    needs,
    after,
    leaves: { ...leaves, says: 'what the check leaves behind; nothing where left out' },
    wait: { kind: 'minutes', says: 'minutes to wait before the reading counts' },
    point: { kind: 'id', refers: 'point', says: 'slug of the test point that it looks at, where it has no target' },
    siblings: { kind: 'count', says: 'number of equal neighbours to read and compare' },
    swap: {
      kind: 'text',
      maxLength: 60,
      says: 'the good part swapped in; outcomes are then follows, stays, and both-bad where both can be bad',
    },
    sign: {
      kind: 'id',
      refers: 'sign',
      says: 'slug of signs.yaml that answers it unopened; outcomes are then yes and no',
    },
    was,
  },
  children: ['Caution', 'Target', 'Outcome'],
  prose: 'required',
} as const satisfies ElementSpec;

export const pathSpec = {
  name: 'Path',
  says: 'a chain of stages that a signal passes',
  attributes: {
    id,
    title,
    power,
    instrument,
    needs,
    after,
    good: { kind: 'id', required: true, refers: 'node', says: 'node to go to when the last stage is good' },
    was,
  },
  children: ['Caution', 'Stage'],
  prose: 'required',
} as const satisfies ElementSpec;

export const stageSpec = {
  name: 'Stage',
  says: 'one place on the path where the signal can be looked at',
  attributes: {
    id: { ...id, says: 'name of the stage, unique in its path' },
    title,
    target: { kind: 'id', refers: 'target', says: 'slug of the target a good signal meets here' },
    point: { kind: 'id', refers: 'point', says: 'slug of the test point' },
    minutes,
    fault: {
      kind: 'id',
      required: true,
      refers: 'end',
      says: 'the cause or jump between this stage and the one before',
    },
    from: { kind: 'ids', refers: 'stage', says: 'stages before this one, where the path joins or divides' },
    says: { kind: 'text', maxLength: 160, says: 'where to put the probe' },
  },
  children: [],
  prose: 'none',
} as const satisfies ElementSpec;

export const causeSpec = {
  name: 'Cause',
  says: 'a part or condition that explains the symptom',
  attributes: {
    id,
    title,
    chance: { ...chance, required: true },
    lies: {
      kind: 'one-of',
      oneOf: ['unit', 'accessory', 'medium'],
      says: 'in the unit, in an accessory, or in a medium; unit where left out',
    },
    brings: { kind: 'ids', refers: 'end', says: 'causes that this one often brings along' },
    shows,
    was,
  },
  children: ['Caution', 'Confirm', 'Repair', 'Prove'],
  prose: 'required',
} as const satisfies ElementSpec;

export const elsewhereSpec = {
  name: 'Elsewhere',
  says: 'another tree that explains the symptom',
  attributes: {
    id,
    title,
    tree: { kind: 'id', required: true, refers: 'tree', says: 'slug of the tree that opens' },
    node: { kind: 'id', says: 'node of that tree to open at; its start where left out' },
    chance,
    shows,
    was,
  },
  children: ['Caution'],
  prose: 'required',
} as const satisfies ElementSpec;

export const handOverSpec = {
  name: 'HandOver',
  says: 'an honest end that is not a repair',
  attributes: {
    id,
    title,
    because: {
      kind: 'one-of',
      required: true,
      oneOf: ['mains', 'picture-tube', 'switch-mode', 'instrument', 'licensed', 'not-a-fault', 'beyond-this-page'],
      says: 'why the page stops here',
    },
    chance,
    shows,
    was,
  },
  children: ['Caution'],
  prose: 'required',
} as const satisfies ElementSpec;

export const targetSpec = {
  name: 'Target',
  says: 'what a healthy circuit reads here',
  attributes: {
    use: { kind: 'id', required: true, refers: 'target', says: 'slug of a target' },
    point: { kind: 'id', refers: 'point', says: 'slug of a test point' },
  },
  children: [],
  prose: 'none',
} as const satisfies ElementSpec;

export const outcomeSpec = {
  name: 'Outcome',
  says: 'where an answer leads',
  attributes: {
    when: { kind: 'words', required: true, says: 'bands of the target, or your own words' },
    to: { kind: 'id', required: true, refers: 'node', says: 'a node of this tree' },
    says: { kind: 'text', maxLength: 60, says: 'what the button says' },
    figure: { kind: 'id', refers: 'figure', says: 'slug of a picture that the button shows' },
    'says-before': {
      kind: 'place',
      refers: 'place',
      says: 'path/stage that the fault must lie before, whatever it is: the signal is bad there',
    },
    'says-after': {
      kind: 'place',
      refers: 'place',
      says: 'path/stage that the fault must lie after, whatever it is: the signal is good up to there',
    },
    without: {
      kind: 'words',
      refers: 'instrument',
      says: 'families of instruments that this answer says are not at hand: no check with them is suggested afterwards',
    },
    supply: {
      kind: 'words',
      oneOf: supplyKinds,
      says: 'kinds of supply that answer so; a unit whose file names its `supply-kind` shows it beside that answer',
    },
  },
  children: [],
  prose: 'none',
} as const satisfies ElementSpec;

export const cautionSpec = {
  name: 'Caution',
  says: 'a caution that must be read before the step',
  attributes: { use: { kind: 'id', required: true, refers: 'caution', says: 'slug of a caution' } },
  children: [],
  prose: 'none',
} as const satisfies ElementSpec;

export const confirmSpec = {
  name: 'Confirm',
  says: 'how to be sure before anything is done',
  attributes: {},
  children: ['Target'],
  prose: 'required',
} as const satisfies ElementSpec;

export const repairSpec = {
  name: 'Repair',
  says: 'what to do',
  attributes: {
    minutes,
    needs,
    leaves: { ...leaves, required: true },
    success: {
      kind: 'one-of',
      required: true,
      oneOf: ['likely', 'usual', 'doubtful'],
      says: 'how surely the repair cures this cause',
    },
  },
  children: ['Record', 'Substitute', 'Target'],
  prose: 'required',
} as const satisfies ElementSpec;

export const recordSpec = {
  name: 'Record',
  says: 'what to photograph or write down before anything is removed',
  attributes: {},
  children: [],
  prose: 'required',
} as const satisfies ElementSpec;

export const substituteSpec = {
  name: 'Substitute',
  says: 'what a new part must match, and how to test it before it is fitted',
  attributes: {
    role: { kind: 'id', required: true, refers: 'role', says: 'what the part does there, one of the roles' },
    part: { kind: 'text', maxLength: 40, says: 'part number that many makers share' },
    value: { kind: 'text', maxLength: 40, says: 'value with its unit' },
    voltage: { kind: 'text', maxLength: 40, says: 'rated voltage' },
    test: { kind: 'text', required: true, maxLength: 240, says: 'how to test the new part before it goes in' },
  },
  children: [],
  prose: 'allowed',
} as const satisfies ElementSpec;

export const proveSpec = {
  name: 'Prove',
  says: 'how the repair is proved',
  attributes: { minutes },
  children: ['Target'],
  prose: 'required',
} as const satisfies ElementSpec;

/** Every element a tree may hold, nodes first. */
export const elementSpecs: readonly ElementSpec[] = [
  checkSpec,
  pathSpec,
  causeSpec,
  elsewhereSpec,
  handOverSpec,
  targetSpec,
  outcomeSpec,
  cautionSpec,
  stageSpec,
  confirmSpec,
  repairSpec,
  recordSpec,
  substituteSpec,
  proveSpec,
];

export const elementNames: ReadonlySet<string> = new Set(elementSpecs.map(({ name }) => name));
