import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { buildDecisionGraph } from '#core/figure/decision-graph.ts';
import { writeMermaidText } from '#core/figure/mermaid-text.ts';
import { arbitraryFaultTree, arbitraryHostileTitle } from '../../arbitraries/fault-tree.ts';
import { makeCause, makeCheck, makeElsewhere, makeHandOver, makePath, makeTree } from '../../arbitraries/make-tree.ts';

describe('writeMermaidText', () => {
  it('writes nodes as n0, n1 … in the order of the file, each in the brackets of its kind', () => {
    const tree = makeTree([
      makeCheck('end', { yes: 'style', 'no odd-one': 'a-path' }, { title: 'Is it on?' }),
      makePath('a-path', { 'input pin': 'style', 'output pin': 'graph', 'loudspeaker terminals': 'graph' }, 'class', {
        title: 'Along the amplifier',
      }),
      makeCause('style', { title: 'Fuse open' }),
      makeElsewhere('graph', { title: 'A dead rail' }),
      makeHandOver('class', { title: 'Mains side' }),
    ]);

    const text = writeMermaidText(buildDecisionGraph(tree), (id) =>
      id === 'style' ? '/trees/sample/style/' : undefined,
    );

    expect(text).toBe(`flowchart TB
n0{"Is it on?"}
n1[["Along the amplifier"]]
n2(["Fuse open"])
n3>"A dead rail"]
n4("Mains side")
n0 -->|"yes"| n2
n0 -->|"no, odd one"| n1
n1 -->|"input pin"| n2
n1 -->|"output pin, loudspeaker terminals"| n3
n1 -->|"good"| n4
click n2 href "/trees/sample/style/"
`);
  });

  it('writes quotes, brackets, ticks, numbers of characters and markup as character codes', () => {
    const tree = makeTree([makeCause('only', { title: '"]`#<b>%%{&;é' })]);

    expect(writeMermaidText(buildDecisionGraph(tree))).toContain(
      'n0(["#34;#93;#96;#35;#60;b#62;#37;#37;#123;#38;#59;#233;"])',
    );
  });

  it('lets no title out of its quotes', () => {
    fc.assert(
      fc.property(arbitraryFaultTree({ title: arbitraryHostileTitle }), (tree) => {
        const graph = buildDecisionGraph(tree);
        const [first, ...rest] = writeMermaidText(graph, (id) => `/trees/"x"/${id}/`)
          .trimEnd()
          .split('\n');
        const label = String.raw`"(?:[A-Za-z0-9 ,.?()'/-]|#\d+;)+"`;
        const node = new RegExp(
          String.raw`^n\d+(?:\{${label}\}|\[\[${label}\]\]|\(\[${label}\]\)|>${label}\]|\(${label}\))$`,
          'u',
        );
        const edge = new RegExp(String.raw`^n\d+ -->\|${label}\| n\d+$`, 'u');
        const link = /^click n\d+ href "\/trees\/%22x%22\/[a-z0-9-]+\/"$/u;

        expect(first).toBe('flowchart TB');
        expect(rest.filter((line) => node.test(line))).toHaveLength(graph.nodes.length);
        expect(rest.filter((line) => edge.test(line))).toHaveLength(graph.edges.length);
        expect(rest.filter((line) => link.test(line))).toHaveLength(graph.nodes.length);
        expect(rest).toHaveLength(2 * graph.nodes.length + graph.edges.length);
      }),
    );
  });
});
