import type { FaultTree, TreeNode } from '#core/model/fault-tree.ts';
import { type Element, readBody } from './element.ts';
import { elementNames } from './elements.ts';
import { parseMdx } from './parse-mdx.ts';
import { Positions } from './position.ts';
import type { ReadContext } from './problem.ts';
import { collectInto, type Finding, type Problem, type Report } from './problem.ts';
import { nodeReaders } from './read-nodes.ts';
import { readFrontMatter } from './read-yaml.ts';
import { treeSchema } from './schemas.ts';

/** A tree file after reading: the tree where its structure holds, where each part stands, and all that was wrong. */
export interface CompiledTree {
  readonly file: string;
  readonly tree: FaultTree | undefined;
  readonly positions: Positions;
  readonly problems: readonly Problem[];
}

/**
 * Compiles the MDX text of one tree. `file` is its path from the project's root: the slug is the file's name.
 * Layer by layer: where the syntax is broken nothing else is read; where the structure is broken no tree results.
 * Never throws, runs nothing of the text.
 */
export function compileTree(text: string, file: string): CompiledTree {
  const problems: Problem[] = [];
  const positions = new Positions();
  const collect = collectInto(problems, file);
  const report: Report = (finding) => collect(inFile(finding, file));
  const context = { positions, report };
  const parsed = parseMdx(text, context);
  if (parsed === undefined) return { file, tree: undefined, positions, problems };
  const front = readFrontMatter(parsed.frontMatter, treeSchema, context);
  const body = readBody(parsed.body, elementNames, report);
  for (const position of body.paragraphs) {
    report({
      rule: 'prose-outside-node',
      position,
      message: 'Unexpected text outside a node, expected only nodes below the front matter.',
      help: 'Move it into the node it belongs to; what the tree is about goes into `summary:`.',
    });
  }
  const nodes = readNodes(body.elements, context);
  if (body.elements.length === 0) {
    report({
      rule: 'tree-empty',
      position: { line: 1, column: 1 },
      message: 'Unexpected tree without a node, expected checks and causes below the front matter.',
      help: 'Begin with <Check>; `npm run new` writes a tree to start from.',
    });
  }
  const isSound = front !== undefined && nodes.length > 0 && problems.every(({ severity }) => severity !== 'error');
  const tree = isSound
    ? { ...front, order: front.order, since: front.since, slug: slugOf(file), computed: {}, nodes }
    : undefined;
  return { file, tree, positions, problems };
}

/** The slug in a content file's path: `content/trees/power/psu-5v-low.mdx` is `psu-5v-low`. */
export function slugOf(file: string): string {
  return (file.split('/').at(-1) ?? '').replace(/\.(?:mdx|yaml|cir|json)$/, '');
}

/** Readers know positions, not the file: another place that they name lies in the same one. */
function inFile(finding: Finding, file: string): Finding {
  return finding.other?.file === '' ? { ...finding, other: { ...finding.other, file } } : finding;
}

function readNodes(elements: readonly Element[], context: ReadContext): readonly TreeNode[] {
  const seen = new Set<string>();
  return elements.flatMap((element) => {
    const reader = nodeReaders.get(element.name);
    if (reader === undefined) {
      if (elementNames.has(element.name)) {
        context.report({
          rule: 'element-place',
          position: element.position,
          message: `Unexpected \`<${element.name}>\` outside a node, expected ${[...nodeReaders.keys()].join(', ')}.`,
          help: 'Move it into the node it belongs to.',
        });
      }
      return [];
    }
    const id = element.attributes.get('id')?.value.trim() ?? '';
    if (id !== '' && seen.has(id)) {
      context.report({
        rule: 'duplicate-id',
        position: element.attributes.get('id')?.position ?? element.position,
        message: `Unexpected second node \`${id}\`, expected each id once in a tree.`,
        help: 'Rename one of the two.',
        other: { file: '', position: context.positions.find(`node/${id}`), says: 'the first one' },
      });
    }
    seen.add(id);
    return [reader(element, `node/${id}`, context)];
  });
}
