import { describe, expect, it } from 'vitest';
import { openDraftCompiler } from '#compiler/compile-draft.ts';
import { compileContent } from '#compiler/compile-content.ts';
import { makeDraftLibrary } from '#compiler/compile-draft.ts';
import { hostileFiles } from '../support/hostile-files.ts';
import { makeContent } from './make-content.ts';

const sample = makeContent();
const draft = openDraftCompiler(makeDraftLibrary(sample));

describe('hostile files of every kind', () => {
  it('are at least two hundred, each of another name, in content of which nothing else is to be said', () => {
    expect(hostileFiles.length).toBeGreaterThanOrEqual(200);
    expect(new Set(hostileFiles.map(({ name }) => name)).size).toBe(hostileFiles.length);
    expect(compileContent(sample).problems).toEqual([]);
  });

  it.each(hostileFiles)('$name: answered by the rule $rule as an error with its place', ({ file, text, rule }) => {
    const { problems } = compileContent(sample.map((known) => (known.file === file ? { file, text } : known)));

    const answers = problems.filter((problem) => problem.file === file && problem.rule === rule);
    expect(answers[0], JSON.stringify(problems.slice(0, 3))).toMatchObject({
      severity: 'error',
      position: { line: expect.any(Number), column: expect.any(Number) },
    });
    expect(Reflect.get(globalThis, 'hostileRan')).toBeUndefined();
    expect(Reflect.get({}, 'polluted')).toBeUndefined();
    if (file.startsWith('content/trees/')) {
      expect(draft.compile(text, file).problems).toEqual(problems.filter((problem) => problem.file === file));
    }
  });
});
