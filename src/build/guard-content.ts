import { readFileSync } from 'node:fs';
import { relative, sep } from 'node:path';
import type { Plugin } from 'vite';
import type { Problem } from '#compiler/problem.ts';
import { printProblem, printProblems } from '#compiler/reporters/terminal.ts';
import { forgetContent, readContent } from './library.ts';

/**
 * Stands in front of Astro: compiles content/ before anything of it is rendered, and refuses a file with an error
 * in `load`, which runs before every transform. Astro would execute an expression in MDX; here it never gets one.
 */
export function guardContent(root: string = process.cwd()): Plugin {
  const nameOf = (path: string): string => relative(root, path).split(sep).join('/');
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
      const path = id.split('?')[0] ?? id;
      const file = nameOf(path);
      if (!file.startsWith('content/') || !file.endsWith('.mdx')) return null;
      const text = readFileSync(path, 'utf8');
      if (!readContent(root).files.some((known) => known.file === file && known.text === text)) forgetContent();
      const errors = readContent(root).problems.filter((problem) => problem.file === file && isError(problem));
      if (errors.length > 0) this.error(errors.map(printProblem).join('\n'));
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
