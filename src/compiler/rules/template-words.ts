import { prosePlaces } from './prose-places.ts';
import { defineTreeRule } from './rule.ts';

/** How `npm run new` marks what the author has to replace. */
export const templateMark = 'Replace this:';

export const templateWords = defineTreeRule({
  id: 'template-words',
  group: 'substance',
  says: 'Nothing of the template that a tree began from is left in it.',
  why: 'A placeholder reads like an instruction to somebody who does not know that it is one.',
  wrong: 'Replace this: say how and where, in two to five short sentences.',
  right: 'Read the rail at the farthest chip.',
  severity: 'warning',
  *find({ tree }) {
    const front = [
      { key: 'front/summary', text: tree.summary },
      ...tree.symptoms.map((text, index) => ({ key: `front/symptoms/${index}`, text })),
    ];
    const titles = tree.nodes.map(({ id, title }) => ({ key: `node/${id}@title`, text: title }));
    for (const { key, text } of [...front, ...titles, ...tree.nodes.flatMap(prosePlaces)]) {
      const start = text.toLowerCase().indexOf(templateMark.toLowerCase());
      if (start < 0) continue;
      yield {
        key,
        message: `Unexpected words of the template ("${text.slice(start, start + 50)}…"), expected your own.`,
        help: 'Write what belongs here, then take the marked words out.',
      };
    }
  },
});
