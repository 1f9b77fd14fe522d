import type { FaultTree, TreeNode } from '#core/model/fault-tree.ts';
import { listParagraphs } from '#core/model/prose.ts';
import { say } from '../support/say.ts';
import type { Library } from '#core/model/library.ts';
import { createRandom } from '../support/diagnosis/random.ts';

type Random = () => number;

/**
 * A library with `count` trees made from the shipped ones: the same shapes, symptom phrases and titles mixed from all of
 * theirs, and about one word in five replaced by an invented one, so that the vocabulary grows as it would. Seeded.
 */
export function makeManyTrees(library: Library, count: number, seed: number): Library {
  const random = createRandom(seed);
  const shipped = [...library.trees.values()];
  const phrases = shipped.flatMap(({ symptoms }) => symptoms);
  const invented = Array.from({ length: count * 4 }, () => inventWord(random));
  const trees = new Map<string, FaultTree>();
  for (let number = 0; number < count; number += 1) {
    const model = pick(shipped, random);
    const slug = `${model.slug}-${number}`;
    const disturb = (text: string): string =>
      text
        .split(' ')
        .map((word) => (random() < 0.2 ? pick(invented, random) : word))
        .join(' ');
    trees.set(slug, {
      ...model,
      slug,
      title: disturb(model.title),
      summary: disturb(model.summary),
      symptoms: Array.from({ length: 8 }, () =>
        disturb(random() < 0.5 ? pick(phrases, random) : pick(model.symptoms, random)),
      ),
      nodes: model.nodes.map((node): TreeNode => ({
        ...node,
        title: disturb(node.title),
        prose: say(...listParagraphs(node.prose).slice(0, 1).map(disturb)),
      })),
    });
  }
  return { ...library, trees };
}

function inventWord(random: Random): string {
  const syllables = [
    'ba',
    'cor',
    'den',
    'fi',
    'gal',
    'hu',
    'ken',
    'lor',
    'mi',
    'nas',
    'po',
    'rit',
    'sel',
    'tun',
    'vor',
    'wix',
  ];
  return Array.from({ length: 2 + Math.floor(random() * 2) }, () => pick(syllables, random)).join('');
}

function pick<Item>(items: readonly Item[], random: Random): Item {
  const item = items[Math.floor(random() * items.length)];
  if (item === undefined) throw new Error('Nothing to pick from.');
  return item;
}
