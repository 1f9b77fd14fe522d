import { graphOf } from '#core/figure/decision-graph.ts';
import type { MeasureText } from '#core/figure/label.ts';
import { arrangeNeighbourhood } from '#core/figure/neighbourhood.ts';
import { drawSheet } from '#core/figure/sheet.ts';
import { emptyLinkState } from '#core/answer/answer.ts';
import { parseDrawing } from '../kit/trusted.ts';
import type { WalkPage } from './walk-page.ts';

/** Draws a step with those one before and after it into `canvas`, out of the tree's map, in the type that the page has loaded. */
export async function drawNear(canvas: Element, page: WalkPage, here: string): Promise<void> {
  await document.fonts.load('600 15px Sheet');
  const sheet = arrangeNeighbourhood(graphOf(page.map), here, measureInPage());
  const text = drawSheet(sheet, {
    name: 'Where this step sits in its tree',
    idPrefix: 'near',
    findAddress: (node) => page.addressIn(node, emptyLinkState),
    here,
  });
  canvas.replaceChildren(...[parseDrawing(text) ?? []].flat());
}

function measureInPage(): MeasureText {
  const pen = document.createElement('canvas').getContext('2d');
  if (pen === null) throw new Error('This browser cannot measure text.');
  pen.font = '600 100px Sheet';
  const widths = new Map<string, number>();
  return (text, sizePixels) => {
    const width = widths.get(text) ?? pen.measureText(text).width / 100;
    widths.set(text, width);
    return width * sizePixels;
  };
}
