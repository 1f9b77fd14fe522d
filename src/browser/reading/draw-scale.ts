import type { Target } from '#core/model/target.ts';
import { printHealthy, printLimit, printWord } from '#core/model/target-text.ts';
import { type DrawnReading, type DrawnZone, layOutScale } from '#core/reading/scale.ts';
import { makeDrawn } from '../kit/elements.ts';

const width = 360;
const height = 96;
const top = 26;
const bottom = 54;
let drawn = 0;

/**
 * The verdict as a drawing: zones with their names, the limits between them, the reading with the interval that holds the true value
 * 19 times in 20. Zones outside the healthy one are hatched. A screen reader says what is healthy; the words beside it say the rest.
 */
export function drawScale(target: Target, value: number | undefined, uncertainty: number, verdict: string): SVGElement {
  const { zones, limits, reading } = layOutScale(target, value, uncertainty);
  drawn += 1;
  const hatch = `scale-hatch-${drawn}`;
  return makeDrawn(
    'svg',
    {
      class: 'scale',
      viewBox: `0 0 ${width} ${height}`,
      role: 'img',
      'aria-label': `Scale. Healthy: ${printHealthy(target)}`,
    },
    makeDrawn(
      'defs',
      {},
      makeDrawn(
        'pattern',
        { id: hatch, width: 6, height: 6, patternUnits: 'userSpaceOnUse', patternTransform: 'rotate(45)' },
        makeDrawn('line', { class: 'hatch', x1: 0, y1: 0, x2: 0, y2: 6 }),
      ),
    ),
    ...zones.map((zone) => drawZone(zone, hatch, zone.name === verdict)),
    ...limits.flatMap(({ at, value: limit }) => drawLimit(at, printLimit(limit, target))),
    ...(reading === undefined ? [] : drawReading(reading)),
  );
}

function place(share: number): number {
  return 4 + share * (width - 8);
}

function drawZone({ name, from, to }: DrawnZone, hatch: string, isVerdict: boolean): SVGElement {
  const label = makeDrawn('text', { class: 'zone-name', x: place((from + to) / 2), y: bottom + 17 });
  for (const [line, text] of printWord(name).split(' ').entries()) {
    label.append(makeDrawn('tspan', { x: place((from + to) / 2), dy: line === 0 ? 0 : 14 }, text));
  }
  const box = { x: place(from), y: top, width: place(to) - place(from), height: bottom - top };
  return makeDrawn(
    'g',
    { class: isVerdict ? 'zone verdict' : 'zone' },
    makeDrawn('rect', { ...box, class: 'zone-box', ...(name === 'in' ? {} : { fill: `url(#${hatch})` }) }),
    label,
  );
}

function drawLimit(at: number, text: string): readonly SVGElement[] {
  return [
    makeDrawn('line', { class: 'tick', x1: place(at), x2: place(at), y1: top - 7, y2: bottom }),
    makeDrawn('text', { class: 'limit', x: place(at), y: top - 11 }, text),
  ];
}

function drawReading({ at, from, to }: DrawnReading): readonly SVGElement[] {
  const middle = (top + bottom) / 2;
  const [left, centre, right] = [place(from), place(at), place(to)];
  return [
    makeDrawn('path', { class: 'doubt-ground', d: `M${left} ${middle}H${right}` }),
    makeDrawn('path', {
      class: 'doubt',
      d: `M${left} ${middle - 7}v14M${left} ${middle}H${right}M${right} ${middle - 7}v14`,
    }),
    makeDrawn('path', { class: 'pointer', d: `M${centre} ${top - 2}V${bottom + 2}` }),
  ];
}
