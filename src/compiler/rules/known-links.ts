import { suggestName } from '../nearest-name.ts';
import { knownAddresses } from './known-addresses.ts';
import type { Rule } from './rule.ts';

export const knownLinks: Rule = {
  id: 'known-links',
  group: 'links',
  says: 'A link in prose leads to a page that exists.',
  why: 'A dead link in the middle of a step leaves the reader with a blank screen and a probe in the hand.',
  wrong: 'See [the rail](/targets/rail-5/) first.',
  right: 'See [the rail](/targets/rail-5v/) first.',
  severity: 'error',
  *find({ library, files, positionsOf }) {
    const { answered, unread } = knownAddresses({ library, files });
    for (const [file, { links }] of positionsOf) {
      for (const { address, position } of links) {
        const [page = ''] = address.split('#');
        if (answered.has(page) || unread.some((beginning) => page.startsWith(beginning))) continue;
        yield {
          file,
          key: '',
          position,
          message: `Unexpected link to \`${page.slice(0, 100)}\`, expected a page of this site.`,
          help: `Name one that exists; addresses end in a slash.${suggestName(page, answered)}`,
        };
      }
    }
  },
};
