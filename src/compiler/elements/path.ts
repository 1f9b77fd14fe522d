import type { SignalPath, Stage } from '#core/model/fault-tree.ts';
import type { ElementSpec } from '../attribute-spec.ts';
import type { Element } from '../element.ts';
import { readAttributes } from '../read-attributes.ts';
import { common, powerChoices } from './common.ts';
import { checkInside, childrenNamed, readProse, type ReadContext } from './context.ts';
import { readCautions } from './parts.ts';

export const pathSpec: ElementSpec = {
  name: 'Path',
  says: 'a chain of stages that a signal passes',
  attributes: {
    id: common.id,
    title: common.title,
    power: common.power,
    instrument: common.instrument,
    needs: common.needs,
    after: common.after,
    good: { kind: 'id', required: true, says: 'node to go to when the last stage is good' },
    was: common.was,
  },
  children: ['Caution', 'Stage'],
  prose: 'required',
};

export const stageSpec: ElementSpec = {
  name: 'Stage',
  says: 'one place on the path where the signal can be looked at',
  attributes: {
    id: { ...common.id, says: 'name of the stage, unique in its path' },
    title: common.title,
    target: { kind: 'id', says: 'slug of the target a good signal meets here' },
    point: { kind: 'id', says: 'slug of the test point' },
    minutes: common.minutes,
    fault: { kind: 'id', required: true, says: 'the cause or jump between this stage and the one before' },
    from: { kind: 'ids', says: 'stages before this one, where the path joins or divides' },
    says: { kind: 'text', maxLength: 160, says: 'where to put the probe' },
  },
  children: [],
  prose: 'none',
};

/** Reads `<Path>` with its `<Stage>`s; position keys `<key>/stage/<id>`. */
export function readPath(element: Element, key: string, context: ReadContext): SignalPath {
  checkInside(element, pathSpec, context);
  const attributes = readAttributes(element, pathSpec, key, context.positions, context.report);
  const instruments = attributes.words('instrument');
  return {
    kind: 'path',
    id: attributes.text('id'),
    title: attributes.text('title'),
    was: attributes.words('was'),
    power: attributes.oneOf('power', powerChoices, 'off'),
    instruments: instruments.length === 0 ? ['eyes'] : instruments,
    needs: attributes.words('needs'),
    after: attributes.words('after'),
    cautions: readCautions(element, key, context),
    prose: readProse(element, key, context),
    stages: readStages(element, key, context),
    good: attributes.text('good'),
  };
}

function readStages(element: Element, key: string, context: ReadContext): readonly Stage[] {
  let before: readonly string[] = [];
  return childrenNamed(element, 'Stage').map((child) => {
    const id = child.attributes.get('id')?.value.trim() ?? '';
    checkInside(child, stageSpec, context);
    const attributes = readAttributes(child, stageSpec, `${key}/stage/${id}`, context.positions, context.report);
    const from = attributes.words('from');
    const stage = {
      id,
      title: attributes.text('title'),
      target: attributes.optionalText('target'),
      point: attributes.optionalText('point'),
      minutes: attributes.number('minutes'),
      fault: attributes.text('fault'),
      from: from.length === 0 ? before : from,
      says: attributes.optionalText('says'),
    };
    before = [id];
    return stage;
  });
}
