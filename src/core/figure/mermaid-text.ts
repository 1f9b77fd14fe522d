import type { NodeKind } from '../model/fault-tree.ts';
import type { DecisionGraph, GraphNode } from './decision-graph.ts';
import { tidyLabel } from './label.ts';

/**
 * Writes a graph as the text of a Mermaid flowchart, from the top down.
 *
 * Nodes are called n0, n1 … after their place in the tree's file, because our own ids may be words of Mermaid's
 * (`end`, `style`) or look like an arrow (`a---o`). Labels are quoted and everything in them but letters, digits and
 * a little plain punctuation is written as a character code, so a title can neither close its quotes nor begin a
 * directive. `findAddress` gives a node's page; undefined leaves the node without a link.
 *
 * @example writeMermaidText(graph, findAddress)
 * // flowchart TB
 * // n0{"Is it on?"}
 * // n1(["Fuse open"])
 * // n0 -->|"no"| n1
 * // click n0 href "https://example.org/trees/dead/is-it-on/"
 */
export function writeMermaidText(
  graph: DecisionGraph,
  findAddress: (id: string) => string | undefined = () => undefined,
): string {
  const names = new Map(graph.nodes.map((node) => [node.id, nameNode(node)]));
  const nodes = graph.nodes.map((node) => {
    const [open, close] = brackets[node.kind];
    return `${nameNode(node)}${open}"${escapeLabel(node.title)}"${close}`;
  });
  const edges = graph.edges.flatMap((edge) => {
    const [from, to] = [names.get(edge.from), names.get(edge.to)];
    if (from === undefined || to === undefined) return [];
    return [`${from} -->|"${escapeLabel(edge.label)}"| ${to}`];
  });
  const links = graph.nodes.flatMap((node) => {
    const address = findAddress(node.id);
    return address === undefined ? [] : [`click ${nameNode(node)} href "${escapeAddress(address)}"`];
  });
  return `${['flowchart TB', ...nodes, ...edges, ...links].join('\n')}\n`;
}

function nameNode(node: GraphNode): string {
  return `n${node.index}`;
}

/** Mermaid's brackets nearest to each symbol: rhombus, side bars, stadium, flag, rounded box. */
const brackets: Readonly<Record<NodeKind, readonly [string, string]>> = {
  check: ['{', '}'],
  path: ['[[', ']]'],
  cause: ['([', '])'],
  elsewhere: ['>', ']'],
  'hand-over': ['(', ')'],
};

function escapeLabel(line: string): string {
  const escaped = Array.from(tidyLabel(line), (character) =>
    /[A-Za-z0-9 ,.?()'/-]/u.test(character) ? character : `#${character.codePointAt(0)};`,
  ).join('');
  return escaped === '' ? ' ' : escaped;
}

/** A site address holds none of these; a hostile one must not leave its quotes or its line. */
function escapeAddress(address: string): string {
  return tidyLabel(address).replace(/["<>\\^`{|}; ]/gu, encodeURIComponent);
}
