import { JSDOM } from 'jsdom';

/** Size of a box in pixels. */
export interface BoxSize {
  readonly width: number;
  readonly height: number;
}

/** Sizes that a drawing is laid out with: by a node's or an edge's name in Mermaid's drawing (`n3`, `L_n0_n3_0`). */
export interface BoxSizes {
  readonly nodes: ReadonlyMap<string, BoxSize>;
  readonly edges: ReadonlyMap<string, BoxSize>;
}

/** Mermaid, alone with a document of its own. */
export interface MermaidPage {
  /** Lays out one flowchart and returns Mermaid's SVG in the page's document. Not to be called again before it is done. */
  readonly render: (text: string, sizes: BoxSizes) => Promise<Element>;
}

/** Names that Mermaid and what it draws with look for on the global object. */
const globals = [
  'document',
  'Element',
  'HTMLElement',
  'SVGElement',
  'Node',
  'DOMParser',
  'XMLSerializer',
  'getComputedStyle',
  'CSSStyleSheet',
] as const;

/**
 * Opens Mermaid in a jsdom document in which every box has the size that we name.
 *
 * jsdom lays nothing out, so `getBBox` and its kin are answered here: an element of a node has the size of our own
 * symbol for it, an edge label the size of our own lines. Mermaid then serves for the layout alone. The browser's
 * globals exist only while Mermaid is being loaded or is drawing, so that other build code never takes Node for a
 * browser.
 */
export async function openMermaidPage(): Promise<MermaidPage> {
  const dom = new JSDOM('<!doctype html><title>Sheet</title><body></body>');
  let sizes: BoxSizes = { nodes: new Map(), edges: new Map() };
  answerMeasuring(dom.window.Element.prototype, (element) => findSize(element, sizes));

  const { default: mermaid } = await withGlobals(dom, () => import('mermaid'));
  mermaid.initialize({
    startOnLoad: false,
    layout: 'dagre',
    look: 'classic',
    theme: 'neutral',
    securityLevel: 'strict',
    htmlLabels: false,
    deterministicIds: true,
    maxTextSize: 1_000_000,
    maxEdges: 10_000,
    suppressErrorRendering: true,
    flowchart: {
      htmlLabels: false,
      wrappingWidth: 10_000,
      padding: 0,
      nodeSpacing: 20,
      rankSpacing: 40,
      curve: 'linear',
    },
  });
  const container = dom.window.document.createElement('div');

  return {
    render: async (text, wanted) => {
      sizes = wanted;
      const { svg } = await withGlobals(dom, () => mermaid.render('sheet', text));
      container.innerHTML = svg;
      const drawing = container.querySelector('svg');
      if (drawing === null) throw new Error('Mermaid returned no drawing.');
      return drawing;
    },
  };
}

async function withGlobals<Result>(dom: JSDOM, work: () => Promise<Result>): Promise<Result> {
  const before = new Map<string, PropertyDescriptor | undefined>();
  const put = (name: string, value: unknown): void => {
    before.set(name, Object.getOwnPropertyDescriptor(globalThis, name));
    Object.defineProperty(globalThis, name, { value, configurable: true, writable: true });
  };
  put('window', dom.window);
  for (const name of globals) put(name, Reflect.get(dom.window, name));
  try {
    return await work();
  } finally {
    for (const [name, descriptor] of before) {
      if (descriptor === undefined) Reflect.deleteProperty(globalThis, name);
      else Object.defineProperty(globalThis, name, descriptor);
    }
  }
}

function answerMeasuring(prototype: Element, measure: (element: Element) => BoxSize): void {
  const answer = function (this: Element): object {
    const { width, height } = measure(this);
    const [x, y] = [-width / 2, -height / 2];
    return { x, y, width, height, left: x, top: y, right: -x, bottom: -y };
  };
  Object.assign(prototype, {
    getBBox: answer,
    getBoundingClientRect: answer,
    getComputedTextLength(this: Element): number {
      return measure(this).width;
    },
  });
}

const nothing: BoxSize = { width: 0, height: 0 };

function findSize(element: Element, sizes: BoxSizes): BoxSize {
  const node = element.closest('g.node') ?? element.querySelector(':scope > g.node');
  if (node !== null) return sizes.nodes.get(readNodeName(node) ?? '') ?? nothing;
  const label = element.closest('[data-id]') ?? element.querySelector('[data-id]');
  return sizes.edges.get(label?.getAttribute('data-id') ?? '') ?? nothing;
}

/** Name of a node in Mermaid's drawing: `n3` of `sheet-flowchart-n3-7`. */
export function readNodeName(node: Element): string | undefined {
  return /-(n\d+)-\d+$/u.exec(node.id)?.[1];
}
