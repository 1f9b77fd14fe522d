import { mkdirSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { makeContent } from '../compiler/make-content.ts';
import { hostileFiles, spellEverywhere } from './hostile-files.ts';

/** Writes a file from wherever it is evaluated; no import is needed. */
const write = (file: string): string =>
  `globalThis.process.getBuiltinModule('node:fs').writeFileSync(${JSON.stringify(file).replaceAll('"', "'")}, 'ran')`;

/** The address of a module that writes `file` when it runs. */
export const moduleThatWrites = (file: string): string => `data:text/javascript,${write(file)}`;

export function putFile(project: string, file: string, text: string): void {
  const path = join(project, file);
  mkdirSync(dirname(path), { recursive: true });
  writeFileSync(path, text);
}

/**
 * Every hostile file, under a name of its own below `project`/content: spellings of modules, expressions wherever a parser may see one,
 * and what a carriage return smuggles into front matter. Where any of them runs, `marker` is written.
 */
export function plantCode(
  project: string,
  marker: string,
): readonly { readonly name: string; readonly file: string }[] {
  const expressions: readonly (readonly [name: string, words: string])[] = [
    ['an expression', `Read {(${write(marker)}, 'x')} volts.`],
    ['an attribute', `Read.\n\n<Caution use={(${write(marker)}, 'mains')} />`],
    ['a spread', `Read.\n\n<Caution {...(${write(marker)}, {})} />`],
    ['a footnote', `Read.\n\n[^a]: \nexport const x = ${write(marker)}`],
  ];
  return [
    ...spellEverywhere(moduleThatWrites(marker), write(marker)),
    ...expressions.map(([name, words]) => {
      const [first] = makeContent([{ from: 'Read the rail at the farthest chip.', to: words }]).filter(({ file }) =>
        file.endsWith('/sample-tree.mdx'),
      );
      return { name, file: first?.file ?? '', text: first?.text ?? '' };
    }),
    ...hostileFiles
      .filter(({ name }) => name.startsWith('a field behind a carriage return'))
      .map((smuggled) => ({
        ...smuggled,
        text: smuggled.text.replace(/layout: "[^"]*"/, `layout: "${moduleThatWrites(marker)}"`),
      })),
  ].map(({ name, file, text }, index) => {
    const folder = file.split('/').slice(0, -1).join('/');
    const isTable = file.endsWith('.yaml');
    // A table has one name: its hostile lines lie in files that no page is made from, which the check refuses as well.
    const path = `${folder}/${isTable ? 'points-' : 'hostile-'}${index}.${isTable ? 'yaml' : 'mdx'}`;
    putFile(project, path, text);
    return { name, file: path };
  });
}
