import type { Cause } from '#core/model/fault-tree.ts';
import { listParagraphs } from '#core/model/prose.ts';
import { defineTreeRule } from './rule.ts';
import { splitSentences } from './prose-places.ts';

/** Words that take something out, off or apart. Cleaning and reseating in place are none. */
const removal =
  /\b(remove|desolder|unsolder|solder (?:it |them )?out|take (?:it|them|the \S+(?: \S+)?) (?:out|off|apart)|lift (?:it|the \S+) out|cut (?:its|the|all) (?:legs|leads|wires|pins)|pull (?:it|the \S+) out|unscrew the (?:board|drive|tab|transformer)|suck the holes)\b/i;
const denies = /\b(never|not|no|don[’']t|nothing|without)\b[^.;:]*$/i;

export const recordFirst = defineTreeRule({
  id: 'record-first',
  group: 'safety',
  says: 'A repair that takes anything out begins with `<Record>`: what to photograph and which marks to note.',
  why: 'A part put back the wrong way round is the second fault, and the photograph that would have told was never taken.',
  wrong: 'Fit the new one.\n\n<Record>Photograph the tab and its washer.</Record>',
  right: '<Record>Photograph the tab and its washer.</Record>\n\nFit the new one.',
  *find({ tree, positions }) {
    for (const cause of tree.nodes) {
      if (cause.kind !== 'cause' || cause.repair === undefined) continue;
      const key = `node/${cause.id}/repair`;
      const reason = removalIn(cause);
      if (cause.repair.record.length === 0 && reason !== undefined) {
        yield {
          key,
          message: `Unexpected repair of \`${cause.id}\` without \`<Record>\`, expected it because ${reason}.`,
          help: 'Say what to photograph and which marks to note, first thing in <Repair>.',
        };
      }
      const record = positions.find(`${key}/record/prose/0`);
      const prose = positions.find(`${key}/prose/0`);
      if (cause.repair.record.length === 0 || cause.repair.prose.length === 0) continue;
      if (record === 'unavailable' || prose === 'unavailable' || record.line < prose.line) continue;
      yield {
        key: `${key}/record/prose/0`,
        message: `Unexpected \`<Record>\` after the repair of \`${cause.id}\` began, expected it first in <Repair>.`,
        help: 'Move it to the top: the photograph is taken before anything moves.',
      };
    }
  },
});

/** Why the repair needs a record: in words for the message, or undefined. A lead or a disk is changed whole, with nothing to note. */
function removalIn({ repair, lies }: Cause): string | undefined {
  if (repair === undefined) return undefined;
  if (lies === 'unit' && repair.leaves === 'damage') return 'the repair leaves damage';
  if (lies === 'unit' && repair.substitutes.length > 0) return 'a part is changed';
  for (const sentence of listParagraphs(repair.prose).flatMap(splitSentences)) {
    const found = removal.exec(sentence);
    if (found !== null && !denies.test(sentence.slice(0, found.index))) return `it says "${found[0]}"`;
  }
  return undefined;
}
