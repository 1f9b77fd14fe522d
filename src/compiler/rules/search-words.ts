import { makeConceptReader } from '#core/search/search-index.ts';
import { suggestName } from '../nearest-name.ts';
import { fileSlugs } from './names.ts';
import type { Rule, RuleFinding } from './rule.ts';

export const searchRules: readonly Rule[] = [
  {
    id: 'symptoms-enough',
    group: 'substance',
    says: 'A tree has at least three symptom phrases, in the words of a worried owner.',
    why: 'People describe one fault in many ways; the search finds the tree by these phrases first.',
    wrong: 'symptoms:\n  - five volt rail is low\n  - no five volts at all',
    right: 'symptoms:\n  - five volt rail is low\n  - no five volts at all\n  - lamp glows dim',
    *findInTree({ tree }) {
      const count = tree.symptoms.length;
      if (count >= fewest) return;
      yield {
        key: 'front/symptoms',
        message: `Unexpected ${count} symptom ${count === 1 ? 'phrase' : 'phrases'}, expected at least ${fewest}.`,
        help: 'Write what an owner types into a phone: no part names, no diagnosis.',
      };
    },
  },
  {
    id: 'symptoms-owned',
    group: 'substance',
    says: 'Every symptom phrase belongs to one tree.',
    why: 'Search ranks by phrases; one that two trees own leads half of the readers to the wrong one.',
    wrong: '- lamp glows dim',
    right: '- chips run hot',
    *findInAll({ trees }) {
      const owners = new Map<string, { file: string; key: string }>();
      for (const { tree, file } of trees) {
        for (const [index, phrase] of tree.symptoms.entries()) {
          const words = phrase
            .toLowerCase()
            .replace(/[^\p{L}\p{N}]+/gu, ' ')
            .trim();
          const key = `front/symptoms/${index}`;
          const owner = owners.get(words);
          if (owner !== undefined) {
            yield {
              file,
              key,
              message: `Unexpected symptom "${phrase}", expected a phrase that no other tree has.`,
              help: 'Say what is different here.',
              other: { ...owner, says: 'the first one' },
            };
          }
          owners.set(words, { file, key });
        }
      }
    },
  },
  {
    id: 'thesaurus-names',
    group: 'language',
    says: 'What the thesaurus and the list of subjects next door name exists: concepts, signs, targets, cautions.',
    why: 'A name that does not exist in the thesaurus joins nothing to nothing.',
    wrong: 'signs: { any-lihgt: {} }',
    right: 'signs: { any-light: {} }',
    *findInAll({ library, files }) {
      const targets = fileSlugs({ files }, 'targets');
      const cautions = fileSlugs({ files }, 'cautions');
      const { concepts, amounts, signs } = library.thesaurus;
      const names = Object.keys(concepts);
      const file = 'content/thesaurus.yaml';
      for (const [name, { near, together }] of Object.entries(concepts)) {
        const key = `front/concepts/${name}`;
        for (const [index, other] of near.entries())
          yield* unknown(file, `${key}/near/${index}`, 'concept', other, names);
        for (const [index, pair] of together.entries()) {
          const parts = pair.split(' ').filter((part) => !/^(?:named|gone|fine)$/.test(part));
          for (const part of parts) yield* unknown(file, `${key}/together/${index}`, 'concept', part, names);
        }
      }
      for (const [index, { means, target }] of amounts.entries()) {
        const key = `front/amounts/${index}`;
        for (const name of means) yield* unknown(file, key, 'concept', name, names);
        for (const name of target) yield* unknown(file, key, 'target', name, targets);
      }
      for (const [sign, { yes, no }] of Object.entries(signs)) {
        const key = `front/signs/${sign}`;
        yield* unknown(file, key, 'sign', sign, [...library.signs.keys()]);
        for (const aspect of [...yes, ...no]) yield* unknown(file, key, 'concept', aspect.split(' ')[0] ?? '', names);
      }
      for (const { slug, concepts: told, caution, isLethal } of library.nextDoor.values()) {
        const door = { file: 'content/next-door.yaml', key: `front/${slug}` };
        for (const [index, name] of told.entries())
          yield* unknown(door.file, `${door.key}/concepts/${index}`, 'concept', name, names);
        if (caution !== undefined) yield* unknown(door.file, `${door.key}/caution`, 'caution', caution, cautions);
        else if (isLethal) {
          yield {
            ...door,
            message: `Unexpected lethal subject \`${slug}\` without a caution, expected the page that says why.`,
            help: 'Add `caution:` with the slug of a caution.',
          };
        }
      }
    },
  },
  {
    id: 'thesaurus-used',
    group: 'language',
    says: 'The words of the thesaurus lead somewhere: some tree speaks of each concept, in these words or in others.',
    why: 'Words that lead to no tree make the search promise what it does not have.',
    wrong: 'concepts: { gearbox: { words: [gearbox] } }',
    right: 'concepts: { lamp: { words: [lamp] } }',
    severity: 'warning',
    isOfWhole: true,
    *findInAll({ library, trees, only, keep }) {
      if (only !== undefined && only !== file) return;
      const concepts = Object.entries(library.thesaurus.concepts);
      if (concepts.length === 0 || library.trees.size === 0) return;
      const conceptsOf = makeConceptReader(library);
      const unspoken = new Set(concepts.keys());
      for (const { tree, file: ofTree } of trees) {
        if (unspoken.size === 0) break;
        for (const concept of keep('concepts', ofTree, () => conceptsOf(tree))) unspoken.delete(concept);
      }
      for (const [number, [name, { words, gone, fine }]] of concepts.entries()) {
        if (!unspoken.has(number)) continue;
        const some = [...words, ...gone, ...fine].slice(0, 3).join('`, `');
        yield {
          file,
          key: `front/concepts/${name}`,
          message: `Unexpected words of \`${name}\` (\`${some}\` …), expected a tree that speaks of it.`,
          help: 'This is about thesaurus.yaml, not about your tree. A tree speaks of it in its title, summary, symptoms, nodes or prose. Nothing to do where that tree is still to come; else add the word the trees use, or take the concept out.',
        };
      }
    },
  },
];

const fewest = 3;

function* unknown(
  file: string,
  key: string,
  what: string,
  name: string,
  known: readonly string[],
): Iterable<RuleFinding> {
  if (known.includes(name)) return;
  yield {
    file,
    key,
    message: `Unexpected ${what} \`${name}\`, expected one that exists.`,
    help: `Name an existing ${what}.${suggestName(name, known)}`,
  };
}

const file = 'content/thesaurus.yaml';
