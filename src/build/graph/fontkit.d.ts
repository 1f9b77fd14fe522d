/** The part of fontkit that measures text; the package brings no types. */
declare module 'fontkit' {
  interface GlyphRun {
    readonly advanceWidth: number;
  }
  interface Font {
    readonly unitsPerEm: number;
    hasGlyphForCodePoint(codePoint: number): boolean;
    layout(text: string): GlyphRun;
  }
  export function create(bytes: Uint8Array): Font;
}
