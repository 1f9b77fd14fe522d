import { AxeBuilder } from '@axe-core/playwright';
import { type Browser, type BrowserContextOptions, chromium, type Page } from 'playwright-core';
import { afterAll, beforeAll, expect, inject, onTestFinished, TestRunner } from 'vitest';
import { chromiumArguments, findChromium } from '../find-chromium.ts';
import { expectNoneForeign, watchRequests } from './watch-requests.ts';

/** One visitor: a context of their own, with nothing remembered. It ends with its test, or earlier by `end`. */
export interface Visit {
  readonly page: Page;
  /** Opens an address below the site's base and waits until the page's scripts have run. */
  readonly open: (path: string) => Promise<void>;
  /** From the next page on the tab remembers this, as if the visitor had done it before. */
  readonly remember: (key: string, value: string) => Promise<void>;
  /** Errors on the page and in the console, breaches of the content security policy: a test that ends with any has failed. */
  readonly faults: readonly string[];
  readonly end: () => Promise<void>;
}

export interface Bench {
  /** @param mayBe what a visit that meets such a thing on purpose may find among its faults */
  readonly visit: (options?: BrowserContextOptions, mayBe?: RegExp) => Promise<Visit>;
  /** Ends every visit; throws where any page of any of them, or a worker, asked another origin for anything. */
  readonly close: () => Promise<void>;
}

/** A phone held upright, worked by touch. */
export const phone = { viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true } as const;
/** A small desktop window. */
export const desktop = { viewport: { width: 1280, height: 800 } } as const;

const criteria = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'];
/** In dark nothing but the colours is other: the rules that look at them. */
const ofColours = ['color-contrast', 'link-in-text-block'];

/**
 * What axe finds against WCAG 2.2 A and AA on a page as it stands, in light by all rules, in dark by those of colours.
 * None of our pages has a frame, so no second page is opened to bring results together, which takes as long again.
 * @param more other tags of axe's rules, such as `best-practice`
 */
export async function findViolations(
  page: Page,
  {
    more = [],
    schemes = ['light', 'dark'],
  }: { more?: readonly string[]; schemes?: readonly ('light' | 'dark')[] } = {},
): Promise<readonly string[]> {
  const found: string[] = [];
  for (const colorScheme of schemes) {
    await page.emulateMedia({ colorScheme });
    const axe = new AxeBuilder({ page }).setLegacyMode(true);
    const { violations, passes } = await (
      colorScheme === 'light' ? axe.withTags([...criteria, ...more]) : axe.withRules(ofColours)
    ).analyze();
    if (passes.length <= (colorScheme === 'light' ? 10 : 0))
      found.push(`${colorScheme}: axe looked at next to nothing`);
    for (const { id, nodes } of violations) {
      found.push(`${colorScheme}, ${id}: ${nodes.map(({ target }) => target.join(' ')).join(' | ')}`);
    }
  }
  await page.emulateMedia({ colorScheme: null });
  return found;
}

/** One Chromium of a kind for all files of a worker; it ends with the worker. */
const shared = new Map<boolean, Promise<Browser>>();

/** A bench for the tests of a file, opened before the first and closed after the last. */
export function useBench(options?: Parameters<typeof openBench>[0]): Pick<Bench, 'visit'> {
  let bench: Bench | undefined;
  beforeAll(async () => {
    bench = await openBench(options);
  });
  afterAll(() => bench?.close());
  return {
    visit: (...words) => {
      if (bench === undefined) throw new Error('The bench is not open yet.');
      return bench.visit(...words);
    },
  };
}

/**
 * Opens a bench of its own: the visits of one file, or of one test.
 * @param hasWorker whether pages may start their offline worker; else they run as in a browser without such workers, so
 * that what a journey sees does not depend on how far storing has come (tests/journeys/offline/ has its own browser)
 * @param isWhole whether the browser must have its windows: without them it cannot keep a screen awake
 */
export async function openBench({ hasWorker = false, isWhole = false } = {}): Promise<Bench> {
  const launched =
    shared.get(isWhole) ?? chromium.launch({ executablePath: findChromium({ isWhole }), args: [...chromiumArguments] });
  shared.set(isWhole, launched);
  const browser = await launched;
  const foreign: string[] = [];
  const endings = new Set<() => Promise<void>>();
  return {
    visit: async (options = desktop, mayBe = /(?!)/u) => {
      const visit = await startVisit(browser, options, hasWorker, foreign);
      const end = async (): Promise<void> => {
        endings.delete(end);
        await visit.end();
        expect(visit.faults.filter((fault) => !mayBe.test(fault))).toEqual([]);
      };
      endings.add(end);
      // One that is opened before the tests of a file serves them all, and ends after the last.
      if (TestRunner.getCurrentTest() !== undefined) onTestFinished(end);
      return visit;
    },
    close: async () => {
      for (const end of endings) await end();
      expectNoneForeign(foreign);
    },
  };
}

async function startVisit(
  browser: Browser,
  options: BrowserContextOptions,
  hasWorker: boolean,
  foreign: string[],
): Promise<Visit> {
  const origin = options.baseURL ?? inject('siteAddress');
  const context = await browser.newContext({ baseURL: origin, ...options });
  // With other programs busy a page may take its time.
  context.setDefaultTimeout(60_000);
  watchRequests(context, origin, foreign);
  const page = await context.newPage();
  const faults: string[] = [];
  if (!hasWorker) {
    await page.addInitScript(() => {
      Reflect.deleteProperty(Navigator.prototype, 'serviceWorker');
    });
  }
  await page.addInitScript(() => {
    document.addEventListener('securitypolicyviolation', ({ violatedDirective, blockedURI, sourceFile }) => {
      console.error(`Policy breached: ${violatedDirective} ${blockedURI} ${sourceFile}`);
    });
  });
  page.on('pageerror', (error) => faults.push(`error: ${error.message}`));
  page.on('console', (message) => {
    if (message.type() === 'error' || message.type() === 'warning') faults.push(`console: ${message.text()}`);
  });
  return {
    page,
    faults,
    open: async (path) => {
      // A change of the fragment alone does not load a page: leave it first.
      await page.goto('about:blank');
      await page.goto(path, { waitUntil: 'load' });
      if (options.javaScriptEnabled === false) return;
      await page.evaluate(() => document.fonts.ready.then(() => undefined));
      await page.locator('node-walk:not(:defined)').waitFor({ state: 'detached' });
    },
    remember: async (key, value) => {
      await page.addInitScript(
        (entry) => {
          if (location.protocol.startsWith('http')) sessionStorage.setItem(entry.key, entry.value);
        },
        { key, value },
      );
    },
    end: () => context.close(),
  };
}
