const fetched = new Map<string, Promise<unknown>>();

/**
 * The JSON at an address of our own build, fetched and opened once a page; undefined where it cannot be fetched. A failure is forgotten,
 * so that the next who asks tries again.
 * @param open turns the value of the JSON into what is wanted; always the same for the same address
 */
export async function fetchOnce<Data>(address: string, open: (value: unknown) => Data): Promise<Data | undefined> {
  // Opened by the same function before: a parsed boundary.
  const request = (fetched.get(address) as Promise<Data> | undefined) ?? fetchData(address, open);
  fetched.set(address, request);
  try {
    return await request;
  } catch {
    fetched.delete(address);
    return undefined;
  }
}

async function fetchData<Data>(address: string, open: (value: unknown) => Data): Promise<Data> {
  const answer = await fetch(address);
  if (!answer.ok) throw new Error(`No answer from ${address}`);
  return open(await answer.json());
}
