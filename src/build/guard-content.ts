import { relative, sep } from 'node:path';
import type { Plugin } from 'vite';
import type { Problem } from '#compiler/problem.ts';
import { printProblems } from '#compiler/reporters/terminal.ts';
import { forgetContent, readContent } from './library.ts';

/**
 * A build stops where content/ has an error; in `dev` the problems are printed and every change is read again. Pages render
 * what the compiler read: no file of content/ is ever a module, and one that becomes a module stops the build as well.
 */
export function guardContent(root: string = process.cwd()): Plugin {
  const nameOf = (path: string): string =>
    relative(root, path.split('?')[0] ?? path)
      .split(sep)
      .join('/');
  let isDevelopment = false;
  return {
    name: 'halfsplit-guard-content',
    enforce: 'pre',
    configResolved({ command }) {
      isDevelopment = command === 'serve';
    },
    buildStart() {
      const { problems } = readContent(root);
      const errors = problems.filter(isError);
      if (isDevelopment && problems.length > 0) console.warn(`\n${printProblems(problems)}`);
      else if (errors.length > 0) this.error(`content/ has errors:\n${printProblems(errors)}`);
    },
    load(id) {
      if (nameOf(id).startsWith('content/')) this.error(`${nameOf(id)} is data: only the compiler reads it.`);
      return null;
    },
    handleHotUpdate({ file: path, server }) {
      const file = nameOf(path);
      if (!file.startsWith('content/')) return;
      forgetContent();
      const problems = readContent(root).problems.filter((problem) => problem.file === file);
      if (problems.length > 0) server.config.logger.warn(printProblems(problems));
      server.ws.send({ type: 'full-reload' });
    },
  };
}

function isError({ severity }: Problem): boolean {
  return severity === 'error';
}
