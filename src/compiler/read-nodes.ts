import type { Part, Stage, TargetUse, TreeNode } from '#core/model/fault-tree.ts';
import type { Prose } from '#core/model/prose.ts';
import type { Element, Written } from './element.ts';
import * as spec from './elements.ts';
import type { ElementSpec } from './elements.ts';
import { limits, tooMuch } from './find-excess.ts';
import { suggestName } from './nearest-name.ts';
import type { ReadContext } from './problem.ts';
import { type Attributes, readAttributes } from './read-attributes.ts';

type ReadNode = (element: Element, key: string, context: ReadContext) => TreeNode;

/** How each kind of node is read, by the name of its element. `key` begins the keys of all its parts. */
export const nodeReaders: ReadonlyMap<string, ReadNode> = new Map<string, ReadNode>([
  [
    'Check',
    (element, key, context) => {
      const { instrument, wait = 0, leaves = 'nothing', ...base } = readBase(element, spec.checkSpec, key, context);
      onlyChild(element, 'Target', context);
      return {
        kind: 'check',
        ...base,
        leaves,
        instruments: instrument.length === 0 ? ['eyes'] : instrument,
        waitMinutes: wait,
        target: readTargets(element, key, context)[0],
        outcomes: readEach(element, spec.outcomeSpec, key, context).map(
          ({ 'says-before': saysBefore, 'says-after': saysAfter, ...outcome }) => ({
            ...outcome,
            saysBefore,
            saysAfter,
          }),
        ),
      };
    },
  ],
  [
    'Path',
    (element, key, context) => {
      const { instrument, ...base } = readBase(element, spec.pathSpec, key, context);
      return {
        kind: 'path',
        ...base,
        instruments: instrument.length === 0 ? ['eyes'] : instrument,
        stages: readStages(element, key, context),
      };
    },
  ],
  [
    'Cause',
    (element, key, context) => {
      const { lies = 'unit', ...base } = readBase(element, spec.causeSpec, key, context);
      return {
        kind: 'cause',
        ...base,
        lies,
        confirm: readPart(element, spec.confirmSpec, key, context),
        repair: readRepair(element, key, context),
        prove: readPart(element, spec.proveSpec, key, context),
      };
    },
  ],
  [
    'Elsewhere',
    (element, key, context) => {
      const { chance = 'occasional', ...base } = readBase(element, spec.elsewhereSpec, key, context);
      return { kind: 'elsewhere', ...base, chance };
    },
  ],
  [
    'HandOver',
    (element, key, context) => {
      const { chance = 'occasional', ...base } = readBase(element, spec.handOverSpec, key, context);
      return { kind: 'hand-over', ...base, chance };
    },
  ],
]);

/** What every node has: the attributes of its table, its cautions and its sentences. */
function readBase<const Spec extends ElementSpec>(
  element: Element,
  nodeSpec: Spec,
  key: string,
  context: ReadContext,
): Attributes<Spec> & { readonly cautions: readonly string[]; readonly prose: Prose } {
  checkInside(element, nodeSpec, context);
  return {
    ...readAttributes(element, nodeSpec, key, context),
    cautions: readEach(element, spec.cautionSpec, key, context).map(({ use }) => use),
    prose: readProse(element, key, context),
  };
}

/** Files the position of each paragraph and list item under `key/prose/<n>`. */
export function readProse({ prose, paragraphs }: Written, key: string, context: ReadContext): Prose {
  for (const [index, position] of paragraphs.entries()) context.positions.set(`${key}/prose/${index}`, position);
  return prose;
}

/** The attributes of every child of one name; position keys `<key>/<name>/<n>`. */
function readEach<const Spec extends ElementSpec>(
  element: Element,
  childSpec: Spec,
  key: string,
  context: ReadContext,
): readonly Attributes<Spec>[] {
  return childrenNamed(element, childSpec.name).map((child, index) => {
    checkInside(child, childSpec, context);
    return readAttributes(child, childSpec, `${key}/${childSpec.name.toLowerCase()}/${index}`, context);
  });
}

function readTargets(element: Element, key: string, context: ReadContext): readonly TargetUse[] {
  return readEach(element, spec.targetSpec, key, context).map(({ use, point }) => ({ target: use, point }));
}

/** Position keys `<key>/stage/<id>`. */
function readStages(element: Element, key: string, context: ReadContext): readonly Stage[] {
  let before: readonly string[] = [];
  return childrenNamed(element, 'Stage').map((child) => {
    const id = child.attributes.get('id')?.value.trim() ?? '';
    checkInside(child, spec.stageSpec, context);
    const { from, ...stage } = readAttributes(child, spec.stageSpec, `${key}/stage/${id}`, context);
    const feeding = from.length === 0 ? before : from;
    before = [id];
    return { ...stage, from: feeding };
  });
}

/** Confirm, Repair or Prove of a cause; position key `<key>/<name>`. */
function readPart<const Spec extends ElementSpec>(
  cause: Element,
  partSpec: Spec,
  key: string,
  context: ReadContext,
): (Attributes<Spec> & Part) | undefined {
  const element = onlyChild(cause, partSpec.name, context);
  if (element === undefined) return undefined;
  const partKey = `${key}/${partSpec.name.toLowerCase()}`;
  checkInside(element, partSpec, context);
  return {
    ...readAttributes(element, partSpec, partKey, context),
    prose: readProse(element, partKey, context),
    targets: readTargets(element, partKey, context),
  };
}

function readRepair(cause: Element, key: string, context: ReadContext) {
  const part = readPart(cause, spec.repairSpec, key, context);
  const [element] = childrenNamed(cause, 'Repair');
  if (part === undefined || element === undefined) return undefined;
  const repairKey = `${key}/repair`;
  return {
    ...part,
    record: childrenNamed(element, 'Record').flatMap((record) => {
      checkInside(record, spec.recordSpec, context);
      return readProse(record, `${repairKey}/record`, context);
    }),
    substitutes: childrenNamed(element, 'Substitute').map((child, index) => {
      const childKey = `${repairKey}/substitute/${index}`;
      checkInside(child, spec.substituteSpec, context);
      const attributes = readAttributes(child, spec.substituteSpec, childKey, context);
      return { ...attributes, prose: readProse(child, childKey, context) };
    }),
  };
}

/** Reports children and prose that the element's table does not allow. */
function checkInside(element: Element, { name, children, prose }: ElementSpec, { report }: ReadContext): void {
  for (const child of element.elements) {
    if (children.includes(child.name)) continue;
    const allowed = children.length === 0 ? 'nothing' : children.map((each) => `\`<${each}>\``).join(', ');
    report({
      rule: 'element-place',
      position: child.position,
      message: `Unexpected \`<${child.name}>\` in \`<${name}>\`, expected ${allowed}.`,
      help: `Move it to where it belongs.${suggestName(child.name, children)}`,
    });
  }
  for (const [childName, same] of Map.groupBy(element.elements, (child) => child.name)) {
    const excess = same[limits.siblings];
    if (excess === undefined) continue;
    report({
      ...tooMuch(`\`<${childName}>\` in one \`<${name}>\``, same.length, limits.siblings, 1),
      position: excess.position,
    });
  }
  const firstProse = element.paragraphs[0];
  if (prose === 'none' && firstProse !== undefined) {
    report({
      rule: 'prose-place',
      position: firstProse,
      message: `Unexpected text in \`<${name}>\`, expected only its attributes.`,
      help: 'Move the text before or after it.',
    });
  }
  if (prose === 'required' && firstProse === undefined) {
    report({
      rule: 'prose-missing',
      position: element.position,
      message: `Unexpected \`<${name}>\` without a sentence, expected words that say what to do.`,
      help: 'Write it between the tags, with a blank line before and after.',
    });
  }
}

/** Children of one name, in order; not more than were counted as legal. */
function childrenNamed(element: Element, name: string): readonly Element[] {
  return element.elements.filter((child) => child.name === name).slice(0, limits.siblings);
}

/** The only child of that name, or undefined; a second one is reported. */
function onlyChild(element: Element, name: string, { report }: ReadContext): Element | undefined {
  const [first, second] = childrenNamed(element, name);
  if (second !== undefined) {
    report({
      rule: 'element-twice',
      position: second.position,
      message: `Unexpected second \`<${name}>\` in \`<${element.name}>\`, expected at most one.`,
      help: 'Join the two, or split the node.',
    });
  }
  return first;
}
