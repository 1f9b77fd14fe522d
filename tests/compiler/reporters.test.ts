import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Problem } from '#compiler/problem.ts';
import { printAnnotations } from '#compiler/reporters.ts';
import { printJson } from '#compiler/reporters.ts';
import { printProblem } from '#compiler/reporters.ts';

const problem: Problem = {
  rule: 'no-cycle',
  severity: 'error',
  file: 'content/trees/power/a,b:c.mdx',
  position: { line: 7, column: 3 },
  message: 'Unexpected 100 % of `x`, expected less.',
  help: 'Mend it: say less.',
  other: { file: 'content/blocks.yaml', position: { line: 1, column: 2 }, says: 'the first one' },
};
const nowhere: Problem = {
  ...problem,
  severity: 'warning',
  position: 'unavailable',
  other: { ...otherOf(problem), position: 'unavailable' },
};

function otherOf({ other }: Problem): NonNullable<Problem['other']> {
  if (other === undefined) throw new Error('The sample has another place.');
  return other;
}

/**
 * A workflow command read back as the runner does: properties by comma and the first equals sign, then %0D, %0A, %3A and %2C turned
 * back, %25 last (documented workflow command syntax; the escapes from memory of the runner's own code).
 */
function readCommand(line: string): {
  readonly command: string;
  readonly properties: Readonly<Record<string, string>>;
  readonly data: string;
} {
  const found = /^::([a-z]+) ([^\r\n]*?)::([^\r\n]*)$/.exec(line);
  if (found === null) throw new Error(`No workflow command: ${line}`);
  const unescapeData = (text: string): string =>
    text.replaceAll('%0D', '\r').replaceAll('%0A', '\n').replaceAll('%25', '%');
  const [, command = '', properties = '', data = ''] = found;
  return {
    command,
    properties: Object.fromEntries(
      properties.split(',').map((pair): [string, string] => {
        const cut = pair.indexOf('=');
        return [
          pair.slice(0, cut),
          unescapeData(
            pair
              .slice(cut + 1)
              .replaceAll('%3A', ':')
              .replaceAll('%2C', ','),
          ),
        ];
      }),
    ),
    data: unescapeData(data),
  };
}

describe('problems for the terminal', () => {
  it('begin with file, line, column, severity and message, then the way out and the rule', () => {
    expect(printProblem(problem)).toBe(
      'content/trees/power/a,b:c.mdx:7:3 error Unexpected 100 % of `x`, expected less.\n  Mend it: say less. [no-cycle]\n  see content/blocks.yaml:1:2 (the first one)',
    );
    expect(printProblem(nowhere)).toMatch(/^content\/trees\/power\/a,b:c\.mdx warning /);
  });
});

describe('problems as JSON', () => {
  it('carry every part, with null for a place that is not known', () => {
    expect(JSON.parse(printJson([problem, nowhere]))).toEqual({
      errors: 1,
      warnings: 1,
      problems: [
        {
          file: problem.file,
          line: 7,
          column: 3,
          severity: 'error',
          rule: 'no-cycle',
          message: problem.message,
          help: problem.help,
          other: { file: 'content/blocks.yaml', line: 1, column: 2, says: 'the first one' },
        },
        {
          file: problem.file,
          line: null,
          column: null,
          severity: 'warning',
          rule: 'no-cycle',
          message: problem.message,
          help: problem.help,
          other: { file: 'content/blocks.yaml', line: null, column: null, says: 'the first one' },
        },
      ],
    });
    expect(JSON.parse(printJson([]))).toEqual({ errors: 0, warnings: 0, problems: [] });
  });
});

describe('problems as annotations of a pull request', () => {
  it('escape what would end the command or a property', () => {
    expect(printAnnotations([problem])).toBe(
      '::error file=content/trees/power/a%2Cb%3Ac.mdx,line=7,col=3,title=no-cycle::Unexpected 100 %25 of `x`, expected less.%0AMend it: say less.%0Asee content/blocks.yaml:1:2 (the first one)',
    );
    expect(printAnnotations([nowhere])).toMatch(
      /^::warning file=content\/trees\/power\/a%2Cb%3Ac\.mdx,title=no-cycle::/,
    );
    expect(printAnnotations([])).toBe('');
  });

  it('are one line each, and read back as what was said, whatever was said', () => {
    // What is seen is printed as it is; `##[` is parted, which some runners obey.
    const seen = fc.string({ unit: 'grapheme-ascii', minLength: 1 }).filter((text) => !text.includes('##['));
    fc.assert(
      fc.property(seen, seen, (message, file) => {
        const line = printAnnotations([{ ...problem, message, file }]);
        const { command, properties, data } = readCommand(line);

        expect(command).toBe('error');
        expect(properties).toEqual({ file, line: '7', col: '3', title: 'no-cycle' });
        expect(data.startsWith(`${message}\n${problem.help}`)).toBe(true);
      }),
    );
  });
});

describe('what a file holds', () => {
  const sly: Problem = {
    ...problem,
    file: 'content/\u001b[2J.mdx',
    message: 'Unexpected `\u001b]0;x\u0007\r\n::error::y\u009b\u202e\u200b\u2028##[add-mask]z`.',
    help: 'Mend `::stop-commands::x\n::set-output name=a::b',
    other: { ...otherOf(problem), says: 'a\u0000b\u{e0041}' },
  };

  it.each([
    ['terminal', printProblem(sly)],
    ['github', printAnnotations([sly])],
    ['json', printJson([sly])],
  ])('moves no cursor, hides nothing and begins no line of its own on a terminal: %s', (_format, printed) => {
    expect(printed).not.toMatch(/(?!\n)[\p{C}\p{Zl}\p{Zp}\p{Default_Ignorable_Code_Point}]/u);
    expect(printed.split('\n').filter((line) => /^\s*::(?!error file=content)/.test(line))).toEqual([]);
  });

  it('is written out where it is not seen', () => {
    expect(printProblem(sly)).toContain(
      '`<U+001B>]0;x<U+0007><U+000D><U+000A>::error::y<U+009B><U+202E><U+200B><U+2028>## [add',
    );
    expect(JSON.parse(printJson([sly])).problems[0]).toMatchObject({ message: sly.message, help: sly.help });
  });
});
