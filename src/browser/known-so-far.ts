import { sayAnswer } from '#core/answer/say.ts';
import { parseCarried } from '#core/link/fragment.ts';

/** On the hand-over page: the answers that the link carries, ready to be copied. */
const section = document.querySelector<HTMLElement>('[data-known]');
const list = document.querySelector('[data-known-list]');

function show(): void {
  const lines = parseCarried(location.hash).map(
    (answer) => `${answer.tree}, ${answer.node.replaceAll('-', ' ')}: ${sayAnswer(answer)}`,
  );
  section?.toggleAttribute('hidden', lines.length === 0);
  list?.replaceChildren(
    ...lines.map((line) => {
      const item = document.createElement('li');
      item.textContent = line;
      return item;
    }),
  );
}

document.querySelector('[data-copy-known]')?.addEventListener('click', async () => {
  const said = document.querySelector('[data-copied]');
  const text = [...(list?.children ?? [])].map(({ textContent }) => `- ${textContent}`).join('\n');
  try {
    await navigator.clipboard.writeText(text);
    if (said !== null) said.textContent = 'Copied.';
  } catch {
    if (said !== null) said.textContent = 'The browser did not allow it: select the list and copy it.';
  }
});
window.addEventListener('hashchange', show);
show();
