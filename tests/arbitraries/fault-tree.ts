import fc from 'fast-check';
import type { FaultTree, TreeNode } from '#core/model/fault-tree.ts';
import { makeCause, makeCheck, makeElsewhere, makeHandOver, makePath, makeTree } from './make-tree.ts';

export interface TreeShape {
  /** Titles of nodes and stages; plain bench words where nothing is said. */
  readonly title?: fc.Arbitrary<string>;
  /** Most checks and paths together, from 1. */
  readonly mostInner?: number;
  /** Most causes, jumps and hand-overs together, from 2. */
  readonly mostEnds?: number;
}

/**
 * Valid fault trees by construction: unique ids, every node reachable from the first, ways lead only onward, checks
 * give at least two words, paths have at least three stages whose faults are causes or jumps.
 */
export function arbitraryFaultTree(shape: TreeShape = {}): fc.Arbitrary<FaultTree> {
  const { title = arbitraryTitle, mostInner = 5, mostEnds = 8 } = shape;
  return fc
    .record({ inner: fc.integer({ min: 1, max: mostInner }), ends: fc.integer({ min: 2, max: mostEnds }) })
    .chain(({ inner, ends }) =>
      fc
        .record({
          ids: fc.uniqueArray(arbitraryId, { minLength: inner + ends, maxLength: inner + ends }),
          titles: fc.array(title, { minLength: inner + ends, maxLength: inner + ends }),
          stageTitles: fc.array(title, { minLength: 12, maxLength: 12 }),
          parents: fc.array(fc.nat(), { minLength: inner + ends, maxLength: inner + ends }),
          isPath: fc.array(fc.boolean(), { minLength: inner, maxLength: inner }),
          extra: fc.array(fc.array(fc.nat(), { maxLength: 2 }), { minLength: inner, maxLength: inner }),
          endKinds: fc.array(fc.constantFrom('cause', 'cause', 'elsewhere', 'hand-over'), {
            minLength: ends,
            maxLength: ends,
          }),
        })
        .map((drawn) => assembleTree(inner, ends, drawn)),
    );
}

/** Ids that the content format allows, words of Mermaid's own language among them. */
export const arbitraryId: fc.Arbitrary<string> = fc.oneof(
  {
    weight: 4,
    arbitrary: fc.stringMatching(/^[a-z0-9]{1,7}(-[a-z0-9]{1,7}){0,2}$/).filter((id) => !reserved.has(id)),
  },
  {
    weight: 1,
    arbitrary: fc.constantFrom('style', 'graph', 'class', 'subgraph', 'click', 'default', 'o', 'x-a', 'href'),
  },
);

const reserved: ReadonlySet<string> = new Set(
  'unit with did in symptom end ask not-listed rework unseen low high none reversed sometimes'.split(' '),
);

const arbitraryTitle: fc.Arbitrary<string> = fc
  .array(
    fc.constantFrom(
      ...[
        'regulator',
        'input',
        'pin',
        'is',
        'the',
        'rail',
        '5 V',
        'reservoir',
        'capacitor',
        'dry',
        'open',
        'at',
        'chip',
      ],
      ...['loudspeaker', 'warm', 'read/write', 'track-cracked', 'no', 'amplifier', '4.7 kΩ', 'of', 'shorted'],
    ),
    { minLength: 1, maxLength: 9 },
  )
  .map((words) => words.join(' ').slice(0, 60).trim());

/** Titles meant to break out of a drawing: markup, quotes, Mermaid's own syntax, letters no font has, no space at all. */
export const hostileTitles = [
  '<script>alert(1)</script>',
  '"quoted" and \'quoted\' and `ticked`',
  'end',
  'a --> b; subgraph x; end',
  '"] --> n0["',
  '%%{init: {"securityLevel": "loose"}}%%',
  '#quot;#60;img src=x onerror=alert(1)#62;',
  '&lt;b&gt; &amp; <b>bold</b> **bold** [link](javascript:alert(1))',
  'emoji 🔥🧰👩‍🔧 and 漢字 and עברית',
  'x'.repeat(200),
  'very long title '.repeat(12).trim(),
  'control \u0000\u0007\u001b letters\nand\tlines\r\u2028',
  'lone \ud800 surrogate',
  '',
  ' ',
  '{{}} [[]] (()) || |x| @{ shape: circle }',
  'click n0 href "javascript:alert(1)"',
  ']]>',
  '--- title: x ---',
  '$$\\frac{1}{2}$$ fa:fa-ban',
] as const;

export const arbitraryHostileTitle: fc.Arbitrary<string> = fc.oneof(
  fc.constantFrom(...hostileTitles),
  fc.string({ unit: 'binary', maxLength: 40 }),
  fc.string({ unit: 'grapheme', maxLength: 200 }),
  fc.stringMatching(/^[<>"'`#&;{}[\]()|%\\/=:.@-]{1,30}$/),
);

interface Drawn {
  readonly ids: readonly string[];
  readonly titles: readonly string[];
  readonly stageTitles: readonly string[];
  readonly parents: readonly number[];
  readonly isPath: readonly boolean[];
  readonly extra: readonly (readonly number[])[];
  readonly endKinds: readonly string[];
}

function assembleTree(inner: number, ends: number, drawn: Drawn): FaultTree {
  const count = inner + ends;
  const idOf = (index: number): string => drawn.ids[index] ?? `missing-${index}`;
  const children = Array.from({ length: inner }, (): number[] => []);
  for (let node = 1; node < count; node += 1) {
    children[(drawn.parents[node] ?? 0) % Math.min(node, inner)]?.push(node);
  }
  const faults = drawn.endKinds.flatMap((kind, index) => (kind === 'hand-over' ? [] : [inner + index]));
  const nodes = Array.from({ length: count }, (_, index): TreeNode => {
    const id = idOf(index);
    const title = drawn.titles[index] ?? id;
    if (index >= inner) return makeEnd(drawn.endKinds[index - inner] ?? 'cause', id, title);
    const own = children[index] ?? [];
    const others = own.filter((child) => !faults.includes(child));
    const [fault] = faults;
    if (drawn.isPath[index] === true && others.length <= 1 && fault !== undefined) {
      const stageFaults = [...own.filter((child) => faults.includes(child)), fault, fault, fault].slice(
        0,
        Math.max(3, own.length - others.length),
      );
      const stages = Object.fromEntries(
        stageFaults.map((to, stage) => [`${stage} ${drawn.stageTitles[stage] ?? 'stage'}`, idOf(to)]),
      );
      return makePath(id, stages, idOf(others[0] ?? count - 1), { title });
    }
    const more = (drawn.extra[index] ?? []).map((pick) => index + 1 + (pick % (count - index - 1)));
    const targets = [...own, ...more, count - 1, count - 2].filter((to) => to > index);
    return makeCheck(
      id,
      Object.fromEntries(
        targets.slice(0, Math.max(2, own.length + more.length)).map((to, place) => [words(place), idOf(to)]),
      ),
      { title },
    );
  });
  return makeTree(nodes, { title: drawn.titles[0] ?? 'A tree' });
}

function words(place: number): string {
  return ['low none', 'in', 'high', 'sometimes', 'odd-one', 'all-alike'][place] ?? `word-${place}`;
}

function makeEnd(kind: string, id: string, title: string): TreeNode {
  if (kind === 'elsewhere') return makeElsewhere(id, { title });
  return kind === 'hand-over' ? makeHandOver(id, { title }) : makeCause(id, { title });
}
