import type * as v from 'valibot';
import type { Prose } from '#core/model/prose.ts';
import { readBody } from './element.ts';
import { readProse } from './elements/context.ts';
import { parseMdx } from './parse-mdx.ts';
import type { Positions } from './position.ts';
import type { Report } from './problem.ts';
import { readYaml } from './read-yaml.ts';

const noElements: ReadonlySet<string> = new Set();

/** Front matter and prose of a target, caution or unit file, which hold no elements. */
export function compileReference<Schema extends v.GenericSchema>(
  text: string,
  schema: Schema,
  positions: Positions,
  report: Report,
): { readonly front: v.InferOutput<Schema>; readonly prose: Prose } | undefined {
  const parsed = parseMdx(text, positions, report);
  if (parsed === undefined) return undefined;
  const body = readBody(parsed.body, noElements, report);
  if (parsed.frontMatter === undefined) {
    report({
      rule: 'front-matter',
      position: { line: 1, column: 1 },
      message: 'Unexpected start of the file, expected front matter between two lines of `---`.',
      help: 'Begin with ---, the fields, then ---.',
    });
    return undefined;
  }
  const place = { firstLine: parsed.frontMatter.firstLine, key: 'front' };
  const front = readYaml(parsed.frontMatter.text, place, schema, positions, report);
  return front === undefined ? undefined : { front, prose: readProse(body, 'body', { positions, report }) };
}
