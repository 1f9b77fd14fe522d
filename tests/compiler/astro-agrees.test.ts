import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { JSDOM } from 'jsdom';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { compileTree, slugOf } from '#compiler/compile-tree.ts';
import { type Element, readBody, type Written } from '#compiler/element.ts';
import { elementNames } from '#compiler/elements/all.ts';
import { loadContent } from '#compiler/load.ts';
import { parseMdx } from '#compiler/parse-mdx.ts';
import type { TreeNode } from '#core/model/fault-tree.ts';
import { ownEnvironment } from '../support/own-environment.ts';

/** What stands inside an element or at the top of a file: sub-elements and sentences, each in order. */
interface Reading {
  readonly elements: readonly ElementReading[];
  readonly prose: readonly { readonly text: string; readonly elementsBefore: number }[];
}

interface ElementReading extends Reading {
  readonly name: string;
  readonly attributes: Readonly<Record<string, string>>;
}

const trees = loadContent('.').filter(({ file }) => file.startsWith('content/trees/') && file.endsWith('.mdx'));
/** What another reading of Markdown would make links, a deletion, a table and a tick box of. */
const plainProse = `<Check id="look" title="Look">
  See https://example.org/a or www.example.org, write to bench@example.org, ~~not so~~.

  | pin | volts |
  | --- | ----- |
  | 1   | 5     |

  - [ ] done
</Check>
`;
const project = mkdtempSync(join(tmpdir(), 'halfsplit-astro-agrees-'));

// A page that renders every tree with Astro's own MDX, each element as a tag that carries its name and attributes.
const page = `---
${[...elementNames].map((name) => `import ${name} from '../elements/${name}.astro';`).join('\n')}
const components = { ${[...elementNames].join(', ')} };
export const getStaticPaths = () =>
  Object.entries(import.meta.glob('../trees/*.mdx', { eager: true })).map(([path, { Content }]) => ({
    params: { slug: path.split('/').at(-1).replace('.mdx', '') },
    props: { Content },
  }));
const { Content } = Astro.props;
---
<main><Content components={components} /></main>
`;

beforeAll(() => {
  const files: Readonly<Record<string, string>> = {
    'package.json': '{ "type": "module" }',
    // As the site's own configuration has it, as far as it concerns MDX.
    'astro.config.mjs': `import mdx from '@astrojs/mdx';
import { markdownSettings } from ${JSON.stringify(join(process.cwd(), 'src/build/markdown-settings.ts'))};
export default { integrations: [mdx({ optimize: false })], markdown: markdownSettings };`,
    'src/trees/plain.mdx': plainProse,
    'src/pages/[slug].astro': page,
    ...Object.fromEntries(
      [...elementNames].map((name) => [
        `src/elements/${name}.astro`,
        `<x-element data-name="${name}" data-attributes={JSON.stringify(Astro.props)}><slot /></x-element>\n`,
      ]),
    ),
    ...Object.fromEntries(trees.map(({ file, text }) => [`src/trees/${slugOf(file)}.mdx`, text])),
  };
  for (const folder of ['src/pages', 'src/elements', 'src/trees'])
    mkdirSync(join(project, folder), { recursive: true });
  for (const [path, text] of Object.entries(files)) writeFileSync(join(project, path), text);
  symlinkSync(join(process.cwd(), 'node_modules'), join(project, 'node_modules'));
  const { status, stdout, stderr } = spawnSync(process.execPath, ['node_modules/astro/bin/astro.mjs', 'build'], {
    cwd: project,
    env: { ...ownEnvironment(), ASTRO_TELEMETRY_DISABLED: '1', NO_COLOR: '1' },
    encoding: 'utf8',
  });
  if (status !== 0) throw new Error(stdout + stderr);
}, 180_000);

afterAll(() => rmSync(project, { recursive: true, force: true }));

function readAsAstro(slug: string): Reading {
  const html = readFileSync(join(project, 'dist', slug, 'index.html'), 'utf8');
  const main = new JSDOM(html).window.document.querySelector('main');
  if (main === null) throw new Error(`${slug} was not rendered`);
  return readRendered(main);
}

function readRendered(parent: ParentNode & Node): Reading {
  const elements: ElementReading[] = [];
  const prose: { text: string; elementsBefore: number }[] = [];
  let words = '';
  const closeWords = (): void => {
    if (words.trim() !== '') prose.push({ text: plain(words), elementsBefore: elements.length });
    words = '';
  };
  const readList = (list: globalThis.Element): void => {
    for (const item of list.children) {
      for (const child of item.childNodes) {
        const tag = child.nodeName.toLowerCase();
        if (tag === 'p' || tag === 'ul' || tag === 'ol') closeWords();
        if (isElement(child) && (tag === 'ul' || tag === 'ol')) readList(child);
        else words += child.textContent ?? '';
        if (tag === 'p') closeWords();
      }
      closeWords();
    }
  };
  for (const child of parent.childNodes) {
    const tag = child.nodeName.toLowerCase();
    if (!isElement(child) || ['em', 'strong', 'code', 'a', 'br', 'del'].includes(tag)) {
      if (child.nodeType !== 8) words += child.textContent ?? '';
      continue;
    }
    closeWords();
    if (tag === 'x-element') {
      const attributes: unknown = JSON.parse(child.getAttribute('data-attributes') ?? '{}');
      elements.push({
        name: child.getAttribute('data-name') ?? '',
        attributes: readStrings(attributes),
        ...readRendered(child),
      });
    } else if (tag === 'ul' || tag === 'ol') readList(child);
    else prose.push({ text: plain(child.textContent ?? ''), elementsBefore: elements.length });
  }
  closeWords();
  return { elements, prose };
}

function isElement(node: Node): node is globalThis.Element {
  return node.nodeType === 1;
}

function readStrings(value: unknown): Readonly<Record<string, string>> {
  const entries = typeof value === 'object' && value !== null ? Object.entries(value) : [];
  return Object.fromEntries(entries.map(([name, text]) => [name, String(text)]));
}

/** Text without what typography changes: Astro curls quotes and joins dashes and dots. */
function plain(text: string): string {
  return text
    .replace(/[“”„]/g, '"')
    .replace(/[‘’]/g, "'")
    .replace(/…/g, '...')
    .replace(/[–—]/g, '-')
    .replace(/--+/g, '-')
    .replace(/\s+/g, ' ')
    .trim();
}

function readAsCompiler(text: string): Reading {
  const problems: string[] = [];
  const parsed = parseMdx(text, ({ message }) => problems.push(message));
  const written = readBody(parsed?.body ?? [], elementNames, ({ message }) => problems.push(message));
  expect(problems).toEqual([]);
  return simplify(written);
}

function simplify({ elements, prose }: Written): Reading {
  return {
    elements: elements.map((element) => ({
      name: element.name,
      attributes: attributesOf(element),
      ...simplify(element),
    })),
    prose: prose.map(({ text, elementsBefore }) => ({ text: plain(text), elementsBefore })),
  };
}

function attributesOf({ attributes }: Element): Readonly<Record<string, string>> {
  return Object.fromEntries([...attributes].map(([name, { value }]) => [name, value]));
}

function countIn(reading: Reading, name: string): number {
  return reading.elements.reduce((sum, element) => sum + (element.name === name ? 1 : 0) + countIn(element, name), 0);
}

function countTargets(node: TreeNode): number {
  if (node.kind === 'check') return node.target === undefined ? 0 : 1;
  if (node.kind !== 'cause') return 0;
  return [node.confirm, node.repair, node.prove].reduce((sum, part) => sum + (part?.targets.length ?? 0), 0);
}

describe('Astro and the compiler', () => {
  it('are compared over at least the six trees that lean on each other', () => {
    expect(trees.map(({ file }) => slugOf(file))).toEqual(
      expect.arrayContaining([
        'psu-dead-linear',
        'psu-5v-low',
        'rail-short-board',
        'clock-dead',
        'reset-stuck',
        'dram-garbage',
      ]),
    );
  });

  it('would be told apart by one word, one attribute, or one element more', () => {
    const { file = '', text = '' } = trees[0] ?? {};
    const rendered = readAsAstro(slugOf(file));
    const changes = [
      text.replace('</Check>', 'Really.\n\n</Check>'),
      text.replace('<Check ', '<Check wait="99" '),
      text.replace('</Check>', '<Caution use="mains" />\n\n</Check>'),
    ];

    for (const changed of changes) {
      expect(changed).not.toBe(text);
      expect(readAsCompiler(changed)).not.toEqual(rendered);
    }
  });

  it('both leave bare addresses, tables, strokes and boxes the plain text they are', () => {
    const html = readFileSync(join(project, 'dist', 'plain', 'index.html'), 'utf8');
    const main = new JSDOM(html).window.document.querySelector('main');

    expect(main?.textContent).toContain('https://example.org/a');
    expect([...(main?.querySelectorAll('a, del, table, input') ?? [])].map(({ outerHTML }) => outerHTML)).toEqual([]);
    expect(readAsCompiler(plainProse)).toEqual(readAsAstro('plain'));
  });

  it.each(trees.map(({ file, text }) => [slugOf(file), text] as const))(
    'read the same elements, attributes and sentences in %s',
    (slug, text) => {
      const rendered = readAsAstro(slug);

      expect(rendered.elements.length).toBeGreaterThan(2);
      expect(readAsCompiler(text)).toEqual(rendered);
    },
  );

  it.each(trees.map(({ file, text }) => [slugOf(file), file, text] as const))(
    'find the same nodes, targets, substitutes, cautions and answers in %s',
    (slug, file, text) => {
      const nodes = compileTree(text, file).tree?.nodes ?? [];
      const rendered = readAsAstro(slug).elements;

      expect(nodes.map(({ id }) => id)).toEqual(rendered.map(({ attributes }) => attributes['id']));
      expect(
        nodes.map((node) => [
          countTargets(node),
          node.kind === 'cause' ? (node.repair?.substitutes.length ?? 0) : 0,
          node.cautions.length,
          node.kind === 'check' ? node.outcomes.length : 0,
          node.kind === 'path' ? node.stages.length : 0,
        ]),
      ).toEqual(
        rendered.map((element) =>
          ['Target', 'Substitute', 'Caution', 'Outcome', 'Stage'].map((name) => countIn(element, name)),
        ),
      );
    },
  );
});
