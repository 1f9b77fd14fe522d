import type { Markup } from '#core/page/markup.ts';

type Child = Node | string;

/** An element with attributes and children; text goes in as text. An attribute of `undefined` is left out, `true` is empty. */
export function makeElement<Name extends keyof HTMLElementTagNameMap>(
  name: Name,
  attributes: Readonly<Record<string, string | true | undefined>> = {},
  ...children: readonly Child[]
): HTMLElementTagNameMap[Name] {
  const element = document.createElement(name);
  for (const [key, value] of Object.entries(attributes)) {
    if (value !== undefined) element.setAttribute(key, value === true ? '' : value);
  }
  element.append(...children);
  return element;
}

/** The nodes of what is drawn without a document; what stands in an `svg` is of the namespace of drawings. */
export function makeNodes(...drawn: readonly (Markup | string)[]): readonly Child[] {
  return makeNodesIn('http://www.w3.org/1999/xhtml', drawn);
}

const ofDrawings = 'http://www.w3.org/2000/svg';

function makeNodesIn(space: string, drawn: readonly (Markup | string)[]): readonly Child[] {
  return drawn.map((node) => {
    if (typeof node === 'string') return node;
    const inside = node.name === 'svg' ? ofDrawings : space;
    const element = document.createElementNS(inside, node.name);
    for (const [name, value] of Object.entries(node.attributes)) {
      if (value !== undefined && value !== false) element.setAttribute(name, value === true ? '' : value);
    }
    element.append(...makeNodesIn(inside, node.children));
    return element;
  });
}

/** A button that does something here. */
export function makeButton(text: string, className: string, press: () => void): HTMLButtonElement {
  const button = makeElement('button', { type: 'button', class: className }, text);
  button.addEventListener('click', press);
  return button;
}

/** An element of a drawing. */
export function makeDrawn(
  name: string,
  attributes: Readonly<Record<string, string | number>>,
  ...children: readonly Child[]
): SVGElement {
  const element = document.createElementNS(ofDrawings, name);
  for (const [key, value] of Object.entries(attributes)) element.setAttribute(key, String(value));
  element.append(...children);
  return element;
}

/**
 * Calls `act` once, when `element` is `seen`, or `anywhere` on the page:
 * as soon as it is laid out at all, as nothing below a step is while a danger holds the step back.
 */
export function whenNear(element: Element, margin: 'seen' | 'anywhere', act: () => void): void {
  const watch = new IntersectionObserver(
    (entries) => {
      if (!entries.some(({ isIntersecting }) => isIntersecting)) return;
      watch.disconnect();
      act();
    },
    { rootMargin: margin === 'seen' ? '0%' : '99999%' },
  );
  watch.observe(element);
}
