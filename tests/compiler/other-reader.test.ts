import { mdxToMdast } from 'satteri';
import { describe, expect, it } from 'vitest';
import { elementNames } from '#compiler/elements.ts';
import { readBody } from '#compiler/element.ts';
import { parseMdx } from '#compiler/parse-mdx.ts';
import { Positions } from '#compiler/position.ts';
import { spellCode } from '../support/hostile-files.ts';
import { createRandom } from '../support/diagnosis/random.ts';

// The other reader is the one written in Rust that Astro's own MDX pages go through: it shares no code with the compiler's.
// Nothing of content/ reaches it any more; should that ever change, what the compiler accepts must be no code there either.

/** What the other reader would run: modules, and braces with anything but comments. Undefined where it cannot read the text. */
function findCode(text: string): readonly string[] | undefined {
  let root: unknown;
  try {
    root = mdxToMdast(text);
  } catch {
    return undefined;
  }
  const found: string[] = [];
  const visit = (node: unknown): void => {
    if (typeof node !== 'object' || node === null) return;
    const type = 'type' in node ? String(node.type) : '';
    const value = 'value' in node && typeof node.value === 'string' ? node.value : '';
    if (type === 'mdxjsEsm') found.push(value);
    if (/Expression/.test(type) && !isComments(value)) found.push(value);
    for (const child of Object.values(node)) if (typeof child === 'object') visit(child);
  };
  visit(root);
  return found;
}

/** Comments and blanks of JavaScript, told by a scan from the left. */
function isComments(code: string): boolean {
  let rest = code.trimStart();
  while (rest.startsWith('/*')) {
    const end = rest.indexOf('*/', 2);
    if (end < 0) return false;
    rest = rest.slice(end + 2).trimStart();
  }
  return rest === '';
}

function accepts(text: string): boolean {
  let isFine = true;
  const report = (): void => {
    isFine = false;
  };
  const parsed = parseMdx(text, { positions: new Positions(), report });
  if (parsed !== undefined && isFine) readBody(parsed.body, elementNames, report);
  return isFine;
}

const code = spellCode('data:text/javascript,0', '0').map(([, line]) => line);
const pieces: readonly string[] = [
  ...code,
  ...[
    'import',
    'export',
    'import ',
    'export ',
    'import\t',
    'export\t',
    'import\u00A0',
    '\nimport ',
    '\nexport ',
    'from',
    'from"x"',
    '"x"',
    "'x'",
    'default ',
    'const x=0',
    'x',
    'as ',
    '*',
    '{}',
  ],
  ...[
    '{',
    '}',
    '{/* a */}',
    '{/*',
    '*/}',
    '{/* } */}',
    '{ /* a */ }',
    '{`',
    '`}',
    '{"',
    '{//',
    '{...x}',
    '\\{',
    '&#123;',
    '&lbrace;',
    '{\n',
  ],
  ...[
    '<Caution use="mains" />',
    '<Caution',
    ' use="mains"',
    ' use={x}',
    ' {...x}',
    ' title="{x}"',
    " title='>{x}'",
    '/>',
    '>',
    '<',
    '</Caution>',
  ],
  ...[
    '<Confirm>',
    '</Confirm>',
    '<Confirm>\n',
    '\n</Confirm>',
    '<>',
    '</>',
    '<a.b />',
    '<!--',
    '-->',
    '<?x',
    '\\<',
    '&lt;',
    '<Record>a</Record>',
  ],
  ...['\n', '\n\n', '\n\n', '\n', '\r\n', '\r\n\r\n', '  ', '    ', '\t', ' \n', '  \n', '\\\n', '\u00A0'],
  ...[
    '- ',
    '* ',
    '+ ',
    '1. ',
    '1) ',
    '> ',
    '>',
    '- > ',
    '# ',
    '---\n',
    '***\n',
    '===\n',
    '```\n',
    '~~~\n',
    '`',
    '``',
    ': ',
    '| a |\n| - |\n',
    '[^a]: ',
  ],
  ...[
    '[a](/log/)',
    '[a]',
    '[a]: /log/\n',
    '[a](',
    ')',
    '![a](',
    '<https://a.invalid>',
    'www.a.invalid',
    '~~',
    '*a*',
    '**',
    '_',
    '$',
    '$$\n',
    ':::\n',
    '+++\n',
  ],
  ...[
    'Read the rail.',
    'Import tax',
    'exports',
    'a',
    'Word',
    '0',
    ';',
    ',',
    '(',
    '/* c */',
    '//',
    '=',
    '\\',
    '&amp;',
    '"',
    "'",
  ],
];

/** Bodies of up to twelve pieces, the same in every run; every second one is a sound one with a piece or two put in. */
function* generateBodies(count: number): Iterable<string> {
  const random = createRandom(20_261_128);
  const pick = (): string => pieces[Math.floor(random() * pieces.length)] ?? '';
  const sound = ['Read the rail.\n\n', '- Read it.\n- Write it.\n\n', '<Record>\n\nRead.\n\n', '{/* a */}\n\n', '> '];
  for (let index = 0; index < count; index += 1) {
    const length = 1 + Math.floor(random() * (index % 2 === 0 ? 12 : 3));
    const body = Array.from({ length }, pick).join('');
    const before = index % 2 === 0 ? '' : (sound[index % sound.length] ?? '');
    yield `${before}${body}${before.startsWith('<Record>') ? '\n\n</Record>\n' : '\n'}`;
  }
}

describe('what the compiler accepts', () => {
  it('is no code to another reader of MDX, in 50,000 bodies made of nasty pieces', () => {
    const counts = { accepted: 0, refused: 0, code: 0 };
    const taken: string[] = [];
    for (const body of generateBodies(50_000)) {
      const isAccepted = accepts(body);
      counts[isAccepted ? 'accepted' : 'refused'] += 1;
      // Of what is refused, every tenth shows that the other reader does find code in such bodies.
      if (!isAccepted && counts.refused % 10 > 0) continue;
      const isCode = (findCode(body) ?? []).length > 0;
      if (isCode) counts.code += 1;
      if (isAccepted && isCode) taken.push(body);
    }

    expect(taken).toEqual([]);
    expect(counts.accepted).toBeGreaterThan(5_000);
    expect(counts.code).toBeGreaterThan(500);
  }, 180_000);

  it.each(code)('does not hold %j', (line) => {
    expect(accepts(`Read.\n\n${line}\n`)).toBe(false);
  });
});
