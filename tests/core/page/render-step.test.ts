import fc from 'fast-check';
import { JSDOM } from 'jsdom';
import { describe, expect, it } from 'vitest';
import { loadLibrary } from '#build/library.ts';
import type { Prose } from '#core/model/prose.ts';
import { type Markup, make, printHtml } from '#core/page/markup.ts';
import { renderProse } from '#core/page/render-prose.ts';
import { renderStep } from '#core/page/render-step.ts';
import { say } from '../../support/say.ts';

const { document } = new JSDOM('').window;

/** What a reader of HTML makes of it. */
function readHtml(html: string): Element | null {
  const template = document.createElement('template');
  template.innerHTML = html;
  return template.content.firstElementChild;
}

describe('printed elements', () => {
  it('give back every text and attribute to a reader of HTML, whatever stands in them', () => {
    const text = fc.string({ unit: 'grapheme' }).map((any) => any.replace(/[\0\r]/g, ''));
    fc.assert(
      fc.property(text, text, (inside, value) => {
        const read = readHtml(printHtml(make('p', { title: value }, 'a', inside, make('em', {}, inside))));
        expect(read?.getAttribute('title')).toBe(value);
        expect(read?.textContent).toBe(`a${inside}${inside}`);
        expect(read?.querySelectorAll('*')).toHaveLength(1);
      }),
    );
  });

  it('are no markup where an author typed some', () => {
    const typed = '<img src=x onerror=alert(1)> & "x"';
    expect(printHtml(make('p', { title: typed }, typed))).toBe(
      '<p title="&lt;img src=x onerror=alert(1)&gt; &amp; &quot;x&quot;">&lt;img src=x onerror=alert(1)&gt; &amp; "x"</p>',
    );
  });

  it('leave out an attribute that is undefined or false, and end no element that has no end', () => {
    expect(printHtml(make('input', { checked: true, hidden: false, name: undefined }))).toBe('<input checked>');
  });
});

describe('prose', () => {
  const print = (prose: Prose, base = '/'): string => printHtml(...renderProse(prose, base));

  // The marks as English is set: U+2018/2019 and U+201C/201D turned to their word, U+2019 as the apostrophe.
  it.each([
    [`It's "dead".`, 'It’s “dead”.'],
    [`"Run" and 'stop'`, '“Run” and ‘stop’'],
    [`the '80s, chips' pins`, 'the ’80s, chips’ pins'],
    ['(marked "L")', '(marked “L”)'],
    ['low -- or none ...', 'low – or none …'],
  ])('has its quotes printed: %s', (typed, printed) => {
    expect(print(say(typed))).toBe(`<p>${printed}</p>`);
  });

  it('closes a quote behind an emphasised word', () => {
    const parts = [
      { kind: 'text', text: 'the "' },
      { kind: 'strong', parts: [{ kind: 'text', text: 'L' }] },
      { kind: 'text', text: '" mark' },
    ] as const;
    expect(print([{ kind: 'paragraph', parts }])).toBe('<p>the “<strong>L</strong>” mark</p>');
  });

  it('has its links below the base, its code as typed, and numbers where the list has them', () => {
    const link = { kind: 'link', address: '/targets/rail/', parts: [{ kind: 'text', text: 'rail' }] } as const;
    const prose: Prose = [
      { kind: 'paragraph', parts: [link, { kind: 'break' }, { kind: 'code', text: `"A<1"` }] },
      { kind: 'list', start: 2, items: [say('Unplug.'), say('Wait.')] },
      { kind: 'list', start: undefined, items: [[...say('One.'), { kind: 'list', start: 1, items: [say('In it.')] }]] },
    ];
    expect(print(prose, '/workshop/')).toBe(
      '<p><a href="/workshop/targets/rail/">rail</a><br><code>"A&lt;1"</code></p>' +
        '<ol start="2"><li>Unplug.</li><li>Wait.</li></ol>' +
        '<ul><li>One.<ol><li>In it.</li></ol></li></ul>',
    );
  });
});

describe('a step', () => {
  const library = loadLibrary();
  const steps = [...library.trees.values()].flatMap((tree) => tree.nodes.map((node) => ({ tree, node })));
  const render = (at: (typeof steps)[number], use: 'page' | 'paper' | 'draft'): Markup =>
    renderStep(at.node, {
      tree: at.tree,
      references: library,
      titleOf: (slug) => library.trees.get(slug)?.title,
      base: '/',
      use,
    });
  const textsOf = (markup: Markup): readonly string[] =>
    markup.children.flatMap((child) => (typeof child === 'string' ? [child] : textsOf(child)));

  it.each(['draft', 'paper'] as const)('says nothing as %s that its own page does not say, for every step', (use) => {
    for (const at of steps) {
      const page = new Set(textsOf(render(at, 'page')));
      expect(
        textsOf(render(at, use)).filter((text) => !page.has(text)),
        at.node.id,
      ).toEqual([]);
    }
    expect(steps.length).toBeGreaterThan(0);
  });

  it('asks nothing of a powered unit where only what is beside it runs', () => {
    const beside = steps.filter(({ node }) => 'power' in node && node.power === 'accessory');
    for (const at of beside) {
      const html = readHtml(printHtml(render(at, 'page')));
      const states = [...(html?.querySelectorAll('[data-state]') ?? [])].map((box) => box.getAttribute('data-state'));
      expect(
        states.filter((state) => state !== 'off'),
        at.node.id,
      ).toEqual([]);
      expect(html?.querySelector('[data-caution="first-plug"]'), at.node.id).toBeNull();
      expect(html?.querySelector('.title-block')?.textContent, at.node.id).toContain('unit off');
    }
    expect(beside.length).toBeGreaterThan(0);
  });

  it('has its cautions before its title, and nothing before its cautions, for every step', () => {
    for (const at of steps) {
      const { children } = render(at, 'page');
      const classes = children.map((child) => (typeof child === 'string' ? child : child.attributes['class']));
      expect(classes.filter((name) => name !== undefined).join(' '), at.node.id).toMatch(/^(cautions )?step$/);
    }
  });
});
