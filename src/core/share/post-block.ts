/** A post before it is written in a markup: what any text for a forum or a log is made of. Texts may be hostile. */
export type PostBlock =
  /** `level` as in HTML, 1 to 3; 3 where it is left out, as a post stands below the title of its thread. */
  | { readonly kind: 'heading'; readonly text: string; readonly level?: 1 | 2 | 3 }
  | { readonly kind: 'paragraph'; readonly spans: readonly PostSpan[] }
  | { readonly kind: 'list'; readonly items: readonly (readonly PostSpan[])[] }
  /** An address of this site, alone on its line; it must be http or https, else it is left out. */
  | { readonly kind: 'link'; readonly address: string };

/** A run of text within a line. */
export interface PostSpan {
  readonly text: string;
  readonly isStrong?: boolean;
}

/** The longest text that one span of a post may hold; the rest is cut with an ellipsis. */
export const longestSpan = 1000;
