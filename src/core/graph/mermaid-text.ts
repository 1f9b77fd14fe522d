import type { NodeKind } from '../model/fault-tree.ts';
import type { DecisionGraph, GraphNode } from './decision-graph.ts';
import { edgeType, nodeLabelWidth, nodeType } from './fit-symbol.ts';
import { edgeLabelWidth } from './measure-label.ts';
import { type MeasureText, tidyLabel, wrapLabel } from './wrap-label.ts';

export interface MermaidOptions {
  readonly measure: MeasureText;
  /** Address of a node's page; undefined leaves the node without a link. */
  readonly findAddress: (id: string) => string | undefined;
  /** Writes every node as a plain box and every label as one letter, for a drawing of which only the layout is used. */
  readonly isLayoutOnly?: boolean;
}

/**
 * Writes a graph as the text of a Mermaid flowchart, from the top down.
 *
 * Nodes are called n0, n1 … after their place in the tree's file, because our own ids may be words of Mermaid's
 * (`end`, `style`) or look like an arrow (`a---o`). Labels are quoted and everything in them but letters, digits and
 * a little plain punctuation is written as a character code, so a title can neither close its quotes nor begin a
 * directive.
 *
 * @example writeMermaidText(graph, options)
 * // flowchart TB
 * // n0{"Is it on?"}:::check
 * // n1(["Fuse open"]):::cause
 * // n0 -->|"no"| n1
 * // click n0 href "/trees/dead/is-it-on/"
 */
export function writeMermaidText(graph: DecisionGraph, options: MermaidOptions): string {
  const names = new Map(graph.nodes.map((node) => [node.id, nameNode(node)]));
  const wrap = (label: string, width: number, size: number): string =>
    options.isLayoutOnly === true
      ? 'x'
      : wrapLabel(label, width, (text) => options.measure(text, size))
          .map(escapeLabel)
          .join('<br/>');
  const nodes = graph.nodes.map((node) => {
    const [open, close] = options.isLayoutOnly === true ? plainBrackets : brackets[node.kind];
    return `${nameNode(node)}${open}"${wrap(node.title, nodeLabelWidth, nodeType.size)}"${close}:::${node.kind}`;
  });
  const edges = graph.edges.flatMap((edge) => {
    const [from, to] = [names.get(edge.from), names.get(edge.to)];
    if (from === undefined || to === undefined) return [];
    return [`${from} -->|"${wrap(edge.label, edgeLabelWidth, edgeType.size)}"| ${to}`];
  });
  const links = graph.nodes.flatMap((node) => {
    const address = options.findAddress(node.id);
    return address === undefined ? [] : [`click ${nameNode(node)} href "${escapeAddress(address)}"`];
  });
  return `${['flowchart TB', ...nodes, ...edges, ...links].join('\n')}\n`;
}

/** Name of a node in Mermaid's text and in the drawing it returns. */
export function nameNode(node: GraphNode): string {
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

const plainBrackets = ['[', ']'] as const;

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
