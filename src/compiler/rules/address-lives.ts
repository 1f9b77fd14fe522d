import { suggestName } from '../nearest-name.ts';
import { knownAddresses } from './known-addresses.ts';
import type { Rule } from './rule.ts';

const list = 'content/addresses.txt';
/** Addresses that come from content; those of the site’s own pages are not the content’s to keep. */
const fromContent = /^\/(trees|targets|cautions|units)\/./;

export const addressLives: Rule = {
  id: 'address-lives',
  group: 'links',
  says: 'Every address that was ever published still answers.',
  why: 'Somebody’s thread links there. A forum post from years ago is how most readers will arrive.',
  wrong: '<Check id="rail" title="Is the rail in range?" minutes="3" power="on" instrument="multimeter">',
  right:
    '<Check id="rail" title="Is the rail in range?" minutes="3" power="on" instrument="multimeter" was="rail-old">',
  severity: 'error',
  *find({ library, files }) {
    const published = files.find(({ file }) => file === list);
    if (published === undefined) return;
    const { answered, unread } = knownAddresses({ library, files });
    for (const [index, written] of published.text.split(/\r?\n/).entries()) {
      const address = written.trim();
      if (!fromContent.test(address) || answered.has(address)) continue;
      if (unread.some((beginning) => address.startsWith(beginning))) continue;
      const [, kind = '', slug = '', node] = address.split('/');
      const isNode = kind === 'trees' && node !== undefined && node !== '';
      yield {
        file: list,
        key: '',
        position: { line: index + 1, column: 1 },
        message: `Unexpected end of the published address \`${address}\`, expected a page that answers there.`,
        help: `${isNode ? `Give its successor in tree \`${slug}\` was="${node}"` : kind === 'trees' ? `Give the tree that replaces it \`was: [${slug}]\`` : 'Put the file back under its name'}; do not take the line out.${suggestName(address, answered)}`,
      };
    }
  },
};
