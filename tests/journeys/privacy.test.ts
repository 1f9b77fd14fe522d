import { describe, expect, inject, it } from 'vitest';
import { openBench } from './open-browser.ts';

// Every journey is watched: closing the bench fails where any visit asked another origin. Here: that the watch sees it.
describe('the watch over requests', () => {
  it('lets a visit pass that asked its own origin alone', async () => {
    const bench = await openBench();
    const { open } = await bench.visit();
    await open('/');

    await bench.close();
  });

  it.each(['http://127.0.0.1:9/', 'http://other.invalid/x.png'])('fails for a visit to %s', async (address) => {
    const bench = await openBench();
    const { page } = await bench.visit(undefined, /./u);
    await page.goto(address).catch(() => undefined);

    await expect(bench.close()).rejects.toThrow(`Asked another origin: ${address}`);
  });

  it('fails for a picture, a script and a window that another origin would serve, on pages without a policy too', async () => {
    const bench = await openBench();
    const { page } = await bench.visit({ bypassCSP: true }, /./u);
    await page.goto(inject('siteAddress'));
    const hosts = ['picture', 'script', 'window'].map((name) => `http://${name}.invalid/`);
    const asked = hosts.map((host) =>
      page.context().waitForEvent('request', (request) => request.url().startsWith(host)),
    );
    await page.evaluate(() => {
      document.body.append(Object.assign(new Image(), { src: 'http://picture.invalid/a.png' }));
      document.body.append(Object.assign(document.createElement('script'), { src: 'http://script.invalid/a.js' }));
      window.open('http://window.invalid/');
    });
    await Promise.all(asked);

    const said = await bench.close().then(
      () => '',
      (error: unknown) => String(error),
    );
    for (const host of hosts) expect(said).toContain(host);
  });
});
