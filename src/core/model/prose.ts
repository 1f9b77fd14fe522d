/**
 * An author's sentences as the compiler read them: paragraphs and lists, in order. Nothing else is prose, and nothing in it
 * is markup: pages render this, and rules, search and the published data read its plain text by `listParagraphs`.
 */
export type Prose = readonly ProseBlock[];
export type ProseBlock = Paragraph | List;

export interface Paragraph {
  readonly kind: 'paragraph';
  readonly parts: readonly Phrase[];
}

export interface List {
  readonly kind: 'list';
  /** Number of the first item; undefined where the items have no numbers. */
  readonly start: number | undefined;
  readonly items: readonly Prose[];
}

export type Phrase =
  | { readonly kind: 'text' | 'code'; readonly text: string }
  | { readonly kind: 'emphasis' | 'strong'; readonly parts: readonly Phrase[] }
  /** `address` is that of a page of this site, from its root: `/targets/slug/`. The compiler lets no other through. */
  | { readonly kind: 'link'; readonly address: string; readonly parts: readonly Phrase[] }
  | { readonly kind: 'break' };

/** Plain text of each paragraph and list item, in order, with single spaces and quotes as they were typed. */
export function listParagraphs(prose: Prose): readonly string[] {
  return prose.flatMap((block) =>
    block.kind === 'list'
      ? block.items.flatMap(listParagraphs)
      : [block.parts.map(plainText).join('').replace(/\s+/g, ' ').trim()],
  );
}

function plainText(phrase: Phrase): string {
  switch (phrase.kind) {
    case 'text':
    case 'code':
      return phrase.text;
    case 'break':
      return ' ';
    default:
      return phrase.parts.map(plainText).join('');
  }
}
