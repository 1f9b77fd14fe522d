import { boardOf, type Placement, type Spot } from '#core/model/placement.ts';
import { readPlacement } from '#core/model/placement-schema.ts';
import { type BoardSide, type LitPoint, renderLit } from '#core/page/draw-placement.ts';
import { drawingHere } from './job-memory.ts';
import { makeButton, makeElement, makeNodes } from './kit/elements.ts';

/**
 * Puts the stretch of the board with its point lit beside each point of the step: of the unit that was chosen, else as the reader drew
 * the boards. The stages of a path share one drawing, each under the flag with its number.
 */
export function showPlaced(root: ParentNode, ofUnit: Placement | undefined): void {
  for (const figure of root.querySelectorAll('[data-placed]')) figure.remove();
  const placement = ofUnit ?? readPlacement(drawingHere());
  if (placement === undefined) return;
  for (const list of root.querySelectorAll<HTMLElement>('ol.stages')) {
    const stages = [...list.querySelectorAll<HTMLElement>('li[data-stage]')];
    const points = stages.flatMap((stage, index): readonly LitPoint[] => {
      const spots = spotsAt(stage.querySelector<HTMLElement>('[data-point]'), placement);
      const title = stage.querySelector('h2, h3')?.textContent ?? '';
      return spots === undefined ? [] : [{ among: { number: index + 1, title }, spots }];
    });
    if (points.length > 0) list.before(makeFigure(placement, points));
  }
  for (const place of root.querySelectorAll<HTMLElement>('[data-point]:not(li *)')) {
    const spots = spotsAt(place, placement);
    if (spots === undefined) continue;
    const details = place.querySelector<HTMLDetailsElement>('details.place');
    if (details !== null) details.open = true;
    (details ?? place).append(makeFigure(placement, [{ among: undefined, spots }]));
  }
}

function spotsAt(place: HTMLElement | null, { points }: Placement): readonly Spot[] | undefined {
  const point = place?.dataset['point'] ?? '';
  return Object.hasOwn(points, point) ? points[point] : undefined;
}

function makeFigure(placement: Placement, points: readonly LitPoint[]): HTMLElement {
  const figure = makeElement('figure', { class: 'pins', 'data-placed': true });
  const hasSides = points.some(({ spots }) => spots.some((spot) => boardOf(placement, spot)?.seen === undefined));
  const draw = (side: BoardSide): void => {
    const other = side === 'solder' ? 'component' : 'solder';
    const turn = makeButton(`From the ${other} side`, 'press plain small', () => {
      draw(other);
      figure.querySelector('button')?.focus();
    });
    const drawn = makeNodes(...renderLit(placement, points, side));
    figure.replaceChildren(...drawn, ...(hasSides ? [makeElement('p', { class: 'moves' }, turn)] : []));
  };
  draw('component');
  return figure;
}
