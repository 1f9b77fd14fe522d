import { describe, expect, it } from 'vitest';
import { loadLibrary } from '#build/library.ts';
import type { Check, FaultTree, SignalPath } from '#core/model/fault-tree.ts';
import { linksFrom } from '#core/model/node.ts';
import { withAsked } from '#core/answer/lead.ts';
import { addressOf } from '#core/link/address.ts';
import { parseLinkState, printLinkState } from '#core/link/fragment.ts';
import { makeTreeMap, namesOf } from '#core/link/tree-map.ts';

// The longest fragments that the shipped trees can need. Every answer counts as the longest that its check takes: its longest
// word, or a reading of five digits with its unit. The bars are those of the design: 300, and 450 with readings carried in.
const library = loadLibrary();
const trees = [...library.trees.values()];
const longestUnit = longestOf([...library.units.keys()]);
const longestClass = longestOf([...library.instrumentClasses.keys()]);
const longestReadings: Readonly<Record<string, string>> = { resistance: '-123.45kohm', 'voltage-dc': '-12.345mV' };
const otherReading = '123.45mVrms';

type Asked = Check | SignalPath;

function longestOf(texts: readonly string[]): string {
  return texts.reduce((one, other) => (other.length > one.length ? other : one), '');
}

function checksOf(tree: FaultTree): readonly Asked[] {
  return tree.nodes.flatMap((node) => (node.kind === 'check' || node.kind === 'path' ? [node] : []));
}

/** The longest pair that one check can put into a fragment. */
function answerOf(node: Asked): string {
  if (node.kind === 'path') return longestOf([...node.stages.map(({ id }) => `${node.id}/${id}=bad`), `${node.id}=good`]);
  const words = [...node.outcomes.flatMap(({ when }) => when), 'sometimes'];
  const quantity = node.target === undefined ? undefined : library.targets.get(node.target.target)?.quantity;
  const readings = quantity === undefined ? [] : [longestReadings[quantity] ?? otherReading];
  return `${node.id}=${longestOf([...words, ...readings])}`;
}

/** Every walk is at most ten answers. */
const mostChecks = 10;

/** The longest fragment, without its head, that a walk along the tree's own links gives from a node on. */
function longestWalk(tree: FaultTree, from: string, most: number): readonly string[] {
  const node = tree.nodes.find(({ id }) => id === from);
  if (most === 0 || (node?.kind !== 'check' && node?.kind !== 'path')) return [];
  const rests = [...new Set(linksFrom(node).map(({ to }) => to))].map((to) => longestWalk(tree, to, most - 1));
  return [answerOf(node), ...longestOfWalks(rests)];
}

/** The longest walk from the first node to one that is given, its answers as another tree carries them: without stages. */
function longestWalkTo(tree: FaultTree, from: string, to: string, most: number): readonly string[] | undefined {
  if (from === to) return [];
  const node = tree.nodes.find(({ id }) => id === from);
  if (most === 0 || (node?.kind !== 'check' && node?.kind !== 'path')) return undefined;
  const rests = [...new Set(linksFrom(node).map((link) => link.to))].flatMap((next) => {
    const rest = longestWalkTo(tree, next, to, most - 1);
    return rest === undefined ? [] : [rest];
  });
  if (rests.length === 0) return undefined;
  return [...(node.kind === 'check' ? [`${tree.slug}/${answerOf(node)}`] : []), ...longestOfWalks(rests)];
}

function longestOfWalks(walks: readonly (readonly string[])[]): readonly string[] {
  return walks.reduce((one, other) => (other.join('&').length > one.join('&').length ? other : one), []);
}

function startOf(tree: FaultTree): string {
  return tree.nodes[0]?.id ?? '';
}

const head = `unit=${longestUnit}&with=${longestClass}`;

describe('the fragment of a diagnosis', () => {
  it('is at most 300 characters for the longest walk of any tree, unit and instrument named', () => {
    const fragments = trees.map((tree) => [head, ...longestWalk(tree, startOf(tree), mostChecks)].join('&'));

    // At least one tree is deep enough for ten checks in a row, else this would measure less than it says.
    expect(Math.max(...fragments.map((text) => text.split('&').length - 2))).toBe(mostChecks);
    expect(fragments.filter((text) => text.length > 300)).toEqual([]);
  });

  it('is at most 300 characters for the ten longest answers of one tree, whether a walk joins them or not', () => {
    const fragments = trees.map((tree) =>
      [
        head,
        ...checksOf(tree)
          .map(answerOf)
          .toSorted((one, other) => other.length - one.length)
          .slice(0, mostChecks),
      ].join('&'),
    );

    expect(fragments.filter((text) => text.length > 300)).toEqual([]);
  });

  it('is at most 450 characters for ten checks of which the first ones were carried in from another tree', () => {
    const fragments = trees.flatMap((tree) =>
      tree.nodes.flatMap((node) => {
        const into = node.kind === 'elsewhere' ? library.trees.get(node.tree) : undefined;
        const carried = longestWalkTo(tree, startOf(tree), node.id, mostChecks - 1);
        if (into === undefined || carried === undefined) return [];
        return [head, ...carried, ...longestWalk(into, startOf(into), mostChecks - carried.length)].join('&');
      }),
    );

    expect(fragments.length).toBeGreaterThan(10);
    expect(fragments.filter((text) => text.length > 450)).toEqual([]);
  });
});

describe('a link that asks for three checks', () => {
  it('is at most 300 characters with its path, three answers of evidence, unit and instrument', () => {
    const links = trees.map((tree) => {
      const longest = checksOf(tree).toSorted((one, other) => answerOf(other).length - answerOf(one).length);
      const evidence = parseLinkState(longest.slice(3, 6).map(answerOf).join('&'), namesOf(makeTreeMap(tree, [], [])));
      const state = withAsked(
        { ...evidence.state, unit: longestUnit, instrument: longestClass },
        longest.slice(0, 3).map(({ id }) => id),
        true,
      );
      expect(state.answers).toHaveLength(3);
      expect(state.ask).toHaveLength(3);
      return `${addressOf({ kind: 'node', tree: tree.slug, node: state.ask[0] ?? '' }, '/')}#${printLinkState(state)}`;
    });

    expect(links.filter((link) => link.length > 300)).toEqual([]);
  });
});
