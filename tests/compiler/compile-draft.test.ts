import { describe, expect, it } from 'vitest';
import { keepOnDisk } from '#build/keep.ts';
import { readContent } from '#build/library.ts';
import { openDraftCompiler } from '#compiler/compile-draft.ts';
import { compileContent } from '#compiler/compile-content.ts';
import type { DraftLibrary } from '#compiler/draft-library.ts';
import { makeDraftLibrary } from '#compiler/compile-draft.ts';

const content = readContent();
const { files } = content;
const keep = keepOnDisk(process.cwd());
/** So many trees get a fault. */
const spoilt = 30;
const trees = files.filter(({ file }) => file.startsWith('content/trees/'));
// As the page gets it: through JSON.
const library: DraftLibrary = JSON.parse(JSON.stringify(makeDraftLibrary(files, content)));
const draft = openDraftCompiler(library);

describe('a draft is told what `npm run check` says', () => {
  it('of shipped trees as they are', () => {
    const { problems } = content;

    expect(trees.length).toBeGreaterThan(10);
    // Those before get a fault below.
    for (const { file, text } of trees.slice(spoilt)) {
      expect(draft.compile(text, file).problems, file).toEqual(problems.filter((problem) => problem.file === file));
    }
  });

  it('of shipped trees with a fault of each kind in them', () => {
    // One fault a tree, so that one check of all content tells all of them.
    const faults: readonly ((text: string) => string)[] = [
      (text) => text.replace(/ to="[a-z-]+"/u, ' to="nowhere-at-all"'),
      (text) => text.replace(/use="([a-z0-9-]+)"/u, 'use="$1x"'),
      (text) => text.replace(/^block: .*$/mu, 'block: video'),
      (text) => text.replace(/title="[^"]*"/u, `title="${'long '.repeat(20)}"`),
      (text) => text.replace(/<Outcome /u, '<Outcmoe '),
      (text) => text.replace(/<\/Check>/u, ''),
      (text) => text.replace(/^title: .*$/mu, ''),
      (text) => text.replace(/<Prove[\s\S]*?<\/Prove>/u, ''),
      (text) => text.replace(/id="([a-z0-9-]+)"/gu, 'id="same"'),
      (text) => text.replace(/tree="[a-z0-9-]+"/u, 'tree="no-such-tree"'),
    ];
    const broken = files.map((entry) => {
      const { file, text } = entry;
      const index = trees.findIndex((tree) => tree.file === file);
      if (index < 0 || index >= spoilt) return entry;
      // Where a tree has nothing that this fault could spoil, the next.
      const at = index % faults.length;
      const fault = [...faults.slice(at), ...faults].find((spoil) => spoil(text) !== text);
      return fault === undefined ? entry : { file, text: fault(text) };
    });
    const compiled = compileContent(broken, keep);
    const { problems } = compiled;
    const against = openDraftCompiler(makeDraftLibrary(broken, compiled));

    for (const { file, text } of broken.filter((entry) =>
      trees.slice(0, spoilt).some((tree) => tree.file === entry.file),
    )) {
      const expected = problems.filter((problem) => problem.file === file);
      expect(expected.length, file).toBeGreaterThan(0);
      expect(against.compile(text, file).problems, file).toEqual(expected);
    }
  });

  it('of a new tree that takes the phrases of another, with the place of the first', () => {
    const file = 'content/trees/video/zz-new-tree.mdx';
    const text = (trees[0]?.text ?? '').replace(/^block: .*$/mu, 'block: video');
    const more = [...files, { file, text }].toSorted((a, b) => (a.file < b.file ? -1 : 1));
    const { problems } = compileContent(more, keep);
    const expected = problems.filter((problem) => problem.file === file);

    expect(expected.filter(({ rule }) => rule === 'symptoms-owned').length).toBeGreaterThanOrEqual(3);
    expect(draft.compile(text, file).problems).toEqual(expected);
  });

  it('of a tree that moved to another block: it does not quarrel with the place that it left', () => {
    const [tree] = trees;
    const text = (tree?.text ?? '').replace(/^block: .*$/mu, 'block: video');
    const file = `content/trees/video/${(tree?.file ?? '').split('/').at(-1) ?? ''}`;
    const moved = files
      .map((known) => (known.file === tree?.file ? { file, text } : known))
      .toSorted((a, b) => (a.file < b.file ? -1 : 1));
    const expected = compileContent(moved, keep).problems.filter((problem) => problem.file === file);

    expect(draft.compile(text, file).problems).toEqual(expected);
    expect(expected.map(({ rule }) => rule)).not.toContain('symptoms-owned');
  });

  it('and knows the line of each node', () => {
    const [tree] = trees;
    const { lineOfNode, tree: compiled } = draft.compile(tree?.text ?? '', tree?.file ?? '');

    expect(compiled?.nodes.length).toBeGreaterThan(20);
    for (const { id } of compiled?.nodes ?? []) {
      expect((tree?.text ?? '').split('\n')[(lineOfNode.get(id) ?? 0) - 1]).toContain(`id="${id}"`);
    }
  });
});
