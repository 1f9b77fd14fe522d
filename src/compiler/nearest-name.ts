/** Edit distance (insertions, deletions, substitutions) of two short words; cost O(a·b). Levenshtein 1966. */
export function editDistance(a: string, b: string): number {
  let previous = Array.from({ length: b.length + 1 }, (_, column) => column);
  for (let row = 1; row <= a.length; row += 1) {
    const current = [row];
    for (let column = 1; column <= b.length; column += 1) {
      const substitution = (previous[column - 1] ?? 0) + (a[row - 1] === b[column - 1] ? 0 : 1);
      current.push(Math.min(substitution, (previous[column] ?? 0) + 1, (current[column - 1] ?? 0) + 1));
    }
    previous = current;
  }
  return previous[b.length] ?? 0;
}

/**
 * The name closest to `word` (at most 100 letters of it are read), or one that holds it or is held by it; undefined where none is near
 * enough to be meant.
 */
export function nearestName(word: string, names: Iterable<string>): string | undefined {
  const short = word.slice(0, 100);
  let best: string | undefined;
  let bestDistance = Math.max(2, Math.floor(short.length / 3)) + 1;
  for (const name of names) {
    const distance = editDistance(short, name);
    if (distance < bestDistance) {
      best = name;
      bestDistance = distance;
    }
  }
  return best ?? (short.length < shortestPart ? undefined : containedName(short, names));
}

/** A part shorter than this says too little: `in` stands in half of all names. */
const shortestPart = 4;

/** The shortest name that holds the word, or the longest that the word holds: `scope` for `oscilloscope`. */
function containedName(word: string, names: Iterable<string>): string | undefined {
  const all = [...names].filter((name) => name.length >= shortestPart);
  const holding = all.filter((name) => name.includes(word)).toSorted((a, b) => a.length - b.length);
  const held = all.filter((name) => word.includes(name)).toSorted((a, b) => b.length - a.length);
  return holding[0] ?? held[0];
}

/** "Did you mean `x`?" with a space before it, or nothing. */
export function suggestName(word: string, names: Iterable<string>): string {
  const nearest = nearestName(word, names);
  return nearest === undefined ? '' : ` Did you mean \`${nearest}\`?`;
}
