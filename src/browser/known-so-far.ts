import type { Answer } from '#core/answer/answer.ts';
import { sayAnswer } from '#core/answer/say.ts';
import { parseCarried } from '#core/link/fragment.ts';
import { findNode } from '#core/model/node.ts';
import { benchOf, loadWalk } from './walk/load-bench.ts';

/** On the hand-over page: the answers that the link carries, in the words of their pages, ready to be copied. */
const section = document.querySelector<HTMLElement>('[data-known]');
const list = document.querySelector('[data-known-list]');

async function show(): Promise<void> {
  const { hash } = location;
  const lines = await Promise.all(parseCarried(hash).map(sayKnown));
  if (hash !== location.hash) return;
  section?.toggleAttribute('hidden', lines.length === 0);
  list?.replaceChildren(
    ...lines.map((line) => {
      const item = document.createElement('li');
      item.textContent = line;
      return item;
    }),
  );
}

/** Question and answer; in the words of the address where the tree cannot be fetched. */
async function sayKnown(answer: Answer): Promise<string> {
  const walk = await loadWalk(answer.tree ?? '');
  const node = walk === undefined ? undefined : findNode(walk.tree, answer.node);
  if (walk === undefined || node === undefined)
    return `${[answer.tree, answer.node].join(', ').replaceAll('-', ' ')}: ${sayAnswer(answer)}`;
  const stage = node.kind === 'path' ? node.stages.find(({ id }) => id === answer.stage)?.title : undefined;
  const asked = [walk.tree.title, node.title, stage].filter((text) => text !== undefined).join(', ');
  return `${asked}: ${sayAnswer({ ...answer, tree: undefined, stage: undefined }, benchOf(walk, undefined))}`;
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
window.addEventListener('hashchange', () => void show());
void show();
