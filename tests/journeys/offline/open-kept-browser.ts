import { cpSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type BrowserContext, chromium, type Page } from 'playwright-core';
import { chromiumArguments, findChromium } from '../../find-chromium.ts';
import { phone } from '../open-browser.ts';
import { expectNoneForeign, watchRequests } from '../watch-requests.ts';

/** A browser that keeps what it stored when it is closed. */
export interface KeptBrowser {
  /** A new window, everything in it below `address`. */
  readonly openWindow: () => Promise<Page>;
  /** Closes the browser and starts it again with what it kept. */
  readonly restart: () => Promise<void>;
  /** Errors thrown on any page, breaches of the content security policy. */
  readonly faults: readonly string[];
  /** Throws where any page, frame or worker asked another origin for anything. */
  readonly end: () => Promise<void>;
  /** Ends it and leaves its profile, for others to begin with: the folder, to be removed by who asked. */
  readonly leaveProfile: () => Promise<string>;
}

/** Starts a Chromium with a profile on disk: a new one, or a copy of one that was left. */
export async function openKeptBrowser(address: string, left?: string): Promise<KeptBrowser> {
  const profile = mkdtempSync(join(tmpdir(), 'halfsplit-profile-'));
  if (left !== undefined) cpSync(left, profile, { recursive: true });
  const faults: string[] = [];
  const foreign: string[] = [];
  let context = await launch(profile, address, faults, foreign);
  return {
    faults,
    openWindow: () => context.newPage(),
    restart: async () => {
      await context.close();
      context = await launch(profile, address, faults, foreign);
    },
    end: async () => {
      await context.close();
      rmSync(profile, { recursive: true, force: true, maxRetries: 5 });
      expectNoneForeign(foreign);
    },
    leaveProfile: async () => {
      await context.close();
      expectNoneForeign(foreign);
      return profile;
    },
  };
}

async function launch(profile: string, address: string, faults: string[], foreign: string[]): Promise<BrowserContext> {
  const context = await chromium.launchPersistentContext(profile, {
    executablePath: findChromium(),
    args: [...chromiumArguments],
    baseURL: address,
    ...phone,
  });
  context.setDefaultTimeout(15_000);
  watchRequests(context, new URL(address).origin, foreign);
  context.on('weberror', (error) => faults.push(error.error().message));
  context.on('console', (message) => {
    if (/Content Security Policy/u.test(message.text())) faults.push(message.text());
  });
  return context;
}

/** Waits until the page says that everything is stored. */
export async function waitUntilStored(page: Page): Promise<void> {
  await page.getByText('Works offline: ready.').waitFor();
}
