import type { Element, Written } from '../element.ts';
import type { ElementSpec } from '../attribute-spec.ts';
import type { Positions } from '../position.ts';
import type { Report } from '../problem.ts';
import { limits, tooMuch } from '../find-excess.ts';
import { suggestName } from '../nearest-name.ts';
import type { Prose } from '#core/model/prose.ts';

/** What every element reader is given: where to file positions and problems. */
export interface ReadContext {
  readonly positions: Positions;
  readonly report: Report;
}

/** Files the position of each paragraph and list item under `key/prose/<n>`. */
export function readProse({ prose, paragraphs }: Written, key: string, context: ReadContext): Prose {
  for (const [index, position] of paragraphs.entries()) context.positions.set(`${key}/prose/${index}`, position);
  return prose;
}

/** Reports children and prose that the element's table does not allow. */
export function checkInside(element: Element, spec: ElementSpec, { report }: ReadContext): void {
  for (const child of element.elements) {
    if (spec.children.includes(child.name)) continue;
    const allowed = spec.children.length === 0 ? 'nothing' : spec.children.map((name) => `\`<${name}>\``).join(', ');
    report({
      rule: 'element-place',
      position: child.position,
      message: `Unexpected \`<${child.name}>\` in \`<${spec.name}>\`, expected ${allowed}.`,
      help: `Move it to where it belongs.${suggestName(child.name, spec.children)}`,
    });
  }
  for (const [name, children] of Map.groupBy(element.elements, (child) => child.name)) {
    const excess = children[limits.siblings];
    if (excess === undefined) continue;
    report({
      ...tooMuch(`\`<${name}>\` in one \`<${spec.name}>\``, children.length, limits.siblings, 1),
      position: excess.position,
    });
  }
  const firstProse = element.paragraphs[0];
  if (spec.prose === 'none' && firstProse !== undefined) {
    report({
      rule: 'prose-place',
      position: firstProse,
      message: `Unexpected text in \`<${spec.name}>\`, expected only its attributes.`,
      help: 'Move the text before or after it.',
    });
  }
  if (spec.prose === 'required' && firstProse === undefined) {
    report({
      rule: 'prose-missing',
      position: element.position,
      message: `Unexpected \`<${spec.name}>\` without a sentence, expected words that say what to do.`,
      help: 'Write it between the tags, with a blank line before and after.',
    });
  }
}

/** Children of one name, in order; not more than were counted as legal. */
export function childrenNamed(element: Element, name: string): readonly Element[] {
  return element.elements.filter((child) => child.name === name).slice(0, limits.siblings);
}

/** The only child of that name, or undefined; a second one is reported. */
export function onlyChild(element: Element, name: string, { report }: ReadContext): Element | undefined {
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
