import { existsSync, readFileSync } from 'node:fs';

/** A query with the trees that answer it; none where it belongs to no tree. */
export interface BenchQuery {
  readonly text: string;
  readonly trees: ReadonlySet<string>;
}

/** Queries of a table `query, best tree, also acceptable`; empty where there is no such file. */
export function readQueries(file: string): readonly BenchQuery[] {
  if (!existsSync(file)) return [];
  return readFileSync(file, 'utf8')
    .split('\n')
    .slice(1)
    .filter((line) => line.trim() !== '')
    .map((line) => {
      const [text = '', best = '', also = ''] = line.split('\t');
      return { text, trees: new Set(best === 'NONE' ? [] : [best, ...also.split(',').filter((slug) => slug !== '')]) };
    });
}
