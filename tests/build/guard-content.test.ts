import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { guardContent } from '#build/guard-content.ts';
import { createServer } from 'vite';
import { describe, expect, it } from 'vitest';

describe('content', () => {
  it('is no module: a page that asked for a file of it would stop the build', async () => {
    const server = await createServer({
      configFile: false,
      logLevel: 'silent',
      appType: 'custom',
      server: { middlewareMode: true, ws: false, watch: null },
      plugins: [guardContent()],
    });
    const file = 'content/trees/power/psu-5v-low.mdx';

    await expect(server.ssrLoadModule(`/${file}`)).rejects.toThrow(`${file} is data`);
    await expect(server.ssrLoadModule(`/${file}?raw`)).rejects.toThrow(`${file} is data`);
    await server.close();
  });

  it('is rendered from the model: nothing in src asks Astro for its collections or gathers files', () => {
    const sources = readdirSync('src', { recursive: true, encoding: 'utf8' }).filter((file) =>
      /\.(astro|mdx|ts)$/.test(file),
    );
    const asking = sources.filter((file) =>
      /astro:content|import\.meta\.glob/.test(readFileSync(join('src', file), 'utf8')),
    );

    expect(sources.length).toBeGreaterThan(100);
    expect(sources.filter((file) => file.startsWith('content.config'))).toEqual([]);
    expect(asking).toEqual([]);
  });
});
