import { idPattern } from './read-attributes.ts';
import type { Report } from './problem.ts';

const folders = ['trees', 'targets', 'cautions', 'units'];
const tables = [
  ...['blocks', 'points', 'setups', 'hazards', 'instruments', 'signs', 'sources', 'thesaurus', 'next-door'],
];

/**
 * Reports a file under content/ that no page would ever come from: in the wrong folder, with the wrong ending, or a name no address
 * can hold; and one that is only a link to another.
 */
export function reportPlace(file: string, isLink: boolean, report: Report): void {
  const [, folder = '', ...rest] = file.split('/');
  const name = rest.at(-1) ?? folder;
  const say = (message: string, help: string): void =>
    report({ rule: 'file-place', position: 'unavailable', message, help });
  if (isLink) {
    say(`Unexpected link \`${name}\` to another place, expected a file.`, 'Put the file itself there.');
    return;
  }
  if (rest.length === 0) {
    if (file === 'content/addresses.txt' || tables.some((table) => `${table}.yaml` === folder)) return;
    say(`Unexpected file \`${folder}\` in content/, expected one of its tables.`, `Tables: ${tables.join(', ')}.`);
    return;
  }
  if (!folders.includes(folder)) {
    say(`Unexpected folder \`${folder}\`, expected ${folders.join(', ')}.`, 'Move the file to where its kind lies.');
    return;
  }
  if (!name.endsWith('.mdx')) {
    say(
      `Unexpected file \`${name}\`, expected one that ends in .mdx.`,
      'Rename it, or take it out: nothing else is read here.',
    );
    return;
  }
  const slug = name.replace(/\.mdx$/, '');
  if (!idPattern.test(slug) || slug.length > 40) {
    say(
      `Unexpected name \`${slug}\`, expected small letters, digits and single hyphens, at most 40 characters.`,
      'The name becomes the address of the page.',
    );
  }
  const depth = folder === 'trees' ? 2 : 1;
  if (rest.length !== depth) {
    const place = folder === 'trees' ? 'content/trees/<block>/' : `content/${folder}/`;
    say(`Unexpected place of \`${name}\`, expected it in ${place}.`, 'Move the file there.');
  }
}
