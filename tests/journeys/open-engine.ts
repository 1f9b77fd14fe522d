import { spawn } from 'node:child_process';
import { existsSync } from 'node:fs';
import { delimiter, join } from 'node:path';
import { createInterface } from 'node:readline';
import type { Readable } from 'node:stream';
import puppeteer, { type ElementHandle } from 'puppeteer-core';
import { Builder, Capabilities, type WebElement } from 'selenium-webdriver';
import { findFreePort } from '../site/built-site.ts';

/** One window of a browser of another make, as wide as a phone: what a journey asks of it, and nothing of how it is driven. */
export interface Engine {
  readonly open: (address: string) => Promise<void>;
  /** Runs a function in the page, with a word if it takes one; what comes out must be JSON. */
  readonly read: <Result>(how: (said: string) => Result, said?: string) => Promise<Awaited<Result>>;
  /** Presses what is seen and fits the selector and, if said, begins with the text, once it is there. */
  readonly press: (selector: string, text?: string) => Promise<void>;
  /** Types into the field that fits the selector, key by key, as a person does. */
  readonly type: (selector: string, text: string) => Promise<void>;
  /** Errors of scripts, breaches of the content security policy. */
  readonly faults: readonly string[];
  readonly end: () => Promise<void>;
}

interface EngineKind {
  readonly name: string;
  /** What this machine lacks to start it: names of programs. */
  readonly missing: readonly string[];
  readonly start: () => Promise<Engine>;
}

/** The two makes of browser beside Chromium that a phone or a desk may hold, as Debian packs them. */
export const engineKinds: readonly EngineKind[] = [
  makeKind('Firefox', ['firefox-esr'], startFirefox),
  makeKind('WebKit', ['WebKitWebDriver', 'Xvfb'], startWebKit),
];

const width = 390;
const height = 844;
/** Longest wait for anything; with other programs busy a browser takes its time. */
const patience = 60_000;

function makeKind(
  name: string,
  programs: readonly string[],
  start: (paths: readonly string[]) => Promise<Engine>,
): EngineKind {
  const places = (process.env['PATH'] ?? '').split(delimiter);
  const paths = programs.map((program) => places.map((place) => join(place, program)).find((path) => existsSync(path)));
  const found = paths.filter((path) => path !== undefined);
  return { name, missing: programs.filter((_, index) => paths[index] === undefined), start: () => start(found) };
}

/** Asks again until the answer is neither empty nor an error, as a page that is on its way to another gives. */
export async function waitFor<Result>(what: string, ask: () => Promise<Result>): Promise<NonNullable<Result>> {
  const end = Date.now() + patience;
  let last: unknown;
  do {
    try {
      const found = await ask();
      if (found !== null && found !== undefined && found !== false) return found;
      last = found;
    } catch (error) {
      last = error;
    }
    await new Promise((resolve) => setTimeout(resolve, 50));
  } while (Date.now() < end);
  throw new Error(`Not within ${patience / 1000} s: ${what}. Last: ${String(last)}`);
}

/** Finds a thing and does something with it; once more where the page drew it anew between the two. */
function reach<Thing>(find: (selector: string, text: string) => Promise<Thing | null>) {
  return async (selector: string, text = '', how: (thing: Thing) => Promise<void>): Promise<void> => {
    await waitFor(`${selector} “${text}”`, async () => {
      const thing = await find(selector, text);
      if (thing !== null) await how(thing);
      return thing !== null;
    });
  };
}

/** Runs in the page: the first thing that a person sees there, in the middle of the window, where no bar lies over it. */
function findSeen(selector: string, text: string): Element | null {
  const seen = [...document.querySelectorAll(selector)].find(
    (thing) => thing.checkVisibility() && thing.textContent.replaceAll(/\s+/gu, ' ').trim().startsWith(text),
  );
  seen?.scrollIntoView({ block: 'center', behavior: 'instant' });
  return seen ?? null;
}

/** Debian's Firefox, driven by WebDriver BiDi; its touch is a true one. */
async function startFirefox([executablePath = '']: readonly string[]): Promise<Engine> {
  const browser = await puppeteer.launch({
    browser: 'firefox',
    executablePath,
    headless: true,
    timeout: patience,
  });
  const page = await browser.newPage();
  page.setDefaultTimeout(patience);
  await page.setViewport({ width, height });
  const faults: string[] = [];
  page.on('pageerror', (error) => faults.push(String(error)));
  page.on('console', (message) => {
    if (message.type() === 'error') faults.push(message.text());
  });
  const act = reach(
    async (selector, text) =>
      (await page.evaluateHandle(findSeen, selector, text)).asElement() as ElementHandle<Element> | null,
  );
  return {
    faults,
    open: async (address) => {
      await page.goto('about:blank');
      await page.goto(address);
    },
    read: (how, said = '') => page.evaluate(how, said),
    press: (selector, text) => act(selector, text, (thing) => thing.tap()),
    type: (selector, text) => act(selector, '', (thing) => thing.type(text)),
    end: () => browser.close(),
  };
}

/** Debian's WebKit in the small browser that comes with it, on a screen in memory: it has no mode without windows. */
async function startWebKit([webDriver = '', xvfb = '']: readonly string[]): Promise<Engine> {
  const screen = spawn(xvfb, ['-displayfd', '3', '-screen', '0', '800x1000x24', '-nolisten', 'tcp'], {
    stdio: ['ignore', 'ignore', 'ignore', 'pipe'],
  });
  const display = await readLine(screen.stdio[3] as Readable, /^\d+$/u);
  const port = await findFreePort();
  const host = spawn(webDriver, [`--port=${port}`], {
    // Without the sandbox, which root may not build; a page of ours is all that is opened.
    env: {
      ...process.env,
      DISPLAY: `:${display}`,
      WEBKIT_DISABLE_SANDBOX_THIS_IS_DANGEROUS: '1',
      WEBKIT_DISABLE_COMPOSITING_MODE: '1',
      WEBKIT_DISABLE_DMABUF_RENDERER: '1',
    },
    stdio: ['ignore', 'pipe', 'ignore'],
  });
  const faults: string[] = [];
  createInterface(host.stdout).on('line', (line) => {
    if (/^CONSOLE \S+ ERROR|Content Security Policy/u.test(line)) faults.push(line);
  });
  const driver = await waitFor('WebKitWebDriver', async () =>
    new Builder()
      .usingServer(`http://127.0.0.1:${port}`)
      .withCapabilities(
        new Capabilities({
          browserName: 'MiniBrowser',
          'webkitgtk:browserOptions': {
            args: ['--automation', '--enable-write-console-messages-to-stdout=true'],
          },
        }),
      )
      .build(),
  );
  await driver.manage().window().setRect({ x: 0, y: 0, width, height });
  const act = reach((selector, text) => driver.executeScript<WebElement | null>(findSeen, selector, text));
  return {
    faults,
    open: async (address) => {
      await driver.get('about:blank');
      await driver.get(address);
    },
    read: <Result>(how: (said: string) => Result, said = '') =>
      driver.executeScript(how, said) as Promise<Awaited<Result>>,
    press: (selector, text) => act(selector, text, (thing) => thing.click()),
    type: (selector, text) => act(selector, '', (thing) => thing.sendKeys(text)),
    end: async () => {
      await driver.quit();
      host.kill();
      screen.kill();
    },
  };
}

async function readLine(stream: Readable, pattern: RegExp): Promise<string> {
  for await (const line of createInterface(stream)) if (pattern.test(line)) return line;
  throw new Error('The program ended before it said what was waited for.');
}
