import type { Pack } from './pack.ts';

/** Before an opening tag: pieces cut there repeat from page to page (measured: the smallest packs of five ways tried). */
const placeToCut = /(?=<[^/])/u;

/**
 * Packs files; `readPackedFile` gives each back unchanged. Time and memory grow with the length of all texts.
 * @param files path below the site's base and text, each path once
 * @example makePack([['a.html', '<p>one<p>two'], ['b.html', '<p>one<p>three']]).pieces // ['<p>one', '<p>two', '<p>three']
 */
export function makePack(files: readonly (readonly [path: string, text: string])[]): Pack {
  const cut = files.map(([path, text]) => [path, text.split(placeToCut)] as const);
  const isJoined = findJoined(cut.map(([, parts]) => parts));
  const numbers = new Map<string, number>();
  const rows = cut.map(([path, parts]) => {
    const row = join(parts, isJoined).map((piece) => {
      const known = numbers.get(piece) ?? numbers.size;
      numbers.set(piece, known);
      return known;
    });
    return [path, writeRuns(row)] as const;
  });
  return { pieces: [...numbers.keys()], files: Object.fromEntries(rows) };
}

/** Tells whether two parts are neighbours wherever either of them stands: such parts are one piece. */
function findJoined(texts: readonly (readonly string[])[]): (part: string, next: string) => boolean {
  const following = new Map<string, string | undefined>();
  const preceding = new Map<string, string | undefined>();
  for (const parts of texts) {
    parts.forEach((part, index) => {
      noteNeighbour(following, part, parts[index + 1]);
      noteNeighbour(preceding, part, parts[index - 1]);
    });
  }
  return (part, next) => following.get(part) === next && preceding.get(next) === part;
}

/** Keeps the neighbour of a part as long as it is the same every time, else undefined. */
function noteNeighbour(neighbours: Map<string, string | undefined>, part: string, neighbour: string | undefined): void {
  const isSame = !neighbours.has(part) || neighbours.get(part) === neighbour;
  neighbours.set(part, isSame ? neighbour : undefined);
}

function join(parts: readonly string[], isJoined: (part: string, next: string) => boolean): readonly string[] {
  const pieces: string[][] = [];
  let previous: string | undefined;
  for (const part of parts) {
    const open = pieces.at(-1);
    if (open !== undefined && previous !== undefined && isJoined(previous, part)) open.push(part);
    else pieces.push([part]);
    previous = part;
  }
  return pieces.map((piece) => piece.join(''));
}

function writeRuns(row: readonly number[]): readonly number[] {
  const runs: number[] = [];
  let end = 0;
  for (const [index, number] of row.entries()) {
    const length = runs.at(-1);
    if (index > 0 && number === end && length !== undefined) runs[runs.length - 1] = length + 1;
    else runs.push(number - end, 1);
    end = number + 1;
  }
  return runs;
}
