import { execFileSync, spawn } from 'node:child_process';
import { createServer } from 'node:net';
import type { TestProject } from 'vitest/node';
import { ownEnvironment } from '../support/own-environment.ts';

declare module 'vitest' {
  interface ProvidedContext {
    /** Address of the built site, without a slash at the end. */
    readonly siteAddress: string;
  }
}

/**
 * Builds the site once a run into dist/ and serves it as `npm start` does, on a free port.
 * HALFSPLIT_BUILT=1 takes the dist/ that is there.
 */
export default async function setup(project: TestProject): Promise<() => void> {
  const environment = ownEnvironment();
  if (environment['HALFSPLIT_BUILT'] !== '1') {
    execFileSync(process.execPath, ['node_modules/astro/bin/astro.mjs', 'build', '--silent'], {
      env: environment,
      stdio: ['ignore', 'inherit', 'inherit'],
    });
  }
  const port = await findFreePort();
  const server = spawn(process.execPath, ['src/cli/serve.ts'], {
    env: { ...environment, PORT: String(port), HOST: '127.0.0.1' },
    stdio: ['ignore', 'ignore', 'inherit'],
  });
  const address = `http://127.0.0.1:${port}`;
  await waitFor(address);
  project.provide('siteAddress', address);
  return () => {
    server.kill();
  };
}

export function findFreePort(): Promise<number> {
  return new Promise((resolve, reject) => {
    const probe = createServer();
    probe.once('error', reject);
    probe.listen(0, '127.0.0.1', () => {
      const address = probe.address();
      probe.close(() => {
        if (address === null || typeof address === 'string') reject(new Error('No free port.'));
        else resolve(address.port);
      });
    });
  });
}

export async function waitFor(address: string): Promise<void> {
  const end = Date.now() + 30_000;
  while (Date.now() < end) {
    try {
      if ((await fetch(address)).ok) return;
    } catch {
      // Not up yet.
    }
    await new Promise((resolve) => setTimeout(resolve, 100));
  }
  throw new Error(`The built site did not answer at ${address} within 30 s.`);
}
