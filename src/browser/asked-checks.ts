import { sayAnswer } from '#core/answer/say.ts';
import { askedChecks, openAsked } from '#core/answer/lead.ts';
import type { LinkState } from '#core/answer/answer.ts';
import { makeButton, makeElement } from './kit/elements.ts';
import { copyText, makeTextToCopy } from './share/copy-text.ts';
import { linkTo, type PageState, readPageState } from './share/page-state.ts';

/**
 * `<asked-checks>`: where a link asks for checks, lists them with their answers and marks the present one. Answering leads from one
 * to the next; the cautions of each stay in front of it. At the end the answers are copied as a post with their link.
 */
class AskedChecks extends HTMLElement {
  /** How many were without an answer when this was last drawn. */
  #open = 0;

  connectedCallback(): void {
    document.addEventListener('walk-read', this.#draw);
    this.#draw();
  }

  disconnectedCallback(): void {
    document.removeEventListener('walk-read', this.#draw);
  }

  readonly #draw = (): void => {
    const page = readPageState();
    const asked = page === undefined ? [] : askedChecks(page.state);
    this.hidden = asked.length === 0;
    this.replaceChildren();
    if (page === undefined || asked.length === 0) return;
    const open = openAsked(page.state).length;
    const heading = open === 0 ? 'All answered' : `You were asked for ${countChecks(asked.length)}`;
    this.append(
      makeElement('h2', {}, heading),
      makeElement('ol', {}, ...asked.map((id) => this.#makeItem(id, page))),
      ...this.#makeMoves(page, open, asked.length),
    );
    void this.#tellAnswers(page);
    // The last answer stays on its page: what to do next is up here.
    if (open === 0 && this.#open > 0) this.querySelector('button')?.focus();
    this.#open = open;
  };

  #makeItem(id: string, { map, node, state }: PageState): HTMLLIElement {
    const title = map.nodes.find((mapped) => mapped.id === id)?.title ?? id;
    const isHere = id === node;
    const isAnswered = state.answers.some((answer) => answer.tree === undefined && answer.node === id);
    const pending = isAnswered ? '…' : isHere ? '(this one)' : '';
    return makeElement(
      'li',
      {},
      makeElement('a', { href: linkTo(map, id, state), 'aria-current': isHere ? 'step' : undefined }, title),
      makeElement('b', { 'data-asked': id }, ` ${pending}`),
    );
  }

  /** In the words of the buttons pressed, which are fetched; in bare words where they cannot be fetched. */
  async #tellAnswers({ map, state }: PageState): Promise<void> {
    const own = state.answers.filter(({ tree }) => tree === undefined);
    const places = [...this.querySelectorAll<HTMLElement>('[data-asked]')];
    if (own.length === 0) return;
    const say = await import('./share/say-answers.ts')
      .then(({ makeSayer }) => makeSayer(map.slug))
      .catch(() => sayAnswer);
    for (const place of places) {
      const said = own.filter(({ node }) => node === place.dataset['asked']).map((answer) => say(answer));
      if (said.length > 0) place.textContent = ` ${said.join(', ')}`;
    }
  }

  #makeMoves({ map, node, state }: PageState, open: number, asked: number): readonly HTMLElement[] {
    const own: LinkState = { ...state, ask: [] };
    const copy = makeButton('Copy my answers', open === 0 ? 'press' : 'press plain', () => {
      void this.#copyAnswers({ map, node: undefined, state: own });
    });
    const leave = makeElement('a', { href: linkTo(map, node, own) }, 'Go on without these questions');
    return [
      makeElement('p', { class: 'presses' }, ...(open < asked ? [copy] : []), leave),
      makeElement('p', { role: 'status' }),
    ];
  }

  async #copyAnswers(page: PageState): Promise<void> {
    const parts = Promise.all([import('./share/write-page-post.ts'), import('./share/owner-words.ts')]);
    const post = parts.then(([{ writePagePost }, { readOwnerWords }]) => {
      const { format, ...words } = readOwnerWords(document);
      const question =
        words.question.trim() === '' ? 'These are the answers you asked for. What next?' : words.question;
      return writePagePost({ ...page, words: { ...words, question } }, format);
    });
    const isCopied = await copyText(post);
    const said = this.querySelector('[role="status"]');
    const text = await post.catch(() => undefined);
    if (said === null) return;
    if (text === undefined) said.textContent = 'Something could not be loaded. Your answers are safe; try again.';
    else if (isCopied) said.textContent = 'Copied: paste it where you were asked.';
    else {
      said.textContent = 'The browser did not allow it. Copy it from here:';
      const area = makeTextToCopy(text, 'Text to copy');
      said.after(area);
      area.select();
    }
  }
}

function countChecks(count: number): string {
  return count === 1 ? 'one check' : `${count} checks`;
}

customElements.define('asked-checks', AskedChecks);
