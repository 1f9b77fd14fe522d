import type { RowEdge, RowNode } from './trace-edge.ts';

/** Room kept between a label and whatever stands beside it in its row, in pixels. */
const clearance = 8;

/**
 * Moves the label of a long line from its middle up to the first row below the symbol that it leaves, where nothing else
 * stands in the way: an answer is read beside its question. Lines that run up the sheet keep their label where it is.
 */
export function raiseLabels(edges: readonly RowEdge[], nodes: readonly RowNode[]): readonly RowEdge[] {
  const placed = [...edges];
  for (const [index, edge] of placed.entries()) {
    if (edge.isUpward) continue;
    const others = placed.filter((other) => other !== edge);
    for (let row = edge.firstRow + 1; row < edge.labelRow; row += 1) {
      if (!isFree(edge, row, others, nodes)) continue;
      placed[index] = { ...edge, labelRow: row };
      break;
    }
  }
  return placed;
}

function isFree(edge: RowEdge, row: number, others: readonly RowEdge[], nodes: readonly RowNode[]): boolean {
  const x = positionIn(edge, row);
  if (x === undefined) return false;
  const reach = edge.label.width / 2 + clearance;
  const isClearOf = (position: number | undefined, width: number): boolean =>
    position === undefined || Math.abs(position - x) >= reach + width / 2;
  return (
    nodes.every((node) => node.row !== row || isClearOf(node.x, node.symbol.width)) &&
    others.every((other) => isClearOf(positionIn(other, row), other.labelRow === row ? other.label.width : 0))
  );
}

/** Where an edge passes a row between its ends; undefined outside. */
function positionIn(edge: RowEdge, row: number): number | undefined {
  return row > edge.firstRow && row < edge.lower.row ? edge.positions[row - edge.firstRow] : undefined;
}
