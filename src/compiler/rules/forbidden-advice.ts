import { nodeProse } from '#core/model/node-prose.ts';
import { defineTreeRule } from './rule.ts';

/** Advice that nobody may be given, as patterns over one sentence; each says what to write instead. */
const forbidden: readonly { readonly pattern: RegExp; readonly what: string; readonly instead: string }[] = [
  {
    pattern:
      /\b(bypass|defeat|bridge out|override|jumper)\b[^.]{0,40}\b(interlock|safety switch|cut-?out|thermal fuse)/i,
    what: 'defeating an interlock',
    instead: 'Hand over instead.',
  },
  {
    pattern: /\b(lift|cut|disconnect|remove|tape over|unhook)\b[^.]{0,30}\b(safety|protective|mains) earth\b/i,
    what: 'taking off a safety earth',
    instead: 'Find the loop another way; the earth stays on.',
  },
  {
    pattern: /\b(foil|nail|bigger fuse|larger fuse|higher[- ]rated fuse)\b/i,
    what: 'a fuse of another rating',
    instead: 'Same rating or none.',
  },
  {
    pattern: /\b(touch|finger|hold (a|the) probe)\b[^.]{0,40}\b(mains|live|primary|plug pins?)\b/i,
    what: 'a finger or a held probe on a mains part',
    instead: 'Unplugged and discharged only.',
  },
  {
    pattern:
      /\b(alcohol|freezer|freeze spray)\b[^.]{0,60}\b(while|with) (it is |the (unit|board|supply) is )?(power(ed)? on|on\b|running)/i,
    what: 'alcohol or freezer on a powered board',
    instead: 'Power off and dry first.',
  },
  {
    pattern: /\bscrewdriver\b[^.]{0,40}\b(short|discharge)|\b(short|discharge)\b[^.]{0,40}\bscrewdriver\b/i,
    what: 'discharging with a screwdriver',
    instead: 'A resistor tool, then measure.',
  },
];

const denies = /\b(never|not|no|don[’']t|nobody|without|instead of)\b/i;

export const forbiddenAdvice = defineTreeRule({
  id: 'forbidden-advice',
  says: 'Nobody is told to defeat an interlock, take off an earth, up-rate a fuse, touch a mains part, or wet a powered board.',
  *find({ tree }) {
    for (const node of tree.nodes) {
      for (const [index, paragraph] of nodeProse(node).entries()) {
        for (const sentence of paragraph.split(/(?<=[.!?:;])\s+/)) {
          const found = forbidden.find(({ pattern }) => pattern.test(sentence));
          if (found === undefined || denies.test(sentence)) continue;
          yield {
            key: node.prose.length > index ? `node/${node.id}/prose/${index}` : `node/${node.id}`,
            message: `Unexpected advice on ${found.what} ("${sentence.slice(0, 60)}"), expected a safe step.`,
            help: found.instead,
          };
        }
      }
    }
  },
});
