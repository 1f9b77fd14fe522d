import type { DecisionGraph } from '#core/graph/decision-graph.ts';
import type { Layout } from '#core/graph/arrange-sheet.ts';
import { nameNode } from '#core/graph/mermaid-text.ts';
import type { Point } from '#core/graph/sheet.ts';
import { readNodeName } from './mermaid-page.ts';

/**
 * Takes from Mermaid's SVG the only things we keep: where the middle of each node lies and where each edge turns.
 * Its styles, scripts, markers, ids and shapes stay behind.
 *
 * @throws where Mermaid's drawing lacks a node or an edge of the graph, which a newer Mermaid might cause
 */
export function readLayout(graph: DecisionGraph, drawing: Element): Layout {
  const places = new Map<string, Point>();
  for (const element of drawing.querySelectorAll('g.node')) {
    const name = readNodeName(element);
    const place = readTranslation(element) ?? readTranslation(element.parentElement);
    if (name !== undefined && place !== undefined) places.set(name, place);
  }
  const turns = new Map<string, readonly Point[]>();
  for (const element of drawing.querySelectorAll('path[data-points]')) {
    const id = element.getAttribute('data-id');
    if (id !== null) turns.set(id, readPoints(element.getAttribute('data-points') ?? '').slice(1, -1));
  }
  const names = new Map(graph.nodes.map((node) => [node.id, nameNode(node)]));
  return {
    nodes: new Map(graph.nodes.map((node) => [node.id, expect(places.get(nameNode(node)), `node ${node.id}`)])),
    turns: graph.edges.map((edge) => {
      const id = nameEdge(names.get(edge.from) ?? '', names.get(edge.to) ?? '');
      return expect(turns.get(id), `edge ${edge.from} to ${edge.to}`);
    }),
  };
}

/** Name of an edge in Mermaid's drawing; there is at most one between two nodes. */
export function nameEdge(from: string, to: string): string {
  return `L_${from}_${to}_0`;
}

function readTranslation(element: Element | null): Point | undefined {
  const found = /translate\(\s*(-?[\d.e-]+)[\s,]+(-?[\d.e-]+)\s*\)/u.exec(element?.getAttribute('transform') ?? '');
  return found === null ? undefined : { x: Number(found[1]), y: Number(found[2]) };
}

/** Mermaid keeps an edge's points as base64 of JSON. */
function readPoints(encoded: string): readonly Point[] {
  const parsed: unknown = JSON.parse(Buffer.from(encoded, 'base64').toString('utf8'));
  return Array.isArray(parsed) ? parsed.filter(isPoint) : [];
}

function isPoint(value: unknown): value is Point {
  return (
    typeof value === 'object' &&
    value !== null &&
    'x' in value &&
    'y' in value &&
    Number.isFinite(value.x) &&
    Number.isFinite(value.y)
  );
}

function expect<Value>(value: Value | undefined, what: string): Value {
  if (value === undefined) throw new Error(`Mermaid's drawing lacks the ${what}.`);
  return value;
}
