import type { Check } from '#core/model/fault-tree.ts';
import type { ElementSpec } from '../attribute-spec.ts';
import type { Element } from '../element.ts';
import { readAttributes } from '../read-attributes.ts';
import { common, leavesChoices, powerChoices } from './common.ts';
import { checkInside, onlyChild, readProse, type ReadContext } from './context.ts';
import { readCautions, readOutcomes, readTargets } from './parts.ts';

export const checkSpec: ElementSpec = {
  name: 'Check',
  says: 'one thing to look at or measure',
  attributes: {
    id: common.id,
    title: common.title,
    minutes: common.minutes,
    power: common.power,
    instrument: common.instrument,
    needs: common.needs,
    after: common.after,
    leaves: { ...common.leaves, says: 'what the check leaves behind; nothing where left out' },
    wait: { kind: 'minutes', says: 'minutes to wait before the reading counts' },
    siblings: { kind: 'count', says: 'number of equal neighbours to read and compare' },
    swap: {
      kind: 'text',
      maxLength: 60,
      says: 'the good part swapped in; outcomes are then follows, stays, and both-bad where both can be bad',
    },
    sign: { kind: 'id', says: 'slug of signs.yaml that answers it unopened; outcomes are then yes and no' },
    was: common.was,
  },
  children: ['Caution', 'Target', 'Outcome'],
  prose: 'required',
};

/** Reads `<Check>`. */
export function readCheck(element: Element, key: string, context: ReadContext): Check {
  checkInside(element, checkSpec, context);
  const attributes = readAttributes(element, checkSpec, key, context.positions, context.report);
  onlyChild(element, 'Target', context);
  const instruments = attributes.words('instrument');
  return {
    kind: 'check',
    id: attributes.text('id'),
    title: attributes.text('title'),
    was: attributes.words('was'),
    minutes: attributes.number('minutes'),
    power: attributes.oneOf('power', powerChoices, 'off'),
    instruments: instruments.length === 0 ? ['eyes'] : instruments,
    needs: attributes.words('needs'),
    after: attributes.words('after'),
    leaves: attributes.oneOf('leaves', leavesChoices, 'nothing'),
    waitMinutes: attributes.number('wait'),
    siblings: attributes.optionalNumber('siblings'),
    swap: attributes.optionalText('swap'),
    sign: attributes.optionalText('sign'),
    cautions: readCautions(element, key, context),
    prose: readProse(element, key, context),
    target: readTargets(element, key, context)[0],
    outcomes: readOutcomes(element, key, context),
  };
}
