/** The part of fontkit that measures text and gives its outlines; the package brings no types. */
declare module 'fontkit' {
  interface GlyphRun {
    readonly advanceWidth: number;
    readonly glyphs: readonly { readonly path: { toSVG(): string } }[];
    readonly positions: readonly { readonly xAdvance: number; readonly xOffset: number }[];
  }
  interface Font {
    readonly unitsPerEm: number;
    hasGlyphForCodePoint(codePoint: number): boolean;
    layout(text: string): GlyphRun;
  }
  export function create(bytes: Uint8Array): Font;
}
