import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
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

  it('is not served as it lies there: a drawing opened by its own address would run its scripts', async () => {
    const root = mkdtempSync(join(tmpdir(), 'halfsplit (served) '));
    const put = (file: string): void => {
      mkdirSync(join(root, file, '..'), { recursive: true });
      writeFileSync(join(root, file), '<svg xmlns="http://www.w3.org/2000/svg"><script>1</script></svg>');
    };
    for (const file of ['content/trees/power/drawing.svg', 'content/page.xhtml', 'beside/drawing.svg']) put(file);
    const server = await createServer({
      root,
      configFile: false,
      logLevel: 'silent',
      appType: 'custom',
      server: { port: 0, ws: false, watch: null },
      plugins: [guardContent(root)],
    });
    await server.listen();
    const address = server.httpServer?.address();
    const port = typeof address === 'object' ? address?.port : undefined;
    const statusOf = async (path: string): Promise<number> =>
      (await fetch(`http://localhost:${port}${encodeURI(path)}`)).status;

    expect(await statusOf('/beside/drawing.svg')).toBe(200);
    for (const path of ['/content/trees/power/drawing.svg', '/content/page.xhtml', `/@fs${root}/content/page.xhtml`])
      expect(await statusOf(path), path).toBe(403);
    await server.close();
    rmSync(root, { recursive: true });
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
