/**
 * A tree of elements, from which the build prints HTML and the drafting page makes its nodes: what is drawn once is the same
 * on both. Text and attribute values are plain; whatever prints them escapes them.
 */
export interface Markup {
  readonly name: string;
  /** What is undefined or false is left out; true is an attribute without a value. */
  readonly attributes: Attributes;
  readonly children: readonly (Markup | string)[];
}

export type Attributes = Readonly<Record<string, string | boolean | undefined>>;

/** What may be written as a child: nothing, text, an element, or several. */
export type Child = Markup | string | undefined | false | readonly Child[];

/** An element. @example make('p', { class: 'hint' }, 'Nothing answered yet.') */
export function make(name: string, attributes: Attributes, ...children: readonly Child[]): Markup {
  return { name, attributes, children: children.flatMap(flatten) };
}

function flatten(child: Child): readonly (Markup | string)[] {
  if (child === undefined || child === false) return [];
  return typeof child === 'string' || 'name' in child ? [child] : child.flatMap(flatten);
}

/** Elements that have no end tag: HTML standard, 13.1.2, void elements. */
const voids: ReadonlySet<string> = new Set(['br', 'hr', 'img', 'input']);

/** The HTML of elements and text, escaped as the HTML standard's serialising does (13.3). */
export function printHtml(...nodes: readonly Child[]): string {
  return nodes.flatMap(flatten).map(printNode).join('');
}

function printNode(node: Markup | string): string {
  if (typeof node === 'string') return node.replace(/[&<>]/g, escapeCharacter);
  const attributes = Object.entries(node.attributes).map(([name, value]) => {
    if (value === undefined || value === false) return '';
    return value === true ? ` ${name}` : ` ${name}="${value.replace(/[&"<>]/g, escapeCharacter)}"`;
  });
  const start = `<${node.name}${attributes.join('')}>`;
  return voids.has(node.name) ? start : `${start}${node.children.map(printNode).join('')}</${node.name}>`;
}

const escapes: Readonly<Record<string, string>> = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;' };

function escapeCharacter(character: string): string {
  return escapes[character] ?? character;
}
