import { satteri } from '@astrojs/markdown-satteri';

/**
 * How Astro reads the prose of content/: plain CommonMark, as the compiler does, so that no bare address becomes a link and nothing
 * becomes a table behind its back. Quotes are curled and dashes joined.
 */
export const markdownSettings = { syntaxHighlight: false, processor: satteri({ features: { gfm: false } }) };
