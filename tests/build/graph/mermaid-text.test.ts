import { describe, expect, it } from 'vitest';
import { openMermaidPage, readNodeName } from '#build/graph/mermaid-page.ts';
import { buildDecisionGraph } from '#core/graph/decision-graph.ts';
import { writeMermaidText } from '#core/graph/mermaid-text.ts';
import { hostileTitles } from '../../arbitraries/fault-tree.ts';
import { makeCause, makeCheck, makePath, makeTree } from '../../arbitraries/make-tree.ts';

/** Mermaid cannot draw a line to a rhombus of no size whose label is not Latin. */
const box = { width: 120, height: 60 };

describe('the text of a graph, read by Mermaid itself', () => {
  it('is one node and one edge for each of ours, whatever titles and ids say', async () => {
    const page = await openMermaidPage();
    for (const title of hostileTitles) {
      const graph = buildDecisionGraph(
        makeTree([
          makeCheck('style', { [`yes"${title}`.replaceAll(' ', '_')]: 'class', no: 'subgraph' }, { title }),
          makePath('class', { [`a ${title}`]: 'graph', [`b ${title}`]: 'graph', c: 'graph' }, 'graph', { title }),
          makeCause('subgraph', { title }),
          makeCause('graph', { title }),
        ]),
      );
      const text = writeMermaidText(graph, {
        measure: (label, size) => 0.42 * size * label.length,
        findAddress: (id) => `/trees/x/${id}/`,
      });
      const drawing = await page.render(text, {
        nodes: new Map(['n0', 'n1', 'n2', 'n3'].map((name) => [name, box])),
        edges: new Map(),
      });

      expect([...drawing.querySelectorAll('g.node')].map(readNodeName)).toEqual(['n0', 'n1', 'n2', 'n3']);
      expect(
        [...drawing.querySelectorAll('path[data-points]')].map((edge) => edge.getAttribute('data-id')).sort(),
      ).toEqual(['L_n0_n1_0', 'L_n0_n2_0', 'L_n1_n3_0']);
      expect([...drawing.querySelectorAll('a')].map((link) => link.getAttribute('href'))).toEqual(
        graph.nodes.map((node) => `/trees/x/${node.id}/`),
      );
      expect(drawing.querySelectorAll('script, foreignObject, img, iframe')).toHaveLength(0);
    }
  });
});
