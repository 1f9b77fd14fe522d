import type { Elsewhere, HandOver } from '#core/model/fault-tree.ts';
import type { ElementSpec } from '../attribute-spec.ts';
import type { Element } from '../element.ts';
import { readAttributes } from '../read-attributes.ts';
import { chanceChoices, common } from './common.ts';
import { checkInside, readProse, type ReadContext } from './context.ts';
import { readCautions } from './parts.ts';

const becauseChoices = [
  'mains',
  'picture-tube',
  'switch-mode',
  'instrument',
  'licensed',
  'not-a-fault',
  'beyond-this-page',
] as const;

export const elsewhereSpec: ElementSpec = {
  name: 'Elsewhere',
  says: 'another tree that explains the symptom',
  attributes: {
    id: common.id,
    title: common.title,
    tree: { kind: 'id', required: true, says: 'slug of the tree that opens' },
    node: { kind: 'id', says: 'node of that tree to open at; its start where left out' },
    chance: { ...common.chance, required: false },
    shows: common.shows,
    was: common.was,
  },
  children: ['Caution'],
  prose: 'required',
};

export const handOverSpec: ElementSpec = {
  name: 'HandOver',
  says: 'an honest end that is not a repair',
  attributes: {
    id: common.id,
    title: common.title,
    because: { kind: 'one-of', required: true, oneOf: becauseChoices, says: 'why the page stops here' },
    chance: { ...common.chance, required: false },
    shows: common.shows,
    was: common.was,
  },
  children: ['Caution'],
  prose: 'required',
};

/** Reads `<Elsewhere>`. */
export function readElsewhere(element: Element, key: string, context: ReadContext): Elsewhere {
  checkInside(element, elsewhereSpec, context);
  const attributes = readAttributes(element, elsewhereSpec, key, context.positions, context.report);
  return {
    kind: 'elsewhere',
    id: attributes.text('id'),
    title: attributes.text('title'),
    was: attributes.words('was'),
    tree: attributes.text('tree'),
    node: attributes.optionalText('node'),
    chance: attributes.oneOf('chance', chanceChoices, 'occasional'),
    shows: attributes.shows('shows'),
    cautions: readCautions(element, key, context),
    prose: readProse(element, key, context),
  };
}

/** Reads `<HandOver>`. */
export function readHandOver(element: Element, key: string, context: ReadContext): HandOver {
  checkInside(element, handOverSpec, context);
  const attributes = readAttributes(element, handOverSpec, key, context.positions, context.report);
  return {
    kind: 'hand-over',
    id: attributes.text('id'),
    title: attributes.text('title'),
    was: attributes.words('was'),
    because: attributes.oneOf('because', becauseChoices, 'beyond-this-page'),
    chance: attributes.oneOf('chance', chanceChoices, 'occasional'),
    shows: attributes.shows('shows'),
    cautions: readCautions(element, key, context),
    prose: readProse(element, key, context),
  };
}
