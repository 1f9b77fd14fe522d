import { encode } from 'uqr';
import { makeDrawn, makeElement } from '../kit/elements.ts';

/** Modules of white around the code: ISO/IEC 18004:2015, clause 5.3.8, asks for four. */
const quietZone = 4;
/** Bytes that the largest code holds at its lowest correction: ISO/IEC 18004:2015, table 7. */
const mostBytes = 2953;

/** A figure with the QR code of an address, or undefined where the address is too long for one. */
export function drawCode(address: string): HTMLElement | undefined {
  if (new TextEncoder().encode(address).length > mostBytes) return undefined;
  const { data, size } = encode(address, { ecc: 'L', boostEcc: true, border: quietZone });
  const path = data.flatMap((row, y) => row.map((isDark, x) => (isDark ? `M${x} ${y}h1v1h-1z` : ''))).join('');
  const drawing = makeDrawn(
    'svg',
    {
      viewBox: `0 0 ${size} ${size}`,
      role: 'img',
      'aria-label': 'QR code of the address below',
      'shape-rendering': 'crispEdges',
    },
    makeDrawn('path', { class: 'ground', d: `M0 0h${size}v${size}h-${size}z` }),
    makeDrawn('path', { class: 'modules', d: path }),
  );
  return makeElement(
    'figure',
    { class: 'code' },
    drawing,
    makeElement(
      'figcaption',
      {},
      'Point another screen’s camera here: it opens exactly this. ',
      makeElement('code', {}, address),
    ),
  );
}
