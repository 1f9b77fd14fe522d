import { defineCollection } from 'astro:content';
import { glob } from 'astro/loaders';

// The compiler alone validates content; Astro's collections pass the text through for rendering.
const pattern = '**/*.mdx';

export const collections = {
  trees: defineCollection({
    loader: glob({ pattern, base: './content/trees', generateId: ({ entry }) => slugOf(entry) }),
  }),
  targets: defineCollection({ loader: glob({ pattern, base: './content/targets' }) }),
  cautions: defineCollection({ loader: glob({ pattern, base: './content/cautions' }) }),
  units: defineCollection({ loader: glob({ pattern, base: './content/units' }) }),
};

function slugOf(path: string): string {
  return (path.split('/').at(-1) ?? path).replace(/\.mdx$/, '');
}
