import { copyText } from '../share/copy-text.ts';
import { postAsBbcode, postAsMarkdown } from '#core/post/draft.ts';
import { makeElement } from '../kit/elements.ts';
import { say } from './say.ts';

/** The draft as it is to be sent. */
export interface DraftToSend {
  readonly name: string;
  /** Path in the project. */
  readonly file: string;
  readonly text: string;
}

/** Listens to the buttons that hand the draft out: as a file, or as a post. */
export function listenForSending(root: HTMLElement, readDraft: () => DraftToSend): void {
  const on = (selector: string, act: () => void): void => root.querySelector(selector)?.addEventListener('click', act);
  on('[data-download]', () => download(root, readDraft()));
  on('[data-copy="markdown"]', () => {
    const { text, file } = readDraft();
    void copy(root, postAsMarkdown(text, file));
  });
  on('[data-copy="bbcode"]', () => {
    const { text, file } = readDraft();
    void copy(root, postAsBbcode(text, file));
  });
}

function download(root: HTMLElement, { name, text }: DraftToSend): void {
  const address = URL.createObjectURL(new Blob([text], { type: 'text/markdown' }));
  const link = makeElement('a', {});
  link.href = address;
  link.download = `${name}.mdx`;
  link.click();
  setTimeout(() => URL.revokeObjectURL(address), 10_000);
  say(root, 'sent', `${name}.mdx was handed to the browser’s downloads.`);
}

async function copy(root: HTMLElement, post: string | undefined): Promise<void> {
  if (post === undefined) {
    say(root, 'sent', 'The text holds [/code], which would end the block: attach the downloaded file instead.');
    return;
  }
  say(
    root,
    'sent',
    (await copyText(Promise.resolve(post)))
      ? 'Copied. Paste it into your post.'
      : 'The browser did not allow copying: download the file and attach it.',
  );
}
