import { format, resolveConfig } from 'prettier';
import { printFamilies, printRoles } from './choice-reference.ts';
import { printElementReference } from './element-reference.ts';
import { printMessageReference } from './message-reference.ts';

const parts: Readonly<Record<string, () => string>> = {
  elements: printElementReference,
  roles: printRoles,
  instruments: printFamilies,
  messages: printMessageReference,
};

/**
 * A guide with its generated parts made anew: what stands between `<!-- generated: name -->` and `<!-- end of name -->` is replaced
 * and the whole is formatted as `npm run format` would. Throws where a mark is missing, since the guide is ours.
 */
export async function fillGenerated(text: string, file: string): Promise<string> {
  const filled = Object.entries(parts).reduce((before, [name, print]) => {
    const [start, end] = [`<!-- generated: ${name} -->`, `<!-- end of ${name} -->`];
    const [from, to] = [before.indexOf(start), before.indexOf(end)];
    if (from < 0 || to < from) throw new Error(`${file} lacks ${start} … ${end}.`);
    return `${before.slice(0, from + start.length)}\n\n${print()}\n\n${before.slice(to)}`;
  }, text);
  return format(filled, { ...(await resolveConfig(file)), filepath: file });
}
