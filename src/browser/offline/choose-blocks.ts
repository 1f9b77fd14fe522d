import type { StoredBlock } from '#core/offline/worker-message.ts';
import { makeButton, makeElement } from '../kit/elements.ts';

/** Stores a block or throws it away; resolves to what is stored then. */
type StoreBlock = (block: string, isWanted: boolean) => Promise<readonly StoredBlock[]>;

/** Where a library is too large to be stored whole: under the heading of each block, whether it is stored, and a button. */
export function chooseBlocks(blocks: readonly StoredBlock[], store: StoreBlock): void {
  for (const section of document.querySelectorAll<HTMLElement>('[data-block]')) {
    const known = blocks.find(({ block }) => block === section.dataset['block']);
    if (known !== undefined) showBlock(section, known, store);
  }
}

function showBlock(section: HTMLElement, { block, bytes, stored, packs }: StoredBlock, store: StoreBlock): void {
  section.querySelector('[data-offline]')?.remove();
  const row = makeElement('p', { class: 'row', 'data-offline': true });
  const said = makeElement('span', { role: 'status' });
  const size = `${(bytes / 1e6).toFixed(1)} MB`;
  const press = async (isWanted: boolean): Promise<void> => {
    said.textContent = isWanted ? 'Being stored…' : 'Being removed…';
    const after = (await store(block, isWanted)).find((other) => other.block === block);
    if (after === undefined) return;
    showBlock(section, after, store);
    if (isWanted && after.stored < after.packs) {
      tell(section, 'Not stored: the network is off, or this device has no room.');
    }
    section.querySelector<HTMLElement>('[data-offline] button')?.focus();
  };
  row.append(
    stored < packs
      ? makeButton(`Store for offline use, ${size}`, 'press plain', () => void press(true))
      : makeButton(`Remove from this device, ${size}`, 'press plain', () => void press(false)),
    said,
  );
  section.querySelector('h2')?.after(row);
  if (stored > 0) tell(section, stored === packs ? 'Works offline.' : `${stored} of ${packs} parts work offline.`);
}

function tell(section: HTMLElement, words: string): void {
  section.querySelector('[data-offline] [role=status]')?.replaceChildren(words);
}
