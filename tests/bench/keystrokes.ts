import { createServer, type Server } from 'node:http';
import { existsSync, readdirSync, readFileSync, statSync } from 'node:fs';
import type { AddressInfo } from 'node:net';
import { join, normalize } from 'node:path';
import { chromium } from 'playwright-core';
import { chromiumArguments, findChromium } from '../find-chromium.ts';

/** Milliseconds, each measured in the page. */
export interface Keystrokes {
  /** From the first key of a page just opened, the box focused with it, to the first results. */
  readonly first: number;
  /** From the input event to results in the page, laid out. */
  readonly keystrokes: readonly number[];
  /** From asking the worker for misspelt words to its answer. */
  readonly corrections: readonly number[];
}

interface Engine {
  find(text: string, options: object): { readonly unread: readonly string[] };
  correct(unread: readonly string[]): Promise<boolean>;
}
interface EngineModule {
  loadSearchEngine(address: string): Promise<Engine | undefined>;
}

const slowedTimes = 4;

/** Types every query letter by letter into the built home page in Chromium, its processor slowed four times, with `index` as its index. */
export async function measureKeystrokes(
  folder: string,
  index: string,
  queries: readonly string[],
): Promise<Keystrokes> {
  const server = await serve(folder, index);
  const browser = await chromium.launch({ executablePath: findChromium(), args: [...chromiumArguments] });
  try {
    const page = await browser.newPage({ viewport: { width: 390, height: 844 } });
    const { port } = server.address() as AddressInfo;
    await page.goto(`http://127.0.0.1:${port}/`);
    const session = await page.context().newCDPSession(page);
    await session.send('Emulation.setCPUThrottlingRate', { rate: slowedTimes });
    const first = await page.evaluate(async () => {
      const input = document.querySelector<HTMLInputElement>('search-box input');
      const list = document.querySelector<HTMLElement>('search-box [data-results]');
      if (input === null || list === null) return Infinity;
      const start = performance.now();
      const shown = new Promise<number>((resolve) => {
        new MutationObserver(() => {
          if (list.childElementCount > 0) resolve(performance.now() - start);
        }).observe(list, { childList: true });
      });
      input.focus();
      input.value = 'hum';
      input.dispatchEvent(new Event('input', { bubbles: true }));
      return shown;
    });
    await page.waitForTimeout(3000);
    const keystrokes = await page.evaluate(async (texts) => {
      const input = document.querySelector<HTMLInputElement>('search-box input');
      const list = document.querySelector<HTMLElement>('search-box [data-results]');
      const times: number[] = [];
      if (input === null || list === null) return times;
      for (const text of texts) {
        for (let length = 1; length <= text.length; length += 1) {
          input.value = text.slice(0, length);
          const start = performance.now();
          input.dispatchEvent(new Event('input', { bubbles: true }));
          // The index is there, so the answer follows in microtasks; they have run when a message comes back.
          for (let turn = 0; turn < 8; turn += 1) await Promise.resolve();
          void list.offsetHeight;
          times.push(performance.now() - start);
          await new Promise((resolve) => setTimeout(resolve, 0));
        }
      }
      return times;
    }, queries);
    const engineFile = readdirSync(join(folder, '_astro')).find((name) => /^search-engine\..*\.js$/.test(name)) ?? '';
    const corrections = await page.evaluate(async (file) => {
      const module = (await import(file)) as EngineModule;
      const engine = await module.loadSearchEngine('/data/search.json');
      const times: number[] = [];
      await engine?.correct(['warmup']);
      // This second engine reads ahead as the first did: let it be done.
      await new Promise((resolve) => setTimeout(resolve, 6000));
      for (const word of [
        'pictrue',
        'keybaord',
        'transfromer',
        'osccilator',
        'regultor',
        'flopy',
        'capasitor',
        'voltige',
        'memmory',
        'speeker',
        'serail',
        'procesor',
        'monitro',
        'rectifyer',
        'chrystal',
        'resevoir',
        'blackk',
        'modulater',
        'amplifyer',
        'jumbeld',
      ]) {
        const from = performance.now();
        await engine?.correct([word]);
        times.push(performance.now() - from);
      }
      return times;
    }, `/_astro/${engineFile}`);
    return { first, keystrokes, corrections };
  } finally {
    await browser.close();
    server.close();
  }
}

const types: Readonly<Record<string, string>> = {
  html: 'text/html',
  js: 'text/javascript',
  css: 'text/css',
  json: 'application/json',
};

/** Serves a built site, with `index` in place of its search index. */
function serve(folder: string, index: string): Promise<Server> {
  const server = createServer((request, response) => {
    const path = normalize(new URL(request.url ?? '/', 'http://x').pathname);
    const inside = join(folder, path);
    const file = existsSync(inside) && statSync(inside).isDirectory() ? join(inside, 'index.html') : inside;
    const isIndex = path === '/data/search.json';
    if (!isIndex && !existsSync(file)) {
      response.writeHead(404).end();
      return;
    }
    response.writeHead(200, { 'content-type': types[file.split('.').at(-1) ?? ''] ?? 'application/octet-stream' });
    response.end(isIndex ? index : readFileSync(file));
  });
  return new Promise((resolve) => server.listen(0, '127.0.0.1', () => resolve(server)));
}
