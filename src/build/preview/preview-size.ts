/** Size of every preview, in pixels: what readers of links show whole. */
export const previewSize = { width: 1200, height: 630 } as const;
