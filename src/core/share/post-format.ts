/** The markups a post can be copied in: as boards of different ages take it. */
export const postFormats = ['bbcode', 'commonmark', 'plain'] as const;

export type PostFormat = (typeof postFormats)[number];
