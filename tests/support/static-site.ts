import { existsSync, readFileSync, statSync } from 'node:fs';
import { createServer, type Server, type ServerResponse } from 'node:http';
import { extname, join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { readHostHeaders } from './host-headers.ts';

/** One answer of the server: what a meter on the wire would have seen, headers apart. */
export interface Served {
  readonly path: string;
  readonly status: number;
  readonly bytes: number;
}

export interface StaticSite {
  /** Without a slash at the end. */
  readonly address: string;
  readonly served: readonly Served[];
  /** Serves another folder at the same address, as a host does after publishing. */
  readonly publish: (folder: string) => void;
  /** Answers paths that match with an error, until called with undefined. */
  readonly breakPaths: (pattern: RegExp | undefined) => void;
  /** The network goes: nothing listens any longer, open connections are cut. */
  readonly goDown: () => Promise<void>;
  /** The network is back, at the same address. */
  readonly comeBack: () => Promise<void>;
}

const types: Readonly<Record<string, string>> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript',
  '.css': 'text/css',
  '.json': 'application/json',
  '.svg': 'image/svg+xml',
  '.png': 'image/png',
  '.woff2': 'font/woff2',
  '.webmanifest': 'application/manifest+json',
};
const compressed = ['.html', '.js', '.css', '.json', '.svg', '.webmanifest'];

/**
 * A static host for one test: sends a folder as hosts of static sites do, text compressed with gzip where the browser
 * takes it, with the headers of hosting/_headers, and counts what it sent. The network can be taken away for good: the server stops listening.
 * @param base path below which the folder lies, `/` or `/sub-path/`
 * @param port where a browser that stored the site before looks for it; 0: any
 */
export async function startStaticSite(folder: string, base = '/', port = 0): Promise<StaticSite> {
  const served: Served[] = [];
  const headers = Object.fromEntries(readHostHeaders('_headers'));
  let root = folder;
  let broken: RegExp | undefined;
  let bindTo = port;
  let server: Server | undefined;

  const send = (response: ServerResponse, path: string, status: number, file: string, mayZip: boolean): void => {
    const type = extname(file);
    const isZipped = mayZip && compressed.includes(type);
    const body = isZipped ? gzipSync(readFileSync(file)) : readFileSync(file);
    served.push({ path, status, bytes: body.length });
    response.writeHead(status, {
      ...headers,
      ...(types[type] === undefined ? {} : { 'Content-Type': types[type] }),
      ...(isZipped ? { 'Content-Encoding': 'gzip' } : {}),
      'Cache-Control': 'no-cache',
    });
    response.end(body);
  };

  const listen = async (): Promise<void> => {
    server = createServer((request, response) => {
      const path = decodeURIComponent(new URL(request.url ?? '/', 'http://host').pathname);
      const mayZip = String(request.headers['accept-encoding']).includes('gzip');
      const below = path.startsWith(base) ? path.slice(base.length) : undefined;
      const file = below === undefined ? undefined : findFile(root, below);
      if (broken?.test(path) === true) {
        served.push({ path, status: 503, bytes: 0 });
        response.writeHead(503).end();
      } else if (file === undefined) send(response, path, 404, join(root, '404.html'), mayZip);
      else send(response, path, 200, file, mayZip);
    });
    await new Promise<void>((resolve) => server?.listen(bindTo, '127.0.0.1', resolve));
    const bound = server.address();
    if (bound === null || typeof bound === 'string') throw new Error('The server has no port.');
    bindTo = bound.port;
  };

  await listen();
  return {
    address: `http://127.0.0.1:${bindTo}`,
    served,
    publish: (other) => {
      root = other;
    },
    breakPaths: (pattern) => {
      broken = pattern;
    },
    goDown: async () => {
      server?.closeAllConnections();
      await new Promise((resolve) => server?.close(resolve));
    },
    comeBack: listen,
  };
}

function findFile(root: string, path: string): string | undefined {
  const file = join(root, path.endsWith('/') || path === '' ? `${path}index.html` : path);
  return existsSync(file) && statSync(file).isFile() ? file : undefined;
}
