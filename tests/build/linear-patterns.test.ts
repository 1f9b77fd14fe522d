import { execFileSync } from 'node:child_process';
import { readdirSync, readFileSync } from 'node:fs';
import { analyse } from 'scslre';
import ts from 'typescript';
import { describe, expect, it } from 'vitest';

/*
 * Every pattern of the program is analysed by scslre, which is not ours: it finds what a text could make take the square of its
 * length or more, by backtracking or by starting again at each letter. It does not look for two alternatives in a repeated
 * group that begin alike, `(?:a|a)*`: those are for whoever writes one to see.
 */

/** Patterns that read nothing but what was measured first: the length that was allowed, and where. */
const bounded: Readonly<Record<string, readonly string[]>> = {
  // `parseReading` refuses what is longer than 40 characters, before and after it is normalised.
  'src/core/quantity/parse-reading.ts': [
    String.raw`/^([+-]?)\s*(\d+[.,]?\d*|[.,]\d+)(?:e([+-]?\d{1,6}))?\s*(\D.*)?$/i`,
    String.raw`/^([+-]?)\s*(\d+)(meg|[pnuμmkgrvaω])(\d+)\s*(\D.*)?$/i`,
    String.raw`/^[+-]?[\d.,\s']*\d[\d.,\s']*[^\d]*$/`,
  ],
  // `escapeYaml` shortens the text first; its callers allow a few hundred characters at most.
  'src/core/post/draft.ts': [String.raw`/(^|[>}])(\P{L}*)([ie])(?=mport\b|xport\b)/gu`],
};

interface Pattern {
  readonly file: string;
  readonly text: string;
}

const files = [
  ...readdirSync('src', { recursive: true, encoding: 'utf8' })
    .filter((file) => /\.(?:ts|mjs|astro)$/u.test(file))
    .map((file) => `src/${file}`),
  'public/gate.js',
];

/** The script of a file: of a page or component that between its lines of dashes, and in its script elements. */
function scriptOf(file: string): string {
  const text = readFileSync(file, 'utf8');
  if (!file.endsWith('.astro')) return text;
  const scripts = [...text.matchAll(/<script>(.*?)<\/script>/gsu)].map(([, script = '']) => script);
  return [text.split('---')[1] ?? '', ...scripts].join('\n');
}

/** Each pattern that stands in a file, and the file once for each pattern that it puts together while it runs. */
function findPatterns(file: string): { readonly literal: readonly Pattern[]; readonly made: readonly string[] } {
  const literal: Pattern[] = [];
  const made: string[] = [];
  const visit = (node: ts.Node): void => {
    if (ts.isRegularExpressionLiteral(node)) literal.push({ file, text: node.text });
    if ((ts.isNewExpression(node) || ts.isCallExpression(node)) && node.expression.getText() === 'RegExp')
      made.push(file);
    ts.forEachChild(node, visit);
  };
  visit(ts.createSourceFile(file, scriptOf(file), ts.ScriptTarget.Latest, true));
  return { literal, made };
}

function isLinear({ text }: Pattern): boolean {
  const cut = text.lastIndexOf('/');
  return analyse({ source: text.slice(1, cut), flags: text.slice(cut + 1) }).reports.length === 0;
}

const found = files.map(findPatterns);
const literal = found.flatMap((one) => one.literal);

/** Patterns put together by our own files while the sample content is compiled: where, and what. */
const makeThem = `
  const made = new Set();
  globalThis.RegExp = new Proxy(RegExp, {
    construct(target, words) {
      const pattern = Reflect.construct(target, words);
      const [, file] = /at [^\\n]*\\/(src\\/[^\\n:]+):\\d+/.exec(new Error().stack.split('\\n').slice(2, 3).join('\\n')) ?? [];
      if (file !== undefined) made.add(file + ' ' + pattern);
      return pattern;
    },
  });
  const { compileContent } = await import('#compiler/compile-content.ts');
  await import('#core/search/read-tokens.ts');
  const { makeContent } = await import(process.cwd() + '/tests/compiler/make-content.ts');
  compileContent(makeContent());
  process.stdout.write(JSON.stringify([...made]));
`;

describe('the patterns of the program', () => {
  it('are found: hundreds of them', () => {
    expect(literal.length).toBeGreaterThan(400);
  });

  it('take time in proportion to the text, or read what was measured first', () => {
    const slow = literal.filter((pattern) => !isLinear(pattern));
    const isBounded = ({ file, text }: Pattern): boolean => bounded[file]?.includes(text) === true;

    expect(slow.filter((pattern) => !isBounded(pattern))).toEqual([]);
    // None is excused that needs no excuse.
    for (const [file, texts] of Object.entries(bounded)) {
      expect(slow.filter((pattern) => pattern.file === file).map(({ text }) => text)).toEqual(texts);
    }
  });

  it('do so too where they are put together while the program runs', () => {
    const made: readonly string[] = JSON.parse(
      execFileSync(process.execPath, ['--input-type=module', '--eval', makeThem], { encoding: 'utf8' }),
    );
    const patterns = made.map((each) => {
      const cut = each.indexOf(' ');
      return { file: each.slice(0, cut), text: each.slice(cut + 1) };
    });

    expect([...new Set(patterns.map(({ file }) => file))].sort()).toEqual(
      [...new Set(found.flatMap((one) => one.made))].sort(),
    );
    expect(patterns.filter((pattern) => !isLinear(pattern))).toEqual([]);
  });

  it.each([
    ['backtracks without end', '/^(?:a+)+$/'],
    ['backtracks with the square', String.raw`/^\d*\d*x$/`],
    ['starts again at each letter', String.raw`/\s+$/`],
  ])('are told where one %s, so that silence says something', (_what, text) => {
    expect(isLinear({ file: '', text })).toBe(false);
  });
});
