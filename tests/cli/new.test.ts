import { cpSync, existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { keepOnDisk } from '#build/keep.ts';
import { readContent } from '#build/library.ts';
import { compileContent } from '#compiler/compile-content.ts';
import { runCheck } from '../../src/cli/check.ts';
import { readNewCall, run } from '../../src/cli/new.ts';
import { makeTreeTemplate } from '../../src/compiler/tree-template.ts';
import { runHere } from '../support/run-here.ts';

const { library, files } = readContent();
const names = files.map(({ file }) => file);
const root = mkdtempSync(join(tmpdir(), 'halfsplit-new-'));
afterAll(() => rmSync(root, { recursive: true, force: true }));

const since = '2026-11-30';

function read(...words: readonly string[]) {
  return readNewCall(words, library, names, since);
}

describe('the template of a tree', () => {
  it('has nothing wrong in any block but the words that are to be replaced', () => {
    const begun = [...library.blocks.keys()].map((block) => {
      const slug = `begun-in-${block}`.slice(0, 24);
      const text = makeTreeTemplate({ block, slug, title: 'A "quoted": title & more \\ #1', since });
      return { slug, file: `content/trees/${block}/${slug}.mdx`, text };
    });
    const { problems, library: compiled } = compileContent([...files, ...begun], keepOnDisk(process.cwd()));

    expect(begun.length).toBeGreaterThan(8);
    for (const { slug, file, text } of begun) {
      const own = problems.filter((problem) => problem.file === file);
      expect(own.filter(({ rule }) => rule !== 'template-words')).toEqual([]);
      expect(own.every(({ severity }) => severity === 'warning')).toBe(true);
      // Every mark in the file is told of, once.
      expect(own).toHaveLength(text.split('Replace this: ').length - 1);
      expect(compiled.trees.get(slug)?.title).toBe('A "quoted": title & more \\ #1');
    }
  });

  it('holds the elements that every author needs, each with a comment before it', () => {
    const text = makeTreeTemplate({ block: 'power', slug: 'begun', title: 'Begun', since });

    for (const name of 'Check Caution Target Outcome Cause Confirm Repair Record Substitute Prove HandOver'.split(
      ' ',
    )) {
      expect(text).toContain(`<${name}`);
    }
    expect(text.match(/\{\/\*[^*]+\*\/\}/g)?.length).toBeGreaterThan(10);
  });
});

describe('the words after npm run new', () => {
  it('make a tree', () => {
    expect(read('power/fan-stopped', '--title', ' Fan does not turn ')).toEqual({
      kind: 'write',
      tree: { block: 'power', slug: 'fan-stopped', title: 'Fan does not turn', since },
    });
  });

  it.each([
    [[], 'Unexpected end, expected <block>/<slug>.'],
    [['fan-stopped', '--title', 'x'], 'Unexpected `fan-stopped`, expected <block>/<slug>.'],
    [['power/a/b', '--title', 'x'], 'Unexpected `power/a/b`'],
    [['powr/fan', '--title', 'x'], 'Did you mean `power`?'],
    [['__proto__/fan', '--title', 'x'], 'Unexpected block `__proto__`'],
    [['../fan', '--title', 'x'], 'Unexpected block `..`'],
    [['power/..', '--title', 'x'], 'Unexpected slug `..`'],
    [['power/Fan_Stopped', '--title', 'x'], 'Unexpected slug `Fan_Stopped`'],
    [[`power/${'a'.repeat(41)}`, '--title', 'x'], 'at most 40 characters'],
    [['power/fan'], 'expected --title'],
    [['power/fan', '--title', ' '], 'expected --title'],
    [['power/fan', '--title', 'x'.repeat(61)], 'Unexpected title of 61 characters, expected at most 60.'],
    [['power/fan', '--titel', 'x'], 'Unexpected option `--titel`, expected --title.'],
    [['power/fan', 'fan', 'dead'], 'Unexpected `fan`, expected one tree; put a title of several words in quotes.'],
    [['power/psu-5v-low', '--title', 'x'], 'content/trees/power/psu-5v-low.mdx is there. Nothing was written.'],
    [['audio/psu-5v-low', '--title', 'x'], 'content/trees/power/psu-5v-low.mdx is there. Nothing was written.'],
  ])('are refused with a message: %j', (words, message) => {
    expect(read(...words)).toMatchObject({ kind: 'refused', message: expect.stringContaining(message) });
  });

  it('list the blocks where none fits', () => {
    const call = read('gearbox/fan', '--title', 'x');

    for (const block of library.blocks.values()) {
      expect(call).toMatchObject({ message: expect.stringContaining(`  ${block.slug}`) });
    }
  });

  it('do not take an address that a tree had before', () => {
    const [tree] = library.trees.values();
    if (tree === undefined) throw new Error('No tree is shipped.');
    const trees = new Map([[tree.slug, { ...tree, was: ['older'] }]]);

    expect(readNewCall(['power/older', '--title', 'x'], { ...library, trees }, names, since)).toMatchObject({
      kind: 'refused',
      message: expect.stringContaining(`its address belongs to \`${tree.slug}\``),
    });
  });
});

describe('npm run new', () => {
  it('writes a tree that the check lets pass, and never writes over one', () => {
    // No other tree has a say in one that leads to none.
    cpSync('content', join(root, 'content'), { recursive: true, filter: (from) => from !== join('content', 'trees') });
    const file = 'content/trees/power/fan-stopped.mdx';
    const begin = (...words: readonly string[]) => runHere((given) => run(given, root), words);

    const first = begin('power/fan-stopped', '--title', 'Fan does not turn');
    expect(first.status, first.stderr).toBe(0);
    expect(first.stdout).toContain(`Written: ${file}`);
    expect(runCheck([file], root).status).toBe(0);
    const text = readFileSync(join(root, file), 'utf8');

    const second = begin('power/fan-stopped', '--title', 'Another');
    expect(second).toMatchObject({ status: 2, stderr: expect.stringContaining('Nothing was written.') });
    expect(readFileSync(join(root, file), 'utf8')).toBe(text);
    expect(begin('gearbox/x', '--title', 'x').status).toBe(2);
    expect(existsSync(join(root, 'content/trees/gearbox'))).toBe(false);
  });
});
