import type { AttributeSpec } from '../attribute-spec.ts';

/** Attributes that several nodes share, each described once. */
export const common = {
  id: { kind: 'id', required: true, says: 'name of the node in its address, unique in the tree' },
  title: { kind: 'text', required: true, maxLength: 60, says: 'heading of the page' },
  was: {
    kind: 'former',
    says: 'earlier ids of this node, which keep answering; tree/id where it came from another tree',
  },
  power: { kind: 'one-of', required: true, oneOf: ['off', 'on'], says: 'whether the unit is powered for this step' },
  needs: { kind: 'ids', says: 'set-ups that must hold, slugs of setups.yaml' },
  after: { kind: 'ids', says: 'checks that must have been done before' },
  instrument: {
    kind: 'instruments',
    says: 'families of instruments, the better one first: "oscilloscope or logic-probe"',
  },
  minutes: { kind: 'minutes', required: true, says: 'minutes it takes once set up' },
  leaves: { kind: 'one-of', oneOf: ['nothing', 'mark', 'damage'], says: 'what it leaves behind' },
  chance: {
    kind: 'one-of',
    required: true,
    oneOf: ['common', 'occasional', 'rare'],
    says: 'how often it is the reason, by experience',
  },
  shows: { kind: 'shows', says: 'what this makes other checks read: check=outcome|outcome' },
} as const satisfies Record<string, AttributeSpec>;

export const leavesChoices = ['nothing', 'mark', 'damage'] as const;
export const chanceChoices = ['common', 'occasional', 'rare'] as const;
export const powerChoices = ['off', 'on'] as const;
