import { beforeAll, describe, expect, it } from 'vitest';
import { readContent } from '#build/library.ts';
import { openDraftCompiler } from '#compiler/compile-draft.ts';
import { makeDraftLibrary } from '#compiler/compile-draft.ts';
import { hostFile, hostileTrees } from '../support/hostile-trees.ts';
import { pasteOverAll, readMessages, waitForAnswer } from './drafting.ts';
import { useBench, type Visit } from './open-browser.ts';

const node = openDraftCompiler(makeDraftLibrary(readContent().files, readContent()));
const bench = useBench();
let visit: Visit;
const dialogs: string[] = [];

beforeAll(async () => {
  // The editor's library says so when a huge text is still being measured at the end of a frame; nothing is lost by it.
  visit = await bench.visit(undefined, /Measure loop restarted|Viewport failed to stabilize/u);
  visit.page.on('dialog', (dialog) => {
    dialogs.push(dialog.message());
    void dialog.dismiss();
  });
  await visit.open('/draft/');
  await waitForAnswer(visit.page, 1);
  await visit.page.getByLabel('Name of the file').fill('psu-5v-low');
  await visit.page.getByText('Decision graph', { exact: true }).click();
  await visit.page.getByText('Worth of the tree').click();
});

describe('a stranger’s file pasted into the drafting page', () => {
  it.each(hostileTrees)('$name: answered as in Node, nothing runs', async ({ text, rule }) => {
    const { page } = visit;
    // What a clipboard cannot carry arrives as the replacement character, there as here.
    const pasted = text.toWellFormed();
    await pasteOverAll(page, pasted);
    const messages = await readMessages(page);

    expect(messages.join('\n')).toContain(rule);
    expect(messages).toEqual(
      node
        .compile(pasted.replace(/\r\n?/gu, '\n'), hostFile)
        .problems.slice(0, 100)
        .map(({ position, severity, message, help, rule: id, other }) =>
          [
            position === 'unavailable' ? 'The file' : `Line ${position.line}`,
            severity === 'error' ? 'Error.' : 'Warning.',
            message,
            help,
            id,
            ...(other === undefined
              ? []
              : [
                  `See ${other.file}${other.position === 'unavailable' ? '' : `, line ${other.position.line}`} (${other.says}).`,
                ]),
          ]
            .join(' ')
            .replace(/\s+/gu, ' '),
        ),
    );
    expect(await page.evaluate(() => Reflect.get(globalThis, 'hostileRan'))).toBeUndefined();
    expect(
      await page.locator('main script:not([src]), main img[src], main iframe, main [onload], main [onerror]').count(),
    ).toBe(0);
    expect(dialogs).toEqual([]);
  });
});
