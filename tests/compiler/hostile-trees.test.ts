import { runInThisContext } from 'node:vm';
import { describe, expect, it } from 'vitest';
import { keepOnDisk } from '#build/keep.ts';
import { readContent } from '#build/library.ts';
import { openDraftCompiler } from '#compiler/compile-draft.ts';
import { compileContent } from '#compiler/compile-content.ts';
import { makeDraftLibrary } from '#compiler/compile-draft.ts';
import { loadContent } from '#compiler/load.ts';
import type { Problem } from '#compiler/problem.ts';
import { hostFile, hostText, hostileTrees } from '../support/hostile-trees.ts';

// Other trees, units, parts, pictures, circuits and the thesaurus say nothing about code in this file: without them a check takes a moment.
const files = loadContent(process.cwd())
  .filter(({ file }) => !/^content\/(?:trees|units|parts|figures|circuits)\//.test(file) || file === hostFile)
  .map(({ file, text }) =>
    file === 'content/thesaurus.yaml'
      ? { file, text: 'concepts: {}\nabsence: {}\namounts: []\nsigns: {}\n' }
      : { file, text },
  );
const keep = keepOnDisk(process.cwd());
const checked = new Map<string, readonly Problem[]>();
function check(text: string): readonly Problem[] {
  const before = checked.get(text);
  if (before !== undefined) return before;
  const { problems } = compileContent(
    files.map((known) => (known.file === hostFile ? { file: hostFile, text } : known)),
    keep,
  );
  const found = problems.filter(({ file }) => file === hostFile);
  checked.set(text, found);
  return found;
}
const draft = openDraftCompiler(makeDraftLibrary(files));
// Without the other trees its ways into them lead nowhere: that is no answer to anything hostile.
const standing = new Set(check(hostText).map(({ message }) => message));

describe('hostile trees', () => {
  it('are at least fifty, each of another name, in a tree of which nothing else is to be said', () => {
    expect(hostileTrees.length).toBeGreaterThanOrEqual(50);
    expect(new Set(hostileTrees.map(({ name }) => name)).size).toBe(hostileTrees.length);
    const content = readContent();
    expect(openDraftCompiler(makeDraftLibrary(content.files, content)).compile(hostText, hostFile).problems).toEqual(
      [],
    );
  });

  it.each(hostileTrees)('$name: answered by the rule $rule, nothing runs', ({ text, rule }) => {
    const problems = check(text);

    const answers = problems.filter(({ message }) => !standing.has(message));
    expect(answers.map((problem) => problem.rule)).toContain(rule);
    for (const { message, help } of problems) {
      expect(message).toMatch(/^\S/u);
      expect(help).toMatch(/^\S/u);
    }
    expect(Reflect.get(globalThis, 'hostileRan')).toBeUndefined();
    expect(Object.getOwnPropertyNames(Object.prototype)).not.toContain('polluted');
    expect(draft.compile(text, hostFile).problems).toEqual(problems);
  });

  it('the trace is left where such an expression does run, so its absence says something', () => {
    const expression = /Read \{(.*)\} volts/u.exec(hostileTrees[0]?.text ?? '')?.[1] ?? '';
    expect(runInThisContext(expression)).toBe(1);
    Reflect.deleteProperty(globalThis, 'hostileRan');
  });
});

describe('a build', () => {
  it('refuses every hostile tree that could mean something to a reader of MDX', () => {
    const onlyWarned = hostileTrees.filter(({ text }) =>
      check(text).every(({ severity, message }) => severity !== 'error' || standing.has(message)),
    );

    expect(onlyWarned.map(({ name }) => name)).toEqual([]);
  });
});
