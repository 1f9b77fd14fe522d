import { copyText, makeTextToCopy } from './copy-text.ts';
import { keepOwnerWords, readOwnerWords } from './owner-words.ts';
import { linkTo, type PageState, readPageState } from './page-state.ts';

/** What the buttons of a share panel do. */
export class ShareDesk {
  readonly #panel: HTMLElement;

  constructor(panel: HTMLElement) {
    this.#panel = panel;
    keepOwnerWords(panel);
  }

  /** Does what the button of that name says, with the page as it stands now. */
  press(name: string): void {
    const page = readPageState();
    this.#say('');
    if (page === undefined) return;
    if (name === 'link') this.#copyLink(page);
    else if (name === 'post') this.#copyPost(page);
    else this.#attempt(name === 'send' ? this.#send(page) : name === 'code' ? this.#showCode(page) : this.#ask(page));
  }

  #copyLink({ map, node, state }: PageState): void {
    this.#copy(Promise.resolve(linkTo(map, node, state)), 'Link copied.', false);
  }

  #copyPost(page: PageState): void {
    const { format, ...words } = readOwnerWords(this.#panel);
    const post = import('./write-page-post.ts').then(({ writePagePost }) => writePagePost({ ...page, words }, format));
    this.#copy(post, 'Post copied:', true);
  }

  async #send(page: PageState): Promise<void> {
    const { writeShareText } = await import('./write-page-post.ts');
    const { text, url } = await writeShareText({ ...page, words: readOwnerWords(this.#panel) });
    await navigator.share({ title: page.map.title, text, url }).catch((error: unknown) => {
      if (!(error instanceof DOMException && error.name === 'AbortError')) throw error;
    });
  }

  async #showCode({ map, node, state }: PageState): Promise<void> {
    const { drawCode } = await import('./draw-code.ts');
    const code = drawCode(linkTo(map, node, state));
    if (code === undefined) this.#say('This state is too long for a QR code. Copy the link instead.');
    else this.#show(code);
  }

  async #ask(page: PageState): Promise<void> {
    const { makeAskForm } = await import('./ask-form.ts');
    this.#show(
      await makeAskForm(page, {
        copyLink: (asking) => this.#copyLink(asking),
        copyPost: (asking) => this.#copyPost(asking),
        say: (text) => this.#say(text),
      }),
    );
  }

  /** Copies and says so; shows the text where it is worth reading, and where the browser refused. */
  #copy(text: Promise<string>, done: string, isWorthReading: boolean): void {
    const copying = copyText(text);
    this.#attempt(
      text.then(async (said) => {
        const isCopied = await copying;
        this.#say(isCopied ? done : 'The browser did not allow it. Copy it from here:');
        if (isCopied && !isWorthReading) return;
        const area = makeTextToCopy(said, isCopied ? 'What was copied' : 'Text to copy');
        this.#show(area);
        if (!isCopied) area.select();
      }),
    );
  }

  #show(part: HTMLElement): void {
    const place = this.#panel.querySelector('[data-shown]');
    // A form that asks stays open above what it gave.
    const asking = part.matches('textarea') ? [...(place?.querySelectorAll('form') ?? [])] : [];
    place?.replaceChildren(...asking, part);
    part.scrollIntoView({ block: 'nearest' });
  }

  #say(text: string): void {
    const said = this.#panel.querySelector('[data-said]');
    if (said !== null) said.textContent = text;
  }

  #attempt(work: Promise<void>): void {
    work.catch(() => this.#say('Something could not be loaded. Your answers are safe; try again.'));
  }
}
