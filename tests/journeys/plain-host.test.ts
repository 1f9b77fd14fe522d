import { existsSync, readFileSync, statSync } from 'node:fs';
import { createServer, type Server } from 'node:http';
import { extname, join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { phone, useBench } from './open-browser.ts';

// A file server that knows next to nothing: the index of a folder, the types of pages, style and script, no header, no page for what is
// not there. Packs, fonts, drawings, pictures and data are "application/octet-stream" to it.
const known: Readonly<Record<string, string>> = { '.html': 'text/html', '.css': 'text/css', '.js': 'text/javascript' };
let server: Server;
let address = '';
/** What it takes script for; undefined: as above. */
let scriptType: string | undefined;
const bench = useBench();

beforeAll(async () => {
  server = createServer((request, response) => {
    const path = decodeURIComponent(new URL(request.url ?? '/', 'http://host').pathname);
    const file = join('dist', path.endsWith('/') ? `${path}index.html` : path);
    if (!existsSync(file) || !statSync(file).isFile()) response.writeHead(404).end();
    else {
      const type =
        (extname(file) === '.js' ? scriptType : undefined) ?? known[extname(file)] ?? 'application/octet-stream';
      response.writeHead(200, { 'Content-Type': type }).end(readFileSync(file));
    }
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  const bound = server.address();
  if (bound === null || typeof bound === 'string') throw new Error('The server has no port.');
  address = `http://127.0.0.1:${bound.port}`;
});
afterAll(() => {
  server.closeAllConnections();
  server.close();
});

describe('a file server that knows nothing', () => {
  it('serves search, the way to a cause and the drafting page all the same', async () => {
    const { page, open } = await bench.visit({ ...phone, baseURL: address });
    await open('/');
    await page.getByRole('combobox').fill('5v rail too low');
    await page.getByRole('option').first().tap();
    await page.waitForURL('**/trees/**');
    await open('/trees/psu-5v-low/supply-kind/');
    await page.locator('a.outcome').first().tap();
    await page.waitForURL('**/#supply-kind=*');
    await open('/draft/');
    await page.locator('.cm-content').waitFor();

    expect(await page.getByRole('heading', { level: 1 }).isVisible()).toBe(true);
  });

  it('leaves pages that read and lead on where it takes script for plain text, which browsers refuse to run', async () => {
    scriptType = 'text/plain';
    // Chromium says that it refuses each module.
    const { page } = await bench.visit({ ...phone, baseURL: address }, /Expected a JavaScript|MIME type/u);
    await page.goto('/trees/psu-5v-low/supply-kind/');
    await page.locator('a.outcome').first().tap();
    await page.waitForURL(/\/trees\/psu-5v-low\/(?!supply-kind)/u);
    // The danger asks first, by the plain script of the page, which runs whatever it is called.
    await page.locator('.gate-now [data-acknowledge]').first().tap();
    scriptType = undefined;

    expect(await page.getByRole('heading', { level: 1 }).isVisible()).toBe(true);
  });
});
