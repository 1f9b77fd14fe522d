import { emptyThesaurus, type Concept, type NextDoor, type Thesaurus } from '#core/model/thesaurus.ts';

function concept(words: readonly string[], rest: Partial<Concept> = {}): Concept {
  return { words, gone: [], fine: [], near: [], together: [], ours: false, trouble: false, ...rest };
}

/** A thesaurus small enough to be read at a glance. */
export const smallThesaurus: Thesaurus = {
  ...emptyThesaurus,
  concepts: {
    life: concept(['life'], { gone: ['dead', 'nothing happens'], together: ['computer gone'] }),
    computer: concept(['computer'], { ours: true }),
    picture: concept(['picture', 'screen'], { gone: ['blank'] }),
    sound: concept(['sound', 'music'], { gone: ['silent'], fine: ['plays'] }),
    speaker: concept(['speaker'], { near: ['sound'] }),
    lamp: concept(['lamp', 'light'], { fine: ['lights up'] }),
    supply: concept(['supply', 'rail']),
    minus: concept(['minus']),
    'minus-rail': concept(['7905'], { together: ['minus supply'] }),
    clock: concept(['clock', 'square wave']),
    regulator: concept(['regulator', '78*']),
    'rail-5v': concept(['five volts']),
    low: concept(['low']),
  },
  absence: {
    before: ['no', 'without', 'not', 'never', 'missing', 'nothing'],
    after: ['missing', 'dead', 'gone', 'nothing'],
  },
  fine: ['ok', 'works', 'working'],
  circumstance: ['when', 'near'],
  boundary: ['but', 'and'],
  ordinary: ['the', 'is', 'on', 'from', 'my'],
  amounts: [
    {
      quantity: 'voltage',
      from: 4.75,
      to: 5.25,
      means: ['rail-5v'],
      absent: false,
      healthy: true,
      target: ['rail-5v-at-chip'],
    },
    {
      quantity: 'voltage',
      from: 3,
      to: 4.75,
      means: ['rail-5v', 'low'],
      absent: false,
      healthy: false,
      target: ['rail-5v-at-chip'],
    },
  ],
  signs: {},
};

export const smallNextDoor: readonly NextDoor[] = [
  {
    slug: 'oven',
    title: 'Oven',
    words: ['oven'],
    hints: ['turntable'],
    concepts: [],
    says: 'Not here.',
    isLethal: true,
    isApart: false,
    caution: 'mains',
  },
];
