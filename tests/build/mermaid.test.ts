import { describe, expect, it } from 'vitest';
import { readGraphText, writeGraphText } from '#build/mermaid.ts';
import { hostileTitles } from '../arbitraries/fault-tree.ts';
import { makeCause, makeCheck, makePath, makeTree } from '../arbitraries/make-tree.ts';

describe('the text of a graph, read by Mermaid itself', () => {
  it('is one node and one edge for each of ours, whatever titles and ids say', async () => {
    for (const title of hostileTitles) {
      const tree = makeTree([
        makeCheck('style', { [`yes"${title}`.replaceAll(' ', '_')]: 'class', no: 'subgraph' }, { title }),
        makePath('class', { [`a ${title}`]: 'graph', [`b ${title}`]: 'graph', c: 'graph' }, 'graph', { title }),
        makeCause('subgraph', { title }),
        makeCause('graph', { title }),
      ]);
      const read = await readGraphText(await writeGraphText(tree, (id) => `https://example.org/trees/x/${id}/`));

      expect(read.nodes).toEqual(['n0', 'n1', 'n2', 'n3']);
      expect(read.edges).toEqual(['n0 n1', 'n0 n2', 'n1 n3']);
      expect([...read.links.values()]).toEqual(tree.nodes.map(({ id }) => `https://example.org/trees/x/${id}/`));
    }
  });

  it('is refused by Mermaid where it is no flowchart, with the line', async () => {
    await expect(readGraphText('flowchart TB\nn0 --')).rejects.toThrow(/Parse error on line/);
  });

  it('leaves no browser behind in Node', async () => {
    await readGraphText('flowchart TB\nn0["A"]');

    expect(['window', 'document', 'Element'].filter((name) => name in globalThis)).toEqual([]);
  });
});
