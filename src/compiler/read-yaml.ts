import * as v from 'valibot';
import { isMap, isScalar, LineCounter, type Document, parseDocument, type Pair } from 'yaml';
import { limits, tooDeep, tooMuch } from './find-excess.ts';
import { inspectDecoded } from './inspect-text.ts';
import { suggestName } from './nearest-name.ts';
import type { ParsedMdx } from './parse-mdx.ts';
import type { NameKind, Position } from './position.ts';
import type { ReadContext } from './problem.ts';
import type { Finding } from './problem.ts';
import { splitWords } from './read-attributes.ts';

/** Where YAML text stands in its file, and under which key its parts are filed. */
export interface YamlPlace {
  readonly firstLine: number;
  readonly key: string;
}

/**
 * Reads YAML against a schema. Every syntax error and every mismatch is reported with its line and column;
 * the position of each value is filed under `key/path/to/value`. Undefined where anything was wrong.
 */
export function readYaml<Schema extends v.GenericSchema>(
  text: string,
  place: YamlPlace,
  schema: Schema,
  { positions, report }: ReadContext,
): v.InferOutput<Schema> | undefined {
  const lines = new LineCounter();
  const document = parseYaml(text, lines);
  if (document === undefined) {
    report({ ...tooDeep, position: { line: place.firstLine, column: 1 } });
    return undefined;
  }
  const positionAt = (offset: number | undefined): Position => {
    if (offset === undefined) return 'unavailable';
    const { line, col } = lines.linePos(offset);
    return { line: line + place.firstLine - 1, column: col };
  };
  for (const error of document.errors) {
    report({
      rule: 'yaml-syntax',
      position: positionAt(error.pos[0]),
      message: explainYaml(error.message),
      help: 'Indent with two spaces; put text with a colon or a # in quotes.',
    });
  }
  if (document.errors.length > 0) return undefined;
  positions.set(place.key, { line: place.firstLine, column: 1 });
  const mostEntries = place.firstLine > 1 ? limits.listEntries : limits.tableEntries;
  const isSound = inspectYaml(document.contents, mostEntries, (finding, offset) =>
    report({ ...finding, position: positionAt(offset) }),
  );
  if (!isSound) return undefined;
  fileOffsets(document, (path, offset) => positions.set([place.key, ...path].join('/'), positionAt(offset)));
  let value: unknown;
  try {
    value = document.toJS({ maxAliasCount: 50 });
  } catch {
    report({
      rule: 'yaml-syntax',
      position: positions.find(place.key),
      message: 'Unexpected aliases that unfold into too much, expected at most 50.',
      help: 'Write the values out where they belong.',
    });
    return undefined;
  }
  const result = v.safeParse(schema, value);
  if (result.success) {
    for (const { name, kind, path } of findNames(schema, value)) {
      positions.addName({ kind, name, key: [place.key, ...path].join('/') });
    }
    return result.output;
  }
  for (const issue of result.issues)
    report({ ...explainIssue(issue), position: positions.find(pathOf(issue, place.key)) });
  return undefined;
}

/** Reads the front matter of a file; that there is none is reported. */
export function readFrontMatter<Schema extends v.GenericSchema>(
  frontMatter: ParsedMdx['frontMatter'],
  schema: Schema,
  context: ReadContext,
): v.InferOutput<Schema> | undefined {
  if (frontMatter !== undefined) {
    return readYaml(frontMatter.text, { firstLine: frontMatter.firstLine, key: 'front' }, schema, context);
  }
  context.report({
    rule: 'front-matter',
    position: { line: 1, column: 1 },
    message: 'Unexpected start of the file, expected front matter between two lines of `---`.',
    help: 'Begin with ---, the fields, then ---.',
  });
  return undefined;
}

interface FoundName {
  readonly kind: NameKind;
  readonly name: string;
  readonly path: readonly string[];
}

const kindOfNames = new WeakMap<object, NameKind>();

/** A schema for a slug, or several with blanks between, that names something: what it names is filed with its place. */
export function naming(kind: NameKind, schema: v.GenericSchema<string, string>): v.GenericSchema<string, string> {
  const own = { ...schema };
  kindOfNames.set(own, kind);
  return own;
}

/** Everything in a value that its schema says is a name; keys of records too. */
function* findNames(schema: v.GenericSchema, value: unknown, path: readonly string[] = []): Iterable<FoundName> {
  const kind = kindOfNames.get(schema);
  if (kind !== undefined && typeof value === 'string') {
    for (const name of splitWords(value)) yield { kind, name, path };
  }
  const parts: SchemaParts = schema;
  if (parts.wrapped !== undefined) yield* findNames(parts.wrapped, value, path);
  if (typeof value !== 'object' || value === null) return;
  for (const [name, inner] of Object.entries(value)) {
    if (parts.key !== undefined) yield* findNames(parts.key, name, [...path, name]);
    const part = parts.value ?? parts.item ?? parts.entries?.[name];
    if (part !== undefined) yield* findNames(part, inner, [...path, name]);
  }
}

/** Where schemas of valibot keep those of their parts. */
type SchemaParts = v.GenericSchema & {
  readonly wrapped?: v.GenericSchema;
  readonly key?: v.GenericSchema;
  readonly value?: v.GenericSchema;
  readonly item?: v.GenericSchema;
  readonly entries?: Readonly<Record<string, v.GenericSchema>>;
};

/** Undefined where the text is nested too deep to be read. */
function parseYaml(text: string, lines: LineCounter): Document | undefined {
  try {
    return parseDocument(text, { lineCounter: lines, uniqueKeys: true });
  } catch (error) {
    if (error instanceof RangeError) return undefined;
    throw error;
  }
}

/** The first line of the parser's message, without the place it names: that is the place in the YAML alone, not in the file. */
function explainYaml(message: string): string {
  const first = (message.split('\n')[0] ?? '').replace(/ at line \d+, column \d+:?$/, '');
  const words = /^Nested mappings/.test(first) ? 'a second colon in one line' : `YAML: ${first}`;
  return `Unexpected ${words}, expected one \`field: value\` a line.`;
}

function pathOf(issue: v.BaseIssue<unknown>, key: string): string {
  return [key, ...(issue.path ?? []).map((item) => String(item.key))].join('/');
}

function fileOffsets(document: Document, file: (path: readonly string[], offset: number | undefined) => void): void {
  const walk = (node: unknown, path: readonly string[]): void => {
    if (isMap(node)) for (const pair of node.items) walkPair(pair, path);
    else if (typeof node === 'object' && node !== null && 'items' in node && Array.isArray(node.items)) {
      node.items.forEach((item: unknown, index: number) => {
        file([...path, String(index)], offsetOf(item));
        walk(item, [...path, String(index)]);
      });
    }
  };
  const walkPair = (pair: Pair, path: readonly string[]): void => {
    const name = isScalar(pair.key) ? String(pair.key.value) : String(pair.key);
    file([...path, name], offsetOf(pair.key));
    walk(pair.value, [...path, name]);
  };
  walk(document.contents, []);
}

/** Fields that every object of JavaScript has: a reader that looks one up by name would find what no author wrote. */
const ownFields: ReadonlySet<string> = new Set(['constructor', 'prototype', '__proto__']);

/** Looks at every key and value as it decodes, and at the length of every list. False where something was reported. */
function inspectYaml(
  contents: unknown,
  mostEntries: number,
  report: (finding: Omit<Finding, 'position'>, offset: number | undefined) => void,
): boolean {
  let isSound = true;
  const say = (finding: Omit<Finding, 'position'>, node: unknown): void => {
    isSound = false;
    report(finding, offsetOf(node));
  };
  const open: unknown[] = [contents];
  while (open.length > 0) {
    const node = open.pop();
    if (isScalar(node) && typeof node.value === 'string') {
      for (const finding of inspectDecoded(node.value)) say(finding, node);
    } else if (isMap(node)) {
      for (const { key, value } of node.items) {
        const name = isScalar(key) ? String(key.value) : '';
        if (ownFields.has(name)) {
          const message = `Unexpected field \`${name}\`, expected one of the known fields.`;
          say({ rule: 'unknown-field', message, help: 'Remove or rename it.' }, key);
        }
        open.push(key, value);
      }
    } else if (typeof node === 'object' && node !== null && 'items' in node && Array.isArray(node.items)) {
      const { length } = node.items;
      if (length > mostEntries) say(tooMuch('entries in a list', length, mostEntries, 1), node);
      else open.push(...node.items);
    }
  }
  return isSound;
}

function offsetOf(node: unknown): number | undefined {
  if (typeof node !== 'object' || node === null || !('range' in node) || !Array.isArray(node.range)) return undefined;
  return typeof node.range[0] === 'number' ? node.range[0] : undefined;
}

function explainIssue(issue: v.BaseIssue<unknown>): Pick<Finding, 'rule' | 'message' | 'help'> {
  const field = (issue.path ?? []).map((item) => String(item.key)).join('.') || 'front matter';
  if (issue.type === 'strict_object' && issue.expected === 'never') {
    const name = String(issue.path?.at(-1)?.key ?? '');
    const input = issue.path?.at(-1);
    const known = knownEntries(issue);
    return {
      rule: 'unknown-field',
      message: `Unexpected field \`${name}\`, expected ${known.length > 0 ? known.join(', ') : 'one of the known fields'}.`,
      help: `Remove or rename it.${input === undefined ? '' : suggestName(name, known)}`,
    };
  }
  if (issue.received === 'undefined') {
    return {
      rule: 'missing-field',
      message: `Unexpected absence of \`${field}\`, expected a value for it.`,
      help: `Add \`${field}:\`.`,
    };
  }
  return {
    rule: 'field-value',
    message: `Unexpected ${issue.received} in \`${field}\`, expected ${expectation(issue)}.`,
    help: issue.type === 'strict_object' ? 'Compare with a file that exists.' : `Correct \`${field}\`.`,
  };
}

function expectation(issue: v.BaseIssue<unknown>): string {
  return issue.message.startsWith('Invalid') ? (issue.expected ?? 'another value') : issue.message;
}

function knownEntries(issue: v.BaseIssue<unknown>): readonly string[] {
  const requirement: unknown = 'requirement' in issue ? issue.requirement : undefined;
  return Array.isArray(requirement) ? requirement.map(String) : [];
}
