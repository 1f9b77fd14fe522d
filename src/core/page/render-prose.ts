import type { Phrase, Prose, ProseBlock } from '../model/prose.ts';
import { make, type Markup } from './markup.ts';

/**
 * The elements of an author's sentences. Links go below `base` (`/` or `/sub-path/`); typed quotes and dashes become the
 * printed ones.
 */
export function renderProse(prose: Prose, base: string): readonly Markup[] {
  return prose.map((block) => renderBlock(block, base));
}

function renderBlock(block: ProseBlock, base: string): Markup {
  if (block.kind === 'paragraph') return make('p', {}, renderPhrases(block.parts, base));
  const { start, items } = block;
  return make(
    start === undefined ? 'ul' : 'ol',
    { start: start === undefined || start === 1 ? undefined : String(start) },
    items.map((item) => make('li', {}, renderItem(item, base))),
  );
}

/** A single paragraph, with or without a list below it, is the item’s own text. */
function renderItem(item: Prose, base: string): readonly (Markup | string)[] {
  const [first, ...rest] = item;
  if (first?.kind !== 'paragraph' || rest.some(({ kind }) => kind === 'paragraph')) return renderProse(item, base);
  return [...renderPhrases(first.parts, base), ...renderProse(rest, base)];
}

function renderPhrases(phrases: readonly Phrase[], base: string): readonly (Markup | string)[] {
  let before = '';
  const render = (phrase: Phrase): Markup | string => {
    switch (phrase.kind) {
      case 'text': {
        const text = printQuotes(phrase.text, before);
        before = text.at(-1) ?? before;
        return text;
      }
      case 'code':
        before = 'x';
        return make('code', {}, phrase.text);
      case 'break':
        before = '';
        return make('br', {});
      case 'link':
        return make('a', { href: base + phrase.address.slice(1) }, phrase.parts.map(render));
      case 'emphasis':
        return make('em', {}, phrase.parts.map(render));
      case 'strong':
        return make('strong', {}, phrase.parts.map(render));
    }
  };
  return phrases.map(render);
}

/**
 * Straight quotes as the printed ones, `--` and `---` as dashes, `...` as an ellipsis. `before` is the character in front of the
 * text, which decides whether a quote opens.
 * @example printQuotes(`it's "dead"`, '') // 'it’s “dead”'
 */
function printQuotes(text: string, before: string): string {
  return text
    .replace(/["']/g, (quote, index: number) => {
      const last = index === 0 ? before : text.charAt(index - 1);
      const isOpening = /^$|[\s([{\u2013\u2014"'“‘-]/.test(last) && !/\s/.test(text.charAt(index + 1));
      if (quote === '"') return isOpening ? '“' : '”';
      return isOpening && !/\d/.test(text.charAt(index + 1)) ? '‘' : '’';
    })
    .replaceAll('---', '—')
    .replaceAll('--', '–')
    .replaceAll('...', '…');
}
