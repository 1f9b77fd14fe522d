import type {
  Cause,
  Check,
  Elsewhere,
  FaultTree,
  HandOver,
  Outcome,
  SignalPath,
  Stage,
  TreeNode,
} from '#core/model/fault-tree.ts';
import { say } from '../support/say.ts';

/** Short ways to write a valid fault tree by hand in a test: what is not named takes the format's default. */

export function makeTree(nodes: readonly TreeNode[], change: Partial<FaultTree> = {}): FaultTree {
  return {
    slug: 'sample',
    title: 'Sample tree',
    block: 'power',
    summary: 'A tree made for a test.',
    symptoms: ['nothing happens', 'quite dead', 'no light at all'],
    hazards: [],
    signs: {},
    order: undefined,
    since: '2026-01-05',
    was: [],
    circuits: [],
    computed: {},
    nodes,
    ...change,
  };
}

/** `outcomes` maps the words, separated by spaces, to the node they lead to. */
export function makeCheck(
  id: string,
  outcomes: Readonly<Record<string, string>>,
  change: Partial<Omit<Check, 'id' | 'kind'>> = {},
): Check {
  return {
    kind: 'check',
    id,
    title: `Is ${id} as it should be?`,
    was: [],
    cautions: [],
    prose: say('Look.'),
    minutes: 2,
    power: 'off',
    instruments: ['eyes'],
    needs: [],
    after: [],
    leaves: 'nothing',
    waitMinutes: 0,
    point: undefined,
    siblings: undefined,
    swap: undefined,
    sign: undefined,
    target: undefined,
    outcomes: Object.entries(outcomes).map(([when, to]): Outcome => ({
      when: when.split(' '),
      to,
      says: undefined,
      figure: undefined,
      saysBefore: undefined,
      saysAfter: undefined,
      without: [],
      supply: [],
    })),
    ...change,
  };
}

/** `stages` maps each stage's title to its fault, in order. */
export function makePath(
  id: string,
  stages: Readonly<Record<string, string>>,
  good: string,
  change: Partial<Omit<SignalPath, 'id' | 'kind'>> = {},
): SignalPath {
  const titles = Object.keys(stages);
  return {
    kind: 'path',
    id,
    title: `Follow ${id}`,
    was: [],
    cautions: [],
    prose: say('Follow the signal.'),
    power: 'on',
    needs: [],
    after: [],
    instruments: ['oscilloscope'],
    stages: Object.entries(stages).map(([title, fault], index): Stage => ({
      id: `stage-${index}`,
      title,
      target: undefined,
      point: undefined,
      minutes: 1,
      fault,
      from: index === 0 || titles[index - 1] === undefined ? [] : [`stage-${index - 1}`],
      says: undefined,
    })),
    good,
    ...change,
  };
}

export function makeCause(id: string, change: Partial<Omit<Cause, 'id' | 'kind'>> = {}): Cause {
  return {
    kind: 'cause',
    id,
    title: `The part ${id} failed`,
    was: [],
    cautions: [],
    prose: say('It wears out.'),
    chance: 'common',
    lies: 'unit',
    brings: [],
    shows: {},
    confirm: { prose: say('Measure it.'), targets: [] },
    repair: {
      prose: say('Replace it.'),
      targets: [],
      minutes: 15,
      needs: [],
      leaves: 'damage',
      success: 'usual',
      record: say('Photograph both sides.'),
      substitutes: [],
    },
    prove: { prose: say('Measure it again.'), targets: [], minutes: 10 },
    ...change,
  };
}

export function makeElsewhere(id: string, change: Partial<Omit<Elsewhere, 'id' | 'kind'>> = {}): Elsewhere {
  return {
    kind: 'elsewhere',
    id,
    title: `Go on with ${id}`,
    was: [],
    cautions: [],
    prose: [],
    tree: 'other-tree',
    node: undefined,
    chance: 'occasional',
    shows: {},
    ...change,
  };
}

export function makeHandOver(id: string, change: Partial<Omit<HandOver, 'id' | 'kind'>> = {}): HandOver {
  return {
    kind: 'hand-over',
    id,
    title: `Hand ${id} over`,
    was: [],
    cautions: [],
    prose: say('Leave it unplugged.'),
    because: 'mains',
    chance: 'rare',
    shows: {},
    ...change,
  };
}
