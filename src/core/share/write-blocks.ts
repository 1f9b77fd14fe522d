import { cleanText } from './clean-text.ts';
import { escapeLineStart, escapeText } from './escape-text.ts';
import { longestSpan, type PostBlock, type PostSpan } from './post-block.ts';
import type { PostFormat } from './post-format.ts';

/**
 * Writes blocks in a markup. Every text is cleaned and escaped here, so that whatever a person typed into it reads as text
 * and cannot open a tag, a link, a picture, a heading or a new line. `longest` is what one span may hold, in characters.
 */
export function writeBlocks(blocks: readonly PostBlock[], format: PostFormat, longest: number = longestSpan): string {
  return blocks
    .map((block) => writeBlock(block, format, longest))
    .filter((text) => text !== '')
    .join('\n\n');
}

function writeBlock(block: PostBlock, format: PostFormat, longest: number): string {
  switch (block.kind) {
    case 'heading':
      return writeHeading(block.text, block.level ?? 3, format);
    case 'paragraph':
      return writeSpans(block.spans, format, longest);
    case 'list':
      return writeList(block.items, format, longest);
    case 'link':
      return writeLink(block.address, format);
  }
}

function writeHeading(text: string, level: 1 | 2 | 3, format: PostFormat): string {
  const line = escapeText(cleanText(text, longestSpan), format);
  if (line === '') return '';
  return { bbcode: `[b]${line}[/b]`, commonmark: `${'#'.repeat(level)} ${line}`, plain: line }[format];
}

function writeSpans(spans: readonly PostSpan[], format: PostFormat, longest: number): string {
  const runs = spans
    .map(({ text, isStrong = false }) => ({ line: cleanText(text, longest), isStrong }))
    .filter(({ line }) => line !== '');
  return runs
    .map(({ line, isStrong }, index) => {
      const text = escapeText(line, format);
      if (!isStrong || format === 'plain') return index === 0 ? escapeLineStart(text, format) : text;
      return format === 'bbcode' ? `[b]${text}[/b]` : `**${text}**`;
    })
    .join(' ');
}

function writeList(items: readonly (readonly PostSpan[])[], format: PostFormat, longest: number): string {
  const lines = items.map((spans) => writeSpans(spans, format, longest)).filter((line) => line !== '');
  if (lines.length === 0) return '';
  if (format === 'bbcode') return ['[list]', ...lines.map((line) => `[*]${line}`), '[/list]'].join('\n');
  return lines.map((line) => `- ${line}`).join('\n');
}

function writeLink(address: string, format: PostFormat): string {
  const safe = readAddress(address);
  if (safe === undefined) return '';
  return { bbcode: `[url]${safe}[/url]`, commonmark: `<${safe}>`, plain: safe }[format];
}

/** The address where it is http or https and made of letters that no markup gives a meaning to. */
function readAddress(address: string): string | undefined {
  return /^https?:\/\/[\w.:-]+\/[\w.,:/#=&%~-]*$/.test(address) ? address : undefined;
}
