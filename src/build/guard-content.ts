import { isAbsolute, relative, sep } from 'node:path';
import { contentFolder } from '#compiler/load.ts';
import type { Plugin } from 'vite';
import type { Problem } from '#compiler/problem.ts';
import { printProblems } from '#compiler/reporters.ts';
import { layOut } from './layouts.ts';
import { forgetContent, readContent } from './library.ts';

/**
 * A build stops where content/ has an error; in `dev` the problems are printed and every change is read again. Pages render
 * what the compiler read: no file of content/ is ever a module, and one that becomes a module stops the build as well. In `dev` none
 * is served either: a drawing opened by its own address would run its scripts.
 */
export function guardContent(root: string = process.cwd()): Plugin {
  const folder = contentFolder(root);
  /** As the compiler calls it, where it is a file of content. */
  const nameOf = (path: string): string | undefined => {
    const name = relative(folder, path.split('?')[0] ?? path);
    return name === '' || name.startsWith('..') || isAbsolute(name)
      ? undefined
      : `content/${name.split(sep).join('/')}`;
  };
  let command: string | undefined;
  return {
    name: 'halfsplit-guard-content',
    enforce: 'pre',
    // All but the last are Vite's own, which a list of ours takes the place of.
    config: () => ({
      server: {
        fs: {
          deny: [
            ...['.env', '.env.*', '*.{crt,pem,key,p12,pfx,cer,der}', '.npmrc', '.yarnrc.yml', '**/.git/**'],
            everyFileOf(folder),
          ],
        },
      },
    }),
    configureServer: ({ watcher }) => void watcher.add(folder),
    configResolved(resolved) {
      command = resolved.command;
    },
    buildStart() {
      const { problems, library } = readContent(root);
      const errors = problems.filter(isError);
      if (command === 'serve' && problems.length > 0) console.warn(`\n${printProblems(problems)}`);
      else if (errors.length > 0) this.error(`content/ has errors:\n${printProblems(errors)}`);
      // Long before the first page: it takes about as long as all that comes until then.
      if (command === 'build') layOut([...library.trees.values()]);
    },
    load(id) {
      const name = nameOf(id);
      if (name !== undefined) this.error(`${name} is data: only the compiler reads it.`);
      return null;
    },
    handleHotUpdate({ file: path, server }) {
      const file = nameOf(path);
      if (file === undefined) return;
      forgetContent();
      const problems = readContent(root).problems.filter((problem) => problem.file === file);
      if (problems.length > 0) server.config.logger.warn(printProblems(problems));
      server.ws.send({ type: 'full-reload' });
    },
  };
}

/** A pattern for every file of a folder, with what a pattern would obey in its path written out. */
function everyFileOf(folder: string): string {
  return `${folder
    .split(sep)
    .join('/')
    .replace(/[\\$^*+?.()|[\]{}!@]/g, '\\$&')}/**`;
}

function isError({ severity }: Problem): boolean {
  return severity === 'error';
}
