import { listParagraphs } from '#core/model/prose.ts';
import { defineTreeRule } from './rule.ts';
import { splitSentences } from './prose-places.ts';

const fits =
  /\b(?:fit|solder in|put in|install|change it for|replace (?:it|them|the \S+(?: \S+)?) (?:by|with))\b[^.;:]{0,25}\b(?:new|replacement|known-good|another|fresh)\b/i;
const denies = /\b(never|not|no|don[’']t|without|before you)\b[^.;:]*$/i;

export const newPartTested = defineTreeRule({
  id: 'new-part-tested',
  group: 'substance',
  says: 'A repair that fits a new part has a `<Substitute>` that says what it must match and how to test it first.',
  why: 'New old stock is often dead, and fakes are common: a part not tested before it goes in starts the hunt anew.',
  wrong: 'Seat the chip again, or fit a new one.',
  right: 'Seat the chip again.',
  severity: 'warning',
  *find({ tree }) {
    for (const cause of tree.nodes) {
      if (cause.kind !== 'cause' || cause.repair === undefined || cause.repair.substitutes.length > 0) continue;
      for (const [index, paragraph] of listParagraphs(cause.repair.prose).entries()) {
        for (const sentence of splitSentences(paragraph)) {
          const found = fits.exec(sentence);
          if (found === null || denies.test(sentence.slice(0, found.index))) continue;
          yield {
            key: `node/${cause.id}/repair/prose/${index}`,
            message: `Unexpected new part at \`${cause.id}\` ("${found[0].slice(0, 40)}"), expected a \`<Substitute>\` for it.`,
            help: 'Add <Substitute role="…" test="…">: what it must match, and how to test the new one before it goes in.',
          };
        }
      }
    }
  },
});
