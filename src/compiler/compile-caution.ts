import type { Caution } from '#core/model/library.ts';
import { compileReference } from './compile-reference.ts';
import type { Positions } from './position.ts';
import type { Report } from './problem.ts';
import { cautionSchema } from './schemas.ts';

/** Compiles one caution file. Undefined where anything was wrong. */
export function compileCaution(text: string, slug: string, positions: Positions, report: Report): Caution | undefined {
  const read = compileReference(text, cautionSchema, positions, report);
  if (read === undefined) return undefined;
  const words = read.front.text.split(/\s+/).length;
  if (words > 60) {
    report({
      rule: 'caution-length',
      position: positions.find('front/text'),
      message: `Unexpected ${words} words in \`text\`, expected at most 60.`,
      help: 'It must be read at a glance; move the rest into the body.',
    });
    return undefined;
  }
  return { slug, ...read.front, prose: read.prose };
}
