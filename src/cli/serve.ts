import { preview } from 'astro';
import { readFileSync } from 'node:fs';
import { createServer } from 'node:net';

const usualPort = 4321;
/** So many ports are tried, one after the other. */
const portsTried = 20;

/** The port that was asked for: a whole number that a port can have. Undefined where nothing was asked. */
export function readPort(asked: string | undefined): number | undefined {
  if (asked === undefined || asked === '') return undefined;
  const port = Number(asked);
  if (Number.isInteger(port) && port > 0 && port <= 65_535) return port;
  throw new Error(`Unexpected PORT=${asked}, expected a whole number from 1 to 65535.`);
}

/** The first port from `first` on that nothing listens at. `localhost` has two addresses: a port that is taken on one of them is taken. */
export async function findFreePort(first: number, host: string): Promise<number> {
  const hosts = host === 'localhost' ? ['127.0.0.1', '::1'] : [host];
  for (let port = first; port < Math.min(first + portsTried, 65_536); port += 1) {
    const taken = await Promise.all(hosts.map((each) => isTaken(port, each)));
    if (!taken.includes(true)) return port;
  }
  throw new Error(`Ports ${first} to ${first + portsTried - 1} are all taken. Choose another: PORT=8080 npm start.`);
}

function isTaken(port: number, host: string): Promise<boolean> {
  return new Promise((resolve, reject) => {
    const probe = createServer();
    probe.once('error', (error: NodeJS.ErrnoException) => {
      if (error.code === 'EADDRINUSE') resolve(true);
      // A machine without the newer protocol has no `::1`: nothing can listen there.
      else if (error.code === 'EADDRNOTAVAIL' || error.code === 'EAFNOSUPPORT') resolve(false);
      else reject(new Error(`Cannot listen at port ${port} of ${host}: ${error.message}`));
    });
    probe.listen(port, host, () => probe.close(() => resolve(false)));
  });
}

/** Serves the built site until stopped, and prints its address. */
export async function serve(): Promise<void> {
  const asked = readPort(process.env['PORT']) ?? usualPort;
  const host = process.env['HOST'] ?? 'localhost';
  const port = await findFreePort(asked, host);
  if (port !== asked) console.log(`Port ${asked} is taken by another program; this takes ${port}.`);
  const server = await preview({ root: process.cwd(), logLevel: 'error', server: { port, host } });
  const address = `http://${server.host ?? 'localhost'}:${server.port}${process.env['BASE_PATH'] ?? '/'}`;
  const { short_name: name }: { readonly short_name: string } = JSON.parse(
    readFileSync('dist/manifest.webmanifest', 'utf8'),
  );
  console.log(`\n${name} is at ${address}\nStop it with Ctrl+C.`);
  await server.closed();
}

// Usage: node src/cli/serve.ts: serves the dist/ that is there. PORT chooses another port; HOST=0.0.0.0 lets a phone in.
if (import.meta.main) await serve();
