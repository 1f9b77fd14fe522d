/** A data file of the built site. */
export function respondWithJson(value: unknown): Response {
  return new Response(JSON.stringify(value), { headers: { 'content-type': 'application/json' } });
}
