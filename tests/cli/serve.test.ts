import { createServer, type Server } from 'node:net';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { findFreePort, readPort } from '../../src/cli/serve.ts';

/** Takes some port that is free at one of the two addresses of `localhost`. */
function take(host: string): Promise<{ readonly server: Server; readonly port: number }> {
  return new Promise((resolve, reject) => {
    const server = createServer();
    server.once('error', reject);
    server.listen(0, host, () => {
      const address = server.address();
      if (address === null || typeof address === 'string') reject(new Error('No port.'));
      else resolve({ server, port: address.port });
    });
  });
}

describe('the port of npm start', () => {
  let taken: Awaited<ReturnType<typeof take>>;
  beforeAll(async () => {
    taken = await take('127.0.0.1');
  });
  afterAll(() => taken.server.close());

  it('is the next free one where another program has it, even at one of the two addresses of localhost', async () => {
    const found = await findFreePort(taken.port, 'localhost');

    expect(found).toBeGreaterThan(taken.port);
    expect(found).toBeLessThan(taken.port + 20);
    expect(await findFreePort(found, 'localhost')).toBe(found);
  });

  it.each(['abc', '0', '70000', '80.5', '-1'])('is refused as PORT=%s', (asked) => {
    expect(() => readPort(asked)).toThrow(`Unexpected PORT=${asked}, expected a whole number from 1 to 65535.`);
  });

  it('is the one asked for, or none', () => {
    expect([readPort('8080'), readPort(undefined), readPort('')]).toEqual([8080, undefined, undefined]);
  });
});
