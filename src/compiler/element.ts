import type { RootContent, PhrasingContent, Paragraph, List } from 'mdast';
import type { Phrase, Prose, ProseBlock } from '#core/model/prose.ts';
import type { MdxJsxFlowElement, MdxJsxTextElement } from 'mdast-util-mdx-jsx';
import { isSiteAddress } from './parse-mdx.ts';
import type { Position } from './position.ts';
import type { Report } from './problem.ts';
import { tooDeep } from './find-excess.ts';
import { suggestName } from './nearest-name.ts';

/** An element as written: its literal attributes, and its children sorted into elements and prose. */
export interface Element extends Written {
  readonly name: string;
  readonly position: Position;
  readonly attributes: ReadonlyMap<string, WrittenAttribute>;
}

export interface WrittenAttribute {
  readonly value: string;
  readonly position: Position;
}

export interface Written {
  readonly elements: readonly Element[];
  readonly prose: Prose;
  /** Where each paragraph and list item of the prose begins, in the order of `listParagraphs`. */
  readonly paragraphs: readonly Position[];
}

type JsxElement = MdxJsxFlowElement | MdxJsxTextElement;
type Content = RootContent | PhrasingContent;

/**
 * Sorts a body into elements and prose and reports everything that is not data:
 * expressions, imports, raw HTML, unknown elements, links that leave the site or run something. None of that is in the prose.
 * A paragraph that holds only elements gives way to them. What is nested too deep is reported.
 */
export function readBody(children: readonly Content[], known: ReadonlySet<string>, report: Report): Written {
  try {
    return readChildren(children, known, report);
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    report(tooDeep);
    return { elements: [], prose: [], paragraphs: [] };
  }
}

function readChildren(children: readonly Content[], known: ReadonlySet<string>, report: Report): Written {
  const elements: Element[] = [];
  const prose: ProseBlock[] = [];
  const paragraphs: Position[] = [];
  for (const child of liftParagraphs(children)) {
    if (isElement(child)) elements.push(readElement(child, known, report));
    else if (child.type === 'paragraph' || child.type === 'list') prose.push(readBlock(child, paragraphs, report));
    else if (!isComment(child)) reportForeign(child, report);
  }
  return { elements, prose, paragraphs };
}

/** Paragraphs that hold only elements give way to them; bare words in an element written on one line become a paragraph. */
function liftParagraphs(children: readonly Content[]): Content[] {
  const lifted: Content[] = [];
  let words: PhrasingContent[] = [];
  const closeWords = (): void => {
    const [first] = words;
    if (first !== undefined && words.some((word) => !isBlank(word))) {
      lifted.push({
        type: 'paragraph',
        children: words,
        ...(first.position === undefined ? {} : { position: first.position }),
      });
    }
    words = [];
  };
  for (const child of children) {
    if (isWord(child)) {
      words.push(child);
      continue;
    }
    closeWords();
    if (child.type !== 'paragraph') lifted.push(child);
    else if (child.children.every((part) => isElement(part) || isComment(part) || isBlank(part))) {
      lifted.push(...child.children.filter((part) => !isBlank(part)));
    } else lifted.push(child);
  }
  closeWords();
  return lifted;
}

function isWord(node: Content): node is PhrasingContent {
  return ['text', 'emphasis', 'strong', 'inlineCode', 'link', 'break'].includes(node.type);
}

function readElement(node: JsxElement, known: ReadonlySet<string>, report: Report): Element {
  const name = node.name ?? '';
  if (!known.has(name)) {
    report({
      rule: 'unknown-element',
      position: startOf(node),
      message: `Unexpected element \`<${name}>\`, expected one of the elements of a tree.`,
      help: `Use ${[...known].join(', ')}, or plain words.${suggestName(name, known)}`,
    });
  }
  const inside = readChildren(node.children, known, report);
  return { name, position: startOf(node), attributes: readAttributes(node, report), ...inside };
}

function readAttributes(node: JsxElement, report: Report): ReadonlyMap<string, WrittenAttribute> {
  const attributes = new Map<string, WrittenAttribute>();
  for (const attribute of node.attributes) {
    const position = startOf(attribute);
    if (attribute.type !== 'mdxJsxAttribute' || (attribute.value !== null && typeof attribute.value === 'object')) {
      report({
        rule: 'no-code',
        position,
        message: 'Unexpected `{` in an element, expected an attribute in quotes.',
        help: 'Content is data: write name="value".',
      });
    } else if (attribute.value === null || attribute.value === undefined) {
      report({
        rule: 'attribute-value',
        position,
        message: `Unexpected attribute \`${attribute.name}\` without a value, expected ${attribute.name}="…".`,
        help: 'Give it a value in quotes, or remove it.',
      });
    } else if (attributes.has(attribute.name)) {
      report({
        rule: 'attribute-twice',
        position,
        message: `Unexpected second \`${attribute.name}\`, expected each attribute once.`,
        help: 'Remove one of the two.',
      });
    } else {
      attributes.set(attribute.name, { value: attribute.value, position });
    }
  }
  return attributes;
}

/** Adds where each of its paragraphs begins to `paragraphs`. */
function readBlock(block: Paragraph | List, paragraphs: Position[], report: Report): ProseBlock {
  if (block.type === 'paragraph') {
    paragraphs.push(startOf(block));
    return { kind: 'paragraph', parts: readPhrases(block.children, report) };
  }
  const items = block.children.map((item) =>
    item.children.flatMap((part): Prose => {
      if (part.type === 'paragraph' || part.type === 'list') return [readBlock(part, paragraphs, report)];
      reportForeign(part, report);
      return [];
    }),
  );
  return { kind: 'list', start: block.ordered === true ? (block.start ?? 1) : undefined, items };
}

function readPhrases(parts: readonly PhrasingContent[], report: Report): readonly Phrase[] {
  return parts.flatMap((part): readonly Phrase[] => {
    switch (part.type) {
      case 'text':
        return [{ kind: 'text', text: part.value.replace(/[ \t\r\n]+/g, ' ') }];
      case 'inlineCode':
        return [{ kind: 'code', text: part.value }];
      case 'break':
        return [{ kind: 'break' }];
      case 'emphasis':
      case 'strong':
        return [{ kind: part.type, parts: readPhrases(part.children, report) }];
      case 'link': {
        const inside = readPhrases(part.children, report);
        const isOfThisSite = checkAddress(part.url, startOf(part), report);
        return isOfThisSite ? [{ kind: 'link', address: part.url, parts: inside }] : inside;
      }
      default:
        if (!isComment(part)) reportForeign(part, report);
        return [];
    }
  });
}

function checkAddress(url: string, position: Position, report: Report): boolean {
  if (isSiteAddress(url)) return true;
  report({
    rule: 'link-address',
    position,
    message: `Unexpected address \`${url.slice(0, 60)}\`, expected a page of this site.`,
    help: 'Link to pages of this site only, as /targets/slug/. Name other sources in sources.yaml.',
  });
  return false;
}

function reportForeign(node: Content, report: Report): void {
  const position = startOf(node);
  if (/^mdx.*Expression$/.test(node.type) || node.type === 'mdxjsEsm') {
    const found = node.type === 'mdxjsEsm' ? '`import` or `export`' : '`{`';
    report({
      rule: 'no-code',
      position,
      message: `Unexpected ${found}, expected text.`,
      help: 'Content is data: write the value itself. Only comments may stand in braces: {/* like this */}.',
    });
    return;
  }
  if (isElement(node)) {
    report({
      rule: 'element-inside-text',
      position,
      message: `Unexpected \`<${node.name ?? ''}>\` in the middle of a sentence, expected it on lines of its own.`,
      help: 'Put a blank line before and after the element.',
    });
    return;
  }
  report({
    rule: 'prose-only',
    position,
    message: `Unexpected ${node.type}, expected paragraphs, lists, emphasis or links.`,
    help: 'Write it as a plain paragraph or a list.',
  });
}

function isElement(node: Content): node is JsxElement {
  return node.type === 'mdxJsxFlowElement' || node.type === 'mdxJsxTextElement';
}

function isComment(node: Content): boolean {
  if (node.type !== 'mdxFlowExpression' && node.type !== 'mdxTextExpression') return false;
  return /^(?:[ \t\r\n]*\/\*(?:[^*]|\*(?!\/))*\*\/)+[ \t\r\n]*$/.test(node.value);
}

function isBlank(node: Content): boolean {
  return node.type === 'text' && node.value.trim() === '';
}

function startOf(node: { readonly position?: { start: { line: number; column: number } } | undefined }): Position {
  return node.position === undefined
    ? 'unavailable'
    : { line: node.position.start.line, column: node.position.start.column };
}
