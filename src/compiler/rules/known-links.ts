import { suggestName } from '../nearest-name.ts';
import { knownAddresses } from './known-addresses.ts';
import type { Rule } from './rule.ts';

const link = /\]\((\/(?:trees|targets|cautions|units)\/[^)\s#]*)/g;

export const knownLinks: Rule = {
  id: 'known-links',
  group: 'links',
  says: 'A link in prose leads to a page that exists.',
  why: 'A dead link in the middle of a step leaves the reader with a blank screen and a probe in the hand.',
  wrong: 'See [the rail](/targets/rail-5/) first.',
  right: 'See [the rail](/targets/rail-5v/) first.',
  severity: 'error',
  *find({ library, files }) {
    const { answered, unread } = knownAddresses({ library, files });
    for (const { file, text } of files) {
      if (!file.endsWith('.mdx')) continue;
      for (const [index, line] of text.split(/\r?\n/).entries()) {
        for (const found of line.matchAll(link)) {
          const address = found[1] ?? '';
          if (answered.has(address) || unread.some((beginning) => address.startsWith(beginning))) continue;
          yield {
            file,
            key: '',
            position: { line: index + 1, column: found.index + 3 },
            message: `Unexpected link to \`${address}\`, expected a page of this site.`,
            help: `Name one that exists; addresses end in a slash.${suggestName(address, answered)}`,
          };
        }
      }
    }
  },
};
