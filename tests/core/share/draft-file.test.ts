import { Parser } from 'commonmark';
import { describe, expect, it } from 'vitest';
import { fileOfDraft, postAsBbcode, postAsMarkdown, slugOfDraft } from '#core/share/draft-file.ts';

describe('the place of a draft', () => {
  it('is the folder of its block', () => {
    expect(fileOfDraft('---\ntitle: T\nblock: power\n---\n', 'no-sound')).toBe('content/trees/power/no-sound.mdx');
    expect(fileOfDraft("---\r\nblock: 'cpu-bus'\r\n", 'no-sound')).toBe('content/trees/cpu-bus/no-sound.mdx');
  });

  it.each(['', 'block:', 'block: ../../etc', 'block: <script>'])(
    'is named as missing where there is no block: %s',
    (text) => {
      expect(fileOfDraft(text, 'no-sound')).toBe('content/trees/no-block-yet/no-sound.mdx');
    },
  );

  it.each([
    [' No-Sound ', 'no-sound'],
    ['../up', 'untitled'],
    ['a--b', 'untitled'],
    ['', 'untitled'],
    ['x'.repeat(41), 'untitled'],
  ])('takes %j as the name %s', (typed, slug) => {
    expect(slugOfDraft(typed)).toBe(slug);
  });
});

describe('a draft in a post', () => {
  it.each(['plain\n', 'a ``` fence\n', `${'`'.repeat(9)}\n`, 'no end of line'])(
    'is one block of code for a reader of Markdown, whatever ticks it holds: %j',
    (text) => {
      const walker = new Parser().parse(postAsMarkdown(text, 'content/trees/power/a.mdx')).walker();
      const blocks: (string | null)[] = [];
      for (let event = walker.next(); event !== null; event = walker.next()) {
        if (event.node.type === 'code_block') blocks.push(event.node.literal);
      }

      expect(blocks).toEqual([text.replace(/\n?$/u, '\n')]);
    },
  );

  it('is code in BBCode, and says that it cannot be where the text would end it', () => {
    expect(postAsBbcode('a\n', 'f.mdx')).toBe('f.mdx\n[code]\na\n[/code]\n');
    expect(postAsBbcode('a [/CODE] b', 'f.mdx')).toBeUndefined();
  });
});
