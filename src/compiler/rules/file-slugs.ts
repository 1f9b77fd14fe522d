import { slugOf } from '../compile-tree.ts';
import type { RuleContext } from './rule.ts';

/**
 * Slugs of the files in one folder of content/, those that could not be read included:
 * what is wrong in them has been said there, and naming them elsewhere is no fault.
 */
export function fileSlugs({ files }: Pick<RuleContext, 'files'>, folder: string): readonly string[] {
  return files
    .map(({ file }) => file)
    .filter((file) => file.startsWith(`content/${folder}/`) && file.endsWith('.mdx'))
    .map(slugOf);
}
