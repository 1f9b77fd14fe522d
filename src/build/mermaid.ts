import { JSDOM } from 'jsdom';
import { buildDecisionGraph } from '#core/figure/decision-graph.ts';
import { writeMermaidText } from '#core/figure/mermaid-text.ts';
import type { FaultTree } from '#core/model/fault-tree.ts';

/**
 * The decision graph of a tree as the text of a Mermaid flowchart, read back by Mermaid before it is published.
 *
 * @param findAddress full address of a node's page; undefined leaves the node without a link
 * @throws where Mermaid refuses the text, or reads another graph in it than the tree's
 */
export async function writeGraphText(
  tree: FaultTree,
  findAddress?: (node: string) => string | undefined,
): Promise<string> {
  const graph = buildDecisionGraph(tree);
  const text = writeMermaidText(graph, findAddress);
  const places = new Map(graph.nodes.map((node) => [node.id, `n${node.index}`]));
  const nodes = graph.nodes.map((node) => `n${node.index}`);
  const edges = graph.edges.map(({ from, to }) => `${places.get(from)} ${places.get(to)}`);
  const read = await readGraphText(text);
  if (`${read.nodes}` !== `${nodes}` || `${read.edges}` !== `${edges}`) {
    throw new Error(`Mermaid reads another graph in the text of ${tree.slug} than the tree's.`);
  }
  return text;
}

/** What Mermaid sees in the text of a flowchart: names of its nodes, and its edges as "n0 n1", in their order. */
export interface ReadGraph {
  readonly nodes: readonly string[];
  readonly edges: readonly string[];
  /** Where nodes lead, by their names. */
  readonly links: ReadonlyMap<string, string>;
}

let loading: ReturnType<typeof loadMermaid> | undefined;

/**
 * Reads the text of a flowchart with Mermaid's own parser.
 *
 * @throws Mermaid's message with the line, where the text is not a flowchart
 */
export async function readGraphText(text: string): Promise<ReadGraph> {
  loading ??= loadMermaid();
  const { db } = await (await loading).mermaidAPI.getDiagramFromText(text);
  if (!isFlowchart(db)) throw new Error('The text is not a flowchart.');
  const vertices = [...db.getVertices().values()];
  return {
    nodes: vertices.map(({ id }) => id),
    edges: db.getEdges().map(({ start, end }) => `${start} ${end}`),
    links: new Map(vertices.flatMap(({ id, link }) => (link === undefined ? [] : [[id, link] as const]))),
  };
}

/** What Mermaid keeps of a flowchart, which its types leave out. */
interface Flowchart {
  readonly getVertices: () => ReadonlyMap<string, { readonly id: string; readonly link?: string }>;
  readonly getEdges: () => readonly { readonly start: string; readonly end: string }[];
}

function isFlowchart(read: object): read is Flowchart {
  return 'getVertices' in read && 'getEdges' in read;
}

/** Mermaid cleans labels with a library that looks for a window once, while it is loaded; Node has none again after. */
async function loadMermaid(): Promise<typeof import('mermaid').default> {
  Object.assign(globalThis, { window: new JSDOM('').window });
  try {
    const { default: mermaid } = await import('mermaid');
    mermaid.initialize({ startOnLoad: false, securityLevel: 'strict', maxTextSize: 1_000_000, maxEdges: 10_000 });
    return mermaid;
  } finally {
    Reflect.deleteProperty(globalThis, 'window');
  }
}
