import { globSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { keepOnDisk } from '#build/keep.ts';
import { readContent } from '#build/library.ts';
import { type ContentFile, compileContent } from '#compiler/compile-content.ts';
import { printProblem } from '#compiler/reporters.ts';

const guides = globSync('src/pages/guide/**/*.mdx')
  .map((file) => readFileSync(file, 'utf8'))
  .join('\n');
/** The files that the guides write out: a line with nothing but the path, then the text in a fence. */
const written: readonly ContentFile[] = [
  ...guides.matchAll(/^`(content\/[^`\n]+\.mdx)`\n\n```(?:text|mdx)\n(.*?)\n```$/gms),
].map(([, file = '', text = '']) => ({ file, text: `${text}\n` }));
const treeFile = 'content/trees/keyboard/footswitch-dead.mdx';

function check(files: readonly ContentFile[]): readonly string[] {
  const own = files.map(({ file }) => file);
  return compileContent([...readContent().files, ...files], keepOnDisk(process.cwd()))
    .problems.filter(({ file }) => own.includes(file))
    .map(printProblem);
}

describe('the worked example of the guides', () => {
  it('is a target and a tree that no rule objects to', () => {
    expect(written.map(({ file }) => file)).toEqual(['content/targets/footswitch-contact.mdx', treeFile]);
    expect(check(written)).toEqual([]);
  });

  it('gets the message that the guide shows, where the outcome is left out', () => {
    const line = '  <Outcome when="high" to="lead-ohms" />\n';
    const broken = written.map(({ file, text }) => ({ file, text: file === treeFile ? text.replace(line, '') : text }));
    const [message = ''] = check(broken).filter((text) => text.endsWith('[outcomes-complete]'));

    expect(broken).not.toEqual(written);
    expect(message).not.toBe('');
    expect(guides).toContain(message);
  });
});

describe('the commands that the README shows', () => {
  const readme = readFileSync('README.md', 'utf8');
  const { scripts }: { readonly scripts: Readonly<Record<string, string>> } = JSON.parse(
    readFileSync('package.json', 'utf8'),
  );
  const shown = [...readme.matchAll(/^npm (?:run )?([a-z]+)/gm)].map(([, name = '']) => name);

  it('exist, and install first what is missing after a clone', () => {
    expect(shown).toEqual(expect.arrayContaining(['start', 'test', 'find', 'new', 'dev', 'check']));
    for (const name of shown) {
      expect(scripts).toHaveProperty(name);
      expect(scripts[`pre${name}`]).toMatch(/^node src\/cli\/install\.mjs(?: site)?$/u);
    }
  });
});
