/** FNV-1a of a text (Fowler, Noll, Vo) from an offset: 32 bits, no secret, only a name. */
export function fnv1a(text: string, offset: number = 0x811c9dc5): number {
  let hash = offset;
  for (let index = 0; index < text.length; index += 1) hash = Math.imul(hash ^ text.charCodeAt(index), 0x01000193);
  return hash >>> 0;
}
