import type { Locator } from 'playwright-core';

/** A text on the page and its contrast ratio, 1 to 21. */
export interface Contrast {
  readonly text: string;
  readonly ratio: number;
}

/**
 * The contrast of every text that is shown: its colour against the nearest opaque ground behind it. Relative luminance and ratio as
 * WCAG 2.2 defines them (https://www.w3.org/TR/WCAG22/#dfn-contrast-ratio).
 */
export async function readContrast(texts: Locator): Promise<readonly Contrast[]> {
  return texts.evaluateAll((elements) => {
    const partsOf = (colour: string): readonly number[] => (colour.match(/[\d.]+/gu) ?? []).map(Number);
    const luminanceOf = (colour: string): number => {
      const [red = 0, green = 0, blue = 0] = partsOf(colour).map((part) => {
        const share = part / 255;
        return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
      });
      return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
    };
    const groundOf = (element: Element): string => {
      for (let at: Element | null = element; at !== null; at = at.parentElement) {
        const ground = getComputedStyle(at).backgroundColor;
        if ((partsOf(ground)[3] ?? 1) === 1) return ground;
      }
      return 'rgb(255, 255, 255)';
    };
    return elements
      .filter((element) => element.checkVisibility())
      .map((element) => {
        const [dark = 0, light = 0] = [getComputedStyle(element).color, groundOf(element)]
          .map(luminanceOf)
          .sort((one, other) => one - other);
        const text = element instanceof HTMLInputElement ? element.value : (element.textContent ?? '');
        return { text: text.trim(), ratio: (light + 0.05) / (dark + 0.05) };
      });
  });
}
