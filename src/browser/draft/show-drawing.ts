import '../graph-view.ts';

const drawn = new WeakMap<Element, string>();

/**
 * Puts a drawing that our own code wrote into a view that can be panned and zoomed, made from `template`. The drawing is
 * read as XML, in which a slip of escaping is an error and not an element, and it must hold nothing but shapes, groups
 * and text. False where it does not. The view stays as it is, zoom included, where the drawing did not change.
 */
export function showDrawing(place: HTMLElement, template: HTMLTemplateElement, svg: string): boolean {
  if (drawn.get(place) === svg) return true;
  const drawing = new DOMParser().parseFromString(svg, 'image/svg+xml').documentElement;
  const all = [drawing, ...drawing.querySelectorAll('*')];
  const isPlain = all.every(
    (element) =>
      shapes.has(element.localName) &&
      element.getAttributeNames().every((name) => !name.startsWith('on') && name !== 'style' && !name.includes('href')),
  );
  if (!isPlain) return false;
  const before = place.querySelector('.canvas');
  const scroll = before === null ? undefined : { left: before.scrollLeft, top: before.scrollTop };
  const view = document.createElement('graph-view');
  view.append(template.content.cloneNode(true));
  view.querySelector('.canvas')?.append(document.importNode(drawing, true));
  place.replaceChildren(view);
  if (scroll !== undefined) view.querySelector('.canvas')?.scrollTo(scroll);
  drawn.set(place, svg);
  return true;
}

const shapes: ReadonlySet<string> = new Set(['svg', 'defs', 'pattern', 'g', 'path', 'rect', 'text', 'tspan']);
