import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, inject, it } from 'vitest';
import { openKeptBrowser, waitUntilStored } from './open-kept-browser.ts';

const address = inject('siteAddress');

describe('the server of npm start', () => {
  it.each([
    // HTML Standard (a service worker needs a JavaScript type), Web Application Manifest, RFC 2083.
    ['/sw.js', /^(?:text|application)\/javascript/u],
    ['/manifest.webmanifest', /^application\/manifest\+json/u],
    ['/icons/icon-192.png', /^image\/png/u],
  ])('sends %s with its type', async (path, type) => {
    const response = await fetch(`${address}${path}`);
    expect(response.status).toBe(200);
    expect(response.headers.get('content-type')).toMatch(type);
  });

  it('sends every pack unchanged', async () => {
    const files = readdirSync('dist/offline');
    expect(files.length).toBeGreaterThan(10);
    for (const file of files) {
      const bytes = Buffer.from(await (await fetch(`${address}/offline/${file}`)).arrayBuffer());
      expect(bytes.equals(readFileSync(`dist/offline/${file}`)), file).toBe(true);
    }
  });

  it('lets the site be stored', async () => {
    const browser = await openKeptBrowser(address);
    const page = await browser.openWindow();
    await page.goto('/');
    await waitUntilStored(page);
    expect(browser.faults).toEqual([]);
    await browser.end();
  });
});
