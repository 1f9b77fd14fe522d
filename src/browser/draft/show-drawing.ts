/**
 * Puts a drawing that our own code wrote into the page. It is read as XML, in which a slip of escaping is an error and
 * not an element, and it must hold nothing but shapes, groups and text. False where it does not.
 */
export function showDrawing(place: Element, svg: string): boolean {
  const drawing = new DOMParser().parseFromString(svg, 'image/svg+xml').documentElement;
  const all = [drawing, ...drawing.querySelectorAll('*')];
  const isPlain = all.every(
    (element) =>
      shapes.has(element.localName) &&
      element.getAttributeNames().every((name) => !name.startsWith('on') && name !== 'style' && !name.includes('href')),
  );
  if (!isPlain) return false;
  place.replaceChildren(document.importNode(drawing, true));
  return true;
}

const shapes: ReadonlySet<string> = new Set(['svg', 'defs', 'pattern', 'g', 'path', 'rect', 'text', 'tspan']);
