import { buildSearchIndex } from '#core/search/search-index.ts';
import type { Rule } from './rule.ts';

const file = 'content/thesaurus.yaml';

export const thesaurusUsed: Rule = {
  id: 'thesaurus-used',
  group: 'language',
  says: 'The words of the thesaurus lead somewhere: some tree speaks of each concept, in these words or in others.',
  why: 'Words that lead to no tree make the search promise what it does not have.',
  wrong: 'concepts: { gearbox: { words: [gearbox] } }',
  right: 'concepts: { lamp: { words: [lamp] } }',
  severity: 'warning',
  *find({ library, only }) {
    if (only !== undefined && only !== file) return;
    const concepts = Object.entries(library.thesaurus.concepts);
    if (concepts.length === 0 || library.trees.size === 0) return;
    const spoken = new Set(
      Object.keys(buildSearchIndex(library).features).map((feature) => Math.floor(Number(feature) / 3)),
    );
    for (const [number, [name, { words, gone, fine }]] of concepts.entries()) {
      if (spoken.has(number)) continue;
      const some = [...words, ...gone, ...fine].slice(0, 3).join('`, `');
      yield {
        file,
        key: `front/concepts/${name}`,
        message: `Unexpected words of \`${name}\` (\`${some}\` …), expected a tree that speaks of it.`,
        help: 'This is about thesaurus.yaml, not about your tree. A tree speaks of it in its title, summary, symptoms, nodes or prose. Nothing to do where that tree is still to come; else add the word the trees use, or take the concept out.',
      };
    }
  },
};
