import { Resvg } from '@resvg/resvg-js';
import { createMeasureText, sheetFontFile } from '../graphs.ts';
import { drawPreview, type Pen, type PreviewMatter } from './draw-preview.ts';
import { createTraceText } from './trace-text.ts';
import { writeIndexedPng } from './write-indexed-png.ts';

let pen: Pen | undefined;

/** A preview as a PNG of 1200 × 630 pixels. */
export function renderPreview(matter: PreviewMatter): Uint8Array<ArrayBuffer> {
  pen ??= { trace: createTraceText(sheetFontFile), measure: createMeasureText(sheetFontFile) };
  const options = { font: { loadSystemFonts: false } };
  return writeIndexedPng(new Resvg(drawPreview(matter, pen), options).render());
}
