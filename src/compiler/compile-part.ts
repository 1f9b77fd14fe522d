import { type Part, partPackages } from '#core/model/part.ts';
import type { ReadContext } from './problem.ts';
import { readYaml } from './read-yaml.ts';
import { partSchema } from './schemas.ts';

/** Compiles one part file. Undefined where anything was wrong. */
export function compilePart(text: string, slug: string, context: ReadContext): Part | undefined {
  const front = readYaml(text, { firstLine: 1, key: 'front' }, partSchema, context);
  if (front === undefined) return undefined;
  // Numbers come in their order, as objects keep them; a jack's letters in the order of the file.
  const pins = Object.entries(front.pins).map(([number, { name, kind, status, doubt }]) => ({
    number,
    name,
    kind,
    status,
    doubt,
  }));
  const { pins: most } = partPackages[front.package];
  if (most !== undefined && (pins.length !== most || pins.some(({ number }, place) => number !== String(place + 1)))) {
    context.report({
      rule: 'front-matter',
      position: context.positions.find('front/pins'),
      message: `Unexpected ${pins.length} pins, expected 1 to ${most} of a ${front.package}.`,
      help: 'Give every pin of the package once; one that does nothing is `[not connected, not-connected]`.',
    });
    return undefined;
  }
  const mistaken = Object.entries(front.mistaken).map(([part, says]) => ({ part, says }));
  return { slug, ...front, symbol: front.symbol, pins, mistaken };
}
