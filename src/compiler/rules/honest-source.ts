import type { Status } from '#core/model/target.ts';
import type { Rule } from './rule.ts';

const rank: Readonly<Record<Status, number>> = { read: 3, computed: 3, memory: 2, practice: 1 };

export const honestSource: Rule = {
  id: 'honest-source',
  group: 'measurement',
  says: 'The status of a number claims no more than its source: what rests on memory or on common practice is not marked `read`.',
  why: 'The page prints where a number comes from. Readers rely on it, and the next author will not look it up again.',
  wrong: 'source: bench\nstatus: read',
  right: 'source: bench\nstatus: practice',
  from: 'a target',
  severity: 'error',
  *find({ library }) {
    const places = [
      ...[...library.targets.values()].map((item) => ({ ...item, file: `content/targets/${item.slug}.mdx` })),
      ...[...library.cautions.values()].map((item) => ({ ...item, file: `content/cautions/${item.slug}.mdx` })),
    ];
    for (const { file, source, status } of places) {
      const known = library.sources.get(source);
      if (known === undefined || status === 'computed' || rank[status] <= rank[known.status]) continue;
      yield {
        file,
        key: 'front/status',
        message: `Unexpected status \`${status}\` on source \`${source}\`, expected at most \`${known.status}\`.`,
        help: `Mark it \`${known.status}\`, or name the published source that was ${status === 'read' ? 'read' : 'known'}.`,
      };
    }
  },
};
