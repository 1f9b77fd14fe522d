import type { Thesaurus } from '#core/model/thesaurus.ts';
import { prosePlaces } from './prose-places.ts';
import { defineTreeRule } from './rule.ts';

/** A pin’s name with its number (`WAIT 24`), or letters that name a pin, a line or a family (`HS pin`, `an LS part`): print, not jargon. */
const print = /^(?: \d| (?:pin|line|part|chip|type|family|bus)\b)/;

/** Letters in capitals that are units, signs on a panel or in a unit’s own print, not jargon. */
const plain: ReadonlySet<string> = new Set(['VA', 'OK', 'ON', 'OFF', 'IC', 'AC', 'DC', 'OL', 'A', 'MM', 'EN', 'IEC']);

export const plainWords = defineTreeRule({
  id: 'plain-words',
  group: 'language',
  says: 'An abbreviation that a tree uses is known to the thesaurus, or explained in brackets where it first stands.',
  why: 'A person with their first meter does not know the letters, and a search for them finds nothing.',
  wrong: 'Read the rail at the PMIC.',
  right: 'Read the rail at the farthest chip.',
  severity: 'warning',
  *find({ tree, library }) {
    const known = abbreviationsOf(library.thesaurus);
    const places = tree.nodes.flatMap((node) => [
      { key: `node/${node.id}@title`, text: node.title },
      ...prosePlaces(node),
    ]);
    const explained = new Set(
      places.flatMap(({ text }) =>
        [...text.matchAll(/\(([A-Z]{2,8})\)|\b([A-Z]{2,8}) \(/g)].map((found) => found[1] ?? found[2] ?? ''),
      ),
    );
    const said = new Set<string>();
    for (const { key, text } of places) {
      for (const found of text.matchAll(/(?<![\w/−-])[A-Z]{2,8}(?![\w])/g)) {
        const [word] = found;
        if (print.test(text.slice(found.index + word.length))) continue;
        if (plain.has(word) || explained.has(word) || known.has(word.toLowerCase()) || said.has(word)) continue;
        said.add(word);
        yield {
          key,
          message: `Unexpected abbreviation \`${word}\`, expected one that the thesaurus knows.`,
          help: `Say it in plain words, explain it once as "plain words (${word})", or add it to the words of a concept in content/thesaurus.yaml.`,
        };
      }
    }
  },
});

function abbreviationsOf({ concepts }: Thesaurus): ReadonlySet<string> {
  return new Set(
    Object.values(concepts).flatMap(({ words, gone, fine }) =>
      [...words, ...gone, ...fine].flatMap((phrase) => phrase.toLowerCase().split(/[^a-z0-9]+/)),
    ),
  );
}
