import type { Pack } from '#core/offline/pack.ts';

/** Unpacks the body of a fetched pack. Throws where it is not one, which its integrity value rules out. */
export async function readPack(response: Response): Promise<Pack> {
  if (response.body === null) throw new Error('A pack without a body.');
  const text = await new Response(response.body.pipeThrough(new DecompressionStream('gzip'))).text();
  // Written by our own build, and checked against its hash when it was fetched.
  return JSON.parse(text) as Pack;
}
