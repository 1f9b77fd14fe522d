import type { Cause, Part, Prove, Repair } from '#core/model/fault-tree.ts';
import type { ElementSpec } from '../attribute-spec.ts';
import type { Element } from '../element.ts';
import { readAttributes } from '../read-attributes.ts';
import { chanceChoices, common, leavesChoices } from './common.ts';
import { checkInside, childrenNamed, onlyChild, readProse, type ReadContext } from './context.ts';
import { readCautions, readSubstitutes, readTargets } from './parts.ts';

const liesChoices = ['unit', 'accessory', 'medium'] as const;
const successChoices = ['likely', 'usual', 'doubtful'] as const;

export const causeSpec: ElementSpec = {
  name: 'Cause',
  says: 'a part or condition that explains the symptom',
  attributes: {
    id: common.id,
    title: common.title,
    chance: common.chance,
    lies: {
      kind: 'one-of',
      oneOf: liesChoices,
      says: 'in the unit, in an accessory, or in a medium; unit where left out',
    },
    brings: { kind: 'ids', says: 'causes that this one often brings along' },
    shows: common.shows,
    was: common.was,
  },
  children: ['Caution', 'Confirm', 'Repair', 'Prove'],
  prose: 'required',
};

export const confirmSpec: ElementSpec = {
  name: 'Confirm',
  says: 'how to be sure before anything is done',
  attributes: {},
  children: ['Target'],
  prose: 'required',
};

export const repairSpec: ElementSpec = {
  name: 'Repair',
  says: 'what to do',
  attributes: {
    minutes: common.minutes,
    needs: common.needs,
    leaves: { ...common.leaves, required: true },
    success: { kind: 'one-of', required: true, oneOf: successChoices, says: 'how surely the repair cures this cause' },
  },
  children: ['Record', 'Substitute', 'Target'],
  prose: 'required',
};

export const recordSpec: ElementSpec = {
  name: 'Record',
  says: 'what to photograph or write down before anything is removed',
  attributes: {},
  children: [],
  prose: 'required',
};

export const proveSpec: ElementSpec = {
  name: 'Prove',
  says: 'how the repair is proved',
  attributes: { minutes: common.minutes },
  children: ['Target'],
  prose: 'required',
};

/** Reads `<Cause>` with its parts; position keys `<key>/confirm`, `/repair`, `/prove`. */
export function readCause(element: Element, key: string, context: ReadContext): Cause {
  checkInside(element, causeSpec, context);
  const attributes = readAttributes(element, causeSpec, key, context.positions, context.report);
  const confirm = onlyChild(element, 'Confirm', context);
  const repair = onlyChild(element, 'Repair', context);
  const prove = onlyChild(element, 'Prove', context);
  return {
    kind: 'cause',
    id: attributes.text('id'),
    title: attributes.text('title'),
    was: attributes.words('was'),
    chance: attributes.oneOf('chance', chanceChoices, 'rare'),
    lies: attributes.oneOf('lies', liesChoices, 'unit'),
    brings: attributes.words('brings'),
    shows: attributes.shows('shows'),
    cautions: readCautions(element, key, context),
    prose: readProse(element, key, context),
    confirm: confirm === undefined ? undefined : readPart(confirm, confirmSpec, `${key}/confirm`, context),
    repair: repair === undefined ? undefined : readRepair(repair, `${key}/repair`, context),
    prove: prove === undefined ? undefined : readProve(prove, `${key}/prove`, context),
  };
}

function readPart(element: Element, spec: ElementSpec, key: string, context: ReadContext): Part {
  checkInside(element, spec, context);
  context.positions.set(key, element.position);
  return { prose: readProse(element, key, context), targets: readTargets(element, key, context) };
}

function readRepair(element: Element, key: string, context: ReadContext): Repair {
  const attributes = readAttributes(element, repairSpec, key, context.positions, context.report);
  const records = childrenNamed(element, 'Record');
  for (const record of records) checkInside(record, recordSpec, context);
  return {
    ...readPart(element, repairSpec, key, context),
    minutes: attributes.number('minutes'),
    needs: attributes.words('needs'),
    leaves: attributes.oneOf('leaves', leavesChoices, 'nothing'),
    success: attributes.oneOf('success', successChoices, 'usual'),
    record: records.flatMap((record) => readProse(record, `${key}/record`, context)),
    substitutes: readSubstitutes(element, key, context),
  };
}

function readProve(element: Element, key: string, context: ReadContext): Prove {
  const attributes = readAttributes(element, proveSpec, key, context.positions, context.report);
  return { ...readPart(element, proveSpec, key, context), minutes: attributes.number('minutes') };
}
