import type { ElementSpec } from '../attribute-spec.ts';
import type { Element } from '../element.ts';
import { readAttributes } from '../read-attributes.ts';
import type { Outcome, Substitute, TargetUse } from '#core/model/fault-tree.ts';
import { checkInside, childrenNamed, readProse, type ReadContext } from './context.ts';

export const targetSpec: ElementSpec = {
  name: 'Target',
  says: 'what a healthy circuit reads here',
  attributes: {
    use: { kind: 'id', required: true, says: 'slug of a target' },
    point: { kind: 'id', says: 'slug of a test point' },
  },
  children: [],
  prose: 'none',
};

export const outcomeSpec: ElementSpec = {
  name: 'Outcome',
  says: 'where an answer leads',
  attributes: {
    when: { kind: 'words', required: true, says: 'bands of the target, or your own words' },
    to: { kind: 'id', required: true, says: 'a node of this tree' },
    says: { kind: 'text', maxLength: 60, says: 'what the button says' },
  },
  children: [],
  prose: 'none',
};

export const cautionSpec: ElementSpec = {
  name: 'Caution',
  says: 'a caution that must be read before the step',
  attributes: { use: { kind: 'id', required: true, says: 'slug of a caution' } },
  children: [],
  prose: 'none',
};

export const substituteSpec: ElementSpec = {
  name: 'Substitute',
  says: 'what a new part must match, and how to test it before it is fitted',
  attributes: {
    role: { kind: 'id', required: true, says: 'what the part does there, one of the roles' },
    part: { kind: 'text', maxLength: 40, says: 'part number that many makers share' },
    value: { kind: 'text', maxLength: 40, says: 'value with its unit' },
    voltage: { kind: 'text', maxLength: 40, says: 'rated voltage' },
    test: { kind: 'text', required: true, maxLength: 240, says: 'how to test the new part before it goes in' },
  },
  children: [],
  prose: 'allowed',
};

/** Reads `<Target>`s; position keys `<key>/target/<n>`. */
export function readTargets(element: Element, key: string, context: ReadContext): readonly TargetUse[] {
  return childrenNamed(element, 'Target').map((child, index) => {
    checkInside(child, targetSpec, context);
    const attributes = readAttributes(child, targetSpec, `${key}/target/${index}`, context.positions, context.report);
    return { target: attributes.text('use'), point: attributes.optionalText('point') };
  });
}

/** Reads `<Outcome>`s; position keys `<key>/outcome/<n>`. */
export function readOutcomes(element: Element, key: string, context: ReadContext): readonly Outcome[] {
  return childrenNamed(element, 'Outcome').map((child, index) => {
    checkInside(child, outcomeSpec, context);
    const attributes = readAttributes(child, outcomeSpec, `${key}/outcome/${index}`, context.positions, context.report);
    return { when: attributes.words('when'), to: attributes.text('to'), says: attributes.optionalText('says') };
  });
}

/** Reads `<Caution>`s; position keys `<key>/caution/<n>`. */
export function readCautions(element: Element, key: string, context: ReadContext): readonly string[] {
  return childrenNamed(element, 'Caution').map((child, index) => {
    checkInside(child, cautionSpec, context);
    return readAttributes(child, cautionSpec, `${key}/caution/${index}`, context.positions, context.report).text('use');
  });
}

/** Reads `<Substitute>`s; position keys `<key>/substitute/<n>`. */
export function readSubstitutes(element: Element, key: string, context: ReadContext): readonly Substitute[] {
  return childrenNamed(element, 'Substitute').map((child, index) => {
    const childKey = `${key}/substitute/${index}`;
    checkInside(child, substituteSpec, context);
    const attributes = readAttributes(child, substituteSpec, childKey, context.positions, context.report);
    return {
      role: attributes.text('role'),
      part: attributes.optionalText('part'),
      value: attributes.optionalText('value'),
      voltage: attributes.optionalText('voltage'),
      test: attributes.text('test'),
      prose: readProse(child, childKey, context),
    };
  });
}
