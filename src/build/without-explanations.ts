import type { Plugin } from 'vite';

interface Node {
  readonly type: string;
  readonly start: number;
  readonly end: number;
  readonly [key: string]: unknown;
}

/** What explains a rule in the guide and at the command line. */
const explaining: ReadonlySet<string> = new Set(['says', 'why', 'wrong', 'right', 'all', 'from']);

/**
 * Leaves out of a bundle what the drafting page never shows of a rule: why it is, and its examples. The guide has them, built apart.
 * An object that holds both `why` and `wrong` is an explanation; a rule about all trees together (`isOfWhole`) loses its search too,
 * since it says nothing of a draft.
 */
export function withoutExplanations(): Plugin {
  return {
    name: 'without-explanations',
    transform: {
      order: 'post',
      filter: { id: /src\/compiler\/(?:rules\/[a-z-]+|reader-messages)\.ts/ },
      handler(code) {
        const cuts = explanationsIn(this.parse(code));
        let kept = code;
        for (const { start, end } of cuts.toSorted((one, other) => other.start - one.start)) {
          kept = kept.slice(0, start) + kept.slice(/^\s*,/.test(kept.slice(end)) ? kept.indexOf(',', end) + 1 : end);
        }
        return { code: kept, map: null };
      },
    },
  };
}

function explanationsIn(root: unknown): readonly Node[] {
  const found: Node[] = [];
  const open: unknown[] = [root];
  while (open.length > 0) {
    const next = open.pop();
    if (Array.isArray(next)) open.push(...next);
    if (!isNode(next)) continue;
    open.push(...Object.values(next));
    if (next.type !== 'ObjectExpression' || !Array.isArray(next['properties'])) continue;
    const named = next['properties'].filter(isNode).map((property) => ({ property, name: nameOf(property) }));
    const names = named.map(({ name }) => name);
    if (!names.includes('why') || !names.includes('wrong')) continue;
    const isOfWhole = names.includes('isOfWhole');
    found.push(
      ...named
        .filter(({ name }) => explaining.has(name) || (isOfWhole && name === 'findInAll'))
        .map(({ property }) => property),
    );
  }
  return found;
}

function nameOf({ key }: Node): string {
  return isNode(key) && typeof key['name'] === 'string' ? key['name'] : '';
}

function isNode(value: unknown): value is Node {
  return typeof value === 'object' && value !== null && 'type' in value && 'start' in value;
}
