import type { Page } from 'playwright-core';

/** What is wrong with a label in a drawn graph. */
export interface Problem {
  readonly kind:
    | 'no graph'
    | 'font not loaded'
    | 'label outside its symbol'
    | 'label outside the sheet'
    | 'labels overlap'
    | 'symbols overlap'
    | 'line through a label'
    | 'line through a symbol';
  readonly what: string;
}

/**
 * Measures every graph (`svg.sheet`) on a page in a real browser and returns what is wrong, nothing where all is well.
 *
 * A line of a label is the rectangle that its ink can fill: as wide as the browser sets it, as high as the tallest and
 * deepest letter in it. Its corners must lie inside the true outline of the symbol (the inner outline of an end), not
 * only in its box. No two labels, and no two symbols, may touch, and no line may run through a label or a symbol that
 * is not its own.
 */
export async function measureGraphLabels(page: Page): Promise<Problem[]> {
  return page.evaluate(async () => {
    interface Rectangle {
      readonly text: string;
      readonly owner: Element | null;
      readonly isBeside?: boolean;
      readonly left: number;
      readonly top: number;
      readonly right: number;
      readonly bottom: number;
    }
    const problems: { kind: Problem['kind']; what: string }[] = [];
    const sheets = [...document.querySelectorAll('svg.sheet')].filter((sheet) => sheet instanceof SVGSVGElement);
    if (sheets.length === 0) problems.push({ kind: 'no graph', what: document.title });
    await document.fonts.load('600 15px Sheet');
    if (![...document.fonts].some((face) => face.family.replaceAll('"', '') === 'Sheet' && face.status === 'loaded')) {
      problems.push({ kind: 'font not loaded', what: 'Sheet' });
    }
    const canvas = document.createElement('canvas').getContext('2d');
    if (canvas === null) throw new Error('No canvas to measure letters with.');

    const measureRow = (row: SVGTSpanElement): Rectangle | undefined => {
      if (row.getNumberOfChars() === 0) return undefined;
      const style = getComputedStyle(row);
      canvas.font = `${style.fontWeight} ${style.fontSize} ${style.fontFamily}`;
      const ink = canvas.measureText(row.textContent ?? '');
      const box = row.getBBox();
      const baseline = row.getStartPositionOfChar(0).y;
      return {
        text: row.textContent ?? '',
        owner: row.closest('.node, .edge, .start, .connector'),
        isBeside: row.closest('text[text-anchor="start"]') !== null,
        left: box.x,
        right: box.x + box.width,
        top: baseline - ink.actualBoundingBoxAscent,
        bottom: baseline + ink.actualBoundingBoxDescent,
      };
    };
    const overlap = (one: Rectangle, other: Rectangle): boolean =>
      one.left < other.right && other.left < one.right && one.top < other.bottom && other.top < one.bottom;
    const holds = (box: Rectangle, point: DOMPoint): boolean =>
      point.x > box.left && point.x < box.right && point.y > box.top && point.y < box.bottom;
    const boxOf = (element: SVGGraphicsElement, owner: Element): Rectangle => {
      const { x, y, width, height } = element.getBBox();
      return {
        text: owner.getAttribute('data-node') ?? 'start',
        owner,
        left: x,
        top: y,
        right: x + width,
        bottom: y + height,
      };
    };

    for (const sheet of sheets) {
      const rows = [...sheet.querySelectorAll('tspan')].flatMap((row) => measureRow(row) ?? []);
      const { x, y, width, height } = sheet.viewBox.baseVal;
      for (const row of rows) {
        if (row.left < x || row.top < y || row.right > x + width || row.bottom > y + height) {
          problems.push({ kind: 'label outside the sheet', what: row.text });
        }
        const outline = row.owner?.querySelector('.inner') ?? row.owner?.querySelector('.symbol');
        // The title beside a connector stands outside its circle; only the number is held by it.
        if (!(outline instanceof SVGGeometryElement) || row.isBeside) continue;
        const corners = [
          [row.left, row.top],
          [row.right, row.top],
          [row.left, row.bottom],
          [row.right, row.bottom],
        ] as const;
        if (!corners.every(([left, top]) => outline.isPointInFill(new DOMPoint(left, top)))) {
          problems.push({ kind: 'label outside its symbol', what: row.text });
        }
      }
      for (const [index, row] of rows.entries()) {
        for (const other of rows.slice(index + 1)) {
          if (row.owner !== other.owner && overlap(row, other)) {
            problems.push({ kind: 'labels overlap', what: `${row.text} | ${other.text}` });
          }
        }
      }
      const symbols = [...sheet.querySelectorAll('.node .symbol, .start .symbol, .connector .symbol')].flatMap(
        (symbol) => {
          const owner = symbol.closest('.node, .start, .connector');
          return symbol instanceof SVGGeometryElement && owner !== null ? [{ symbol, box: boxOf(symbol, owner) }] : [];
        },
      );
      for (const [index, { box }] of symbols.entries()) {
        for (const other of symbols.slice(index + 1)) {
          if (overlap(box, other.box)) {
            problems.push({ kind: 'symbols overlap', what: `${box.text} | ${other.box.text}` });
          }
        }
      }
      for (const line of sheet.querySelectorAll('.edge .line')) {
        const edge = line.closest('.edge');
        if (!(line instanceof SVGGeometryElement) || edge === null) continue;
        const [from, to] = [edge.getAttribute('data-from'), edge.getAttribute('data-to')];
        const crossed = new Set<string>();
        for (let way = 0; way <= line.getTotalLength(); way += 2) {
          const point = line.getPointAtLength(way);
          for (const row of rows) {
            if (row.owner !== edge && holds(row, point)) crossed.add(`line through a label: ${row.text}`);
          }
          for (const { symbol, box } of symbols) {
            const isOwn = box.text === from || box.text === to;
            if (!isOwn && holds(box, point) && symbol.isPointInFill(point))
              crossed.add(`line through a symbol: ${box.text}`);
          }
        }
        for (const what of crossed) {
          problems.push({
            kind: what.startsWith('line through a label') ? 'line through a label' : 'line through a symbol',
            what: `${from} to ${to}: ${what}`,
          });
        }
      }
    }
    return problems;
  });
}
