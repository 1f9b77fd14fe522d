import { makeElement } from '../kit/elements.ts';

/** Ways to hand the present state on. What needs them is script: the page leaves their place empty. */
export function makePanel(): readonly HTMLElement[] {
  const button = (does: string, text: string): HTMLElement =>
    makeElement(
      'button',
      {
        type: 'button',
        class: 'press plain',
        'data-do': does,
        hidden: does === 'send' && typeof navigator.share !== 'function' ? true : undefined,
      },
      text,
    );
  const field = (label: string, name: string, longest: string): HTMLElement =>
    makeElement(
      'label',
      {},
      label,
      makeElement('input', { name, dir: 'auto', maxlength: longest, autocomplete: 'off' }),
    );
  const format = (value: string, text: string, selected?: true): HTMLElement =>
    makeElement('option', { value, selected }, text);
  return [
    makeElement('h2', {}, 'Share'),
    makeElement(
      'p',
      { class: 'presses' },
      button('link', 'Copy a link to exactly this'),
      button('post', 'Copy as post'),
      button('send', 'Share…'),
      button('code', 'QR code'),
      button('ask', 'Ask for checks'),
    ),
    makeElement(
      'details',
      { class: 'post-words' },
      makeElement('summary', {}, 'Format and words of the post'),
      makeElement(
        'label',
        {},
        'Format',
        makeElement(
          'select',
          { name: 'format', autocomplete: 'off' },
          format('bbcode', 'BBCode'),
          format('commonmark', 'Markdown (CommonMark)', true),
          format('plain', 'Plain text'),
        ),
      ),
      field('Unit ', 'unit', '120'),
      field('What it does ', 'symptom', '200'),
      field('Your question ', 'question', '200'),
      makeElement(
        'label',
        {},
        'Anything else ',
        makeElement('textarea', { name: 'notes', dir: 'auto', rows: '2', maxlength: '900', autocomplete: 'off' }),
      ),
      makeElement('p', { class: 'hint' }, 'Saved in this tab. It goes into the post, never into the link.'),
    ),
    makeElement('p', { role: 'status', 'aria-live': 'polite', 'data-said': true }),
    makeElement('div', { 'data-shown': true }),
  ];
}
