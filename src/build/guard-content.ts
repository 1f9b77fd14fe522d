import { readFileSync } from 'node:fs';
import { relative, sep } from 'node:path';
import type { Plugin } from 'vite';
import { compileContent, type ContentFile } from '#compiler/compile-content.ts';
import { loadContent } from '#compiler/load.ts';
import { printProblem, printProblems } from '#compiler/reporters/terminal.ts';
import type { Problem } from '#compiler/problem.ts';
import { forgetLibrary } from './library.ts';

/**
 * Stands in front of Astro: compiles content/ before anything of it is rendered, and refuses a file with an error
 * in `load`, which runs before every transform. Astro would execute an expression in MDX; here it never gets one.
 */
export function guardContent(root: string = process.cwd()): Plugin {
  const isErroneous = ({ severity }: Problem): boolean => severity === 'error';
  return {
    name: 'halfsplit-guard-content',
    enforce: 'pre',
    buildStart() {
      const { problems } = compileContent(loadContent(root));
      if (!problems.some(isErroneous)) return;
      if (this.meta.watchMode || process.argv.includes('dev')) this.warn(`\n${printProblems(problems)}`);
      else this.error(`content/ has errors:\n${printProblems(problems.filter(isErroneous))}`);
    },
    load(id) {
      const path = id.split('?')[0] ?? id;
      const file = relative(root, path).split(sep).join('/');
      if (!file.startsWith('content/') || !file.endsWith('.mdx')) return null;
      const errors = findErrorsIn({ file, text: readFileSync(path, 'utf8') }, root).filter(isErroneous);
      if (errors.length > 0) this.error(errors.map(printProblem).join('\n'));
      return null;
    },
    handleHotUpdate({ file, server }) {
      const name = relative(root, file).split(sep).join('/');
      if (!name.startsWith('content/')) return undefined;
      forgetLibrary();
      const problems = compileContent(loadContent(root)).problems.filter((problem) => problem.file === name);
      if (problems.length > 0) server.config.logger.warn(printProblems(problems));
      server.ws.send({ type: 'full-reload' });
      return undefined;
    },
  };
}

function findErrorsIn(changed: ContentFile, root: string): readonly Problem[] {
  const files = loadContent(root).map((file) => (file.file === changed.file ? changed : file));
  return compileContent(files).problems.filter(({ file }) => file === changed.file);
}
