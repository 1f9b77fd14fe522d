/** What a library calls itself and in which colours its pages stand: content/site.yaml. */
export interface Site {
  readonly name: string;
  /** One sentence: what the pages help with, for whom. */
  readonly summary: string;
  readonly colours: Readonly<Record<ColourScheme, Colours>>;
}

export const colourSchemes = ['light', 'dark'] as const;
export type ColourScheme = (typeof colourSchemes)[number];

/** All colours there are: ground, raised ground, text, lesser text, lines, thin lines, the signal, and text on the signal. */
export const colourNames = ['paper', 'card', 'ink', 'faint', 'rule', 'hair', 'signal', 'on-signal'] as const;
export type ColourName = (typeof colourNames)[number];
/** Each as `#rrggbb`. */
export type Colours = Readonly<Record<ColourName, string>>;

/** Where a library names no colour of its own. */
export const usualColours: Site['colours'] = {
  light: {
    paper: '#f6f2e8',
    card: '#fffdf7',
    ink: '#1d1b16',
    faint: '#57523f',
    rule: '#8d8672',
    hair: '#d8d1bd',
    signal: '#a8330a',
    'on-signal': '#fffdf7',
  },
  dark: {
    paper: '#15140f',
    card: '#1e1c16',
    ink: '#f1ebdb',
    faint: '#bdb5a0',
    rule: '#857d68',
    hair: '#3a362b',
    signal: '#ff9f6b',
    'on-signal': '#15140f',
  },
};

/** A library's own colours, and the usual one wherever it names none. */
export function completeColours(
  own: Readonly<Partial<Record<ColourScheme, Readonly<Partial<Record<ColourName, string | undefined>>>>>>,
): Site['colours'] {
  const complete = (scheme: ColourScheme): Colours => {
    const usual = usualColours[scheme];
    const at = (name: ColourName): string => own[scheme]?.[name] ?? usual[name];
    return {
      paper: at('paper'),
      card: at('card'),
      ink: at('ink'),
      faint: at('faint'),
      rule: at('rule'),
      hair: at('hair'),
      signal: at('signal'),
      'on-signal': at('on-signal'),
    };
  };
  return { light: complete('light'), dark: complete('dark') };
}

/**
 * Which colour lies on which, with the least contrast: WCAG 2.2, 1.4.3 for text, 1.4.11 for the frames of fields and buttons.
 * Thin lines only divide.
 */
export const contrastsNeeded: readonly (readonly [above: ColourName, below: ColourName, least: number])[] = [
  ['ink', 'paper', 4.5],
  ['ink', 'card', 4.5],
  ['faint', 'paper', 4.5],
  ['faint', 'card', 4.5],
  ['signal', 'paper', 4.5],
  ['signal', 'card', 4.5],
  ['on-signal', 'signal', 4.5],
  ['rule', 'paper', 3],
  ['rule', 'card', 3],
];

/**
 * Contrast of two colours, 1 to 21: WCAG 2.2, "contrast ratio" and "relative luminance".
 * @example contrastOf('#ffffff', '#000000') === 21
 */
export function contrastOf(one: string, other: string): number {
  const [darker = 0, lighter = 0] = [luminanceOf(one), luminanceOf(other)].toSorted((a, b) => a - b);
  return (lighter + 0.05) / (darker + 0.05);
}

function luminanceOf(colour: string): number {
  const [red = 0, green = 0, blue = 0] = [1, 3, 5].map((at) => {
    const share = Number.parseInt(colour.slice(at, at + 2), 16) / 255;
    return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
}

/** Where the file cannot be read: the check says so, and nothing is built. */
export const emptySite: Site = { name: '', summary: '', colours: usualColours };

/** Title of the first page and of the installed site. */
export function siteTitle({ name }: Pick<Site, 'name'>): string {
  return `${name}: from a symptom to a proven repair`;
}
