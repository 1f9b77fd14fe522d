import type { Check } from '#core/model/fault-tree.ts';
import { wordsOfCheck, isStep } from '#core/model/node.ts';
import { listParagraphs } from '#core/model/prose.ts';
import { prosePlaces, splitSentences } from '../reader-texts.ts';
import { templateMark } from '../tree-template.ts';
import type { Rule } from './rule.ts';

const maximumWords = 30;
/** What fits on one screen of a phone above the answers: 45 words, never more than 60. */
const mostWords = 60;

export const wordingRules: readonly Rule[] = [
  {
    id: 'template-words',
    group: 'substance',
    says: 'Nothing of the template that a tree began from is left in it.',
    why: 'A placeholder reads like an instruction to somebody who does not know that it is one.',
    wrong: 'Replace this: say how and where, in two to five short sentences.',
    right: 'Read the rail at the farthest chip.',
    severity: 'warning',
    *findInTree({ tree }) {
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
  },
  {
    id: 'sentence-length',
    group: 'language',
    says: `No sentence of a check is longer than ${maximumWords} words.`,
    why: 'At the bench a sentence is read with one eye, the other on the probe.',
    wrong:
      'Read the rail at the chip that is farthest from the regulator and look at the number on the meter until it has stood for the time that one long breath takes, twice over.',
    right: 'Read the rail at the farthest chip.',
    severity: 'warning',
    *findInTree({ tree }) {
      for (const node of tree.nodes) {
        if (!isStep(node)) continue;
        for (const [index, paragraph] of listParagraphs(node.prose).entries()) {
          for (const sentence of splitSentences(paragraph)) {
            const words = countWords(sentence);
            if (words <= maximumWords) continue;
            yield {
              key: `node/${node.id}/prose/${index}`,
              message: `Unexpected sentence of ${words} words ("${sentence.slice(0, 40)}…"), expected at most ${maximumWords}.`,
              help: 'Split it: one act a sentence.',
            };
          }
        }
      }
    },
  },
  {
    id: 'check-length',
    group: 'language',
    says: `No check tells more than ${mostWords} words before its answers.`,
    why: 'With a probe in one hand a page of words is not read to its end, and the end is where "unplug" stands.',
    wrong: `${'Read the rail at the farthest chip. '.repeat(8)}\n\n${'Then read it at the regulator. '.repeat(3)}`,
    right: 'Read the rail at the farthest chip.\n\nThen read it at the regulator.',
    *findInTree({ tree }) {
      for (const node of tree.nodes) {
        if (!isStep(node)) continue;
        const words = countWords(listParagraphs(node.prose).join(' '));
        if (words <= mostWords) continue;
        yield {
          key: `node/${node.id}`,
          message: `Unexpected instruction of ${words} words in \`${node.id}\`, expected at most ${mostWords}.`,
          help: 'Leave to the set-up, the caution and the target what they say already; make two checks of two readings.',
        };
      }
    },
  },
  {
    id: 'names-button',
    group: 'language',
    says: 'A step that tells which answer to give quotes what its button says.',
    why: 'The word behind an answer, such as `in` or `stays`, stands on no button; a tired reader presses the wrong one.',
    wrong: 'No fitted plug: answer in.',
    right: 'No fitted plug: “In range”.',
    *findInTree({ tree }) {
      for (const node of tree.nodes) {
        if (node.kind !== 'check') continue;
        for (const { key, text, part } of prosePlaces(node)) {
          if (part !== 'step') continue;
          for (const [said, words = ''] of text.matchAll(advice)) {
            if (!isAnswer(words.toLowerCase(), node)) continue;
            yield {
              key,
              message: `Unexpected "${said}" in \`${node.id}\`, expected the words of the button, in quotes.`,
              help: 'Write what its <Outcome> says, for example: No brick: “No change, or there is no brick”.',
            };
          }
        }
      }
    },
  },
  {
    id: 'plain-words',
    group: 'language',
    says: 'An abbreviation that a page uses is known to the thesaurus, or explained in brackets where its file first has it.',
    why: 'A person with their first meter does not know the letters, and a search for them finds nothing.',
    wrong: 'Read the rail at the PMIC.',
    right: 'Read the rail at the farthest chip.',
    severity: 'warning',
    *findInTexts({ texts, library }) {
      const { concepts } = library.thesaurus;
      const known = new Set(
        Object.values(concepts).flatMap(({ words, gone, fine }) =>
          [...words, ...gone, ...fine].flatMap((phrase) => phrase.toLowerCase().split(/[^a-z0-9]+/)),
        ),
      );
      const explained = texts.flatMap(({ text }) =>
        [...text.matchAll(/\(([A-Z]{2,8})\)|\b([A-Z]{2,8}) \(/g)].map((found) => found[1] ?? found[2] ?? ''),
      );
      const done = new Set([...plain, ...explained]);
      for (const { key, text } of texts) {
        for (const found of text.matchAll(/(?<![\w/−-])[A-Z]{2,8}(?![\w])/g)) {
          const [word] = found;
          if (print.test(text.slice(found.index + word.length))) continue;
          if (done.has(word) || known.has(word.toLowerCase())) continue;
          done.add(word);
          yield {
            key,
            message: `Unexpected abbreviation \`${word}\`, expected one that the thesaurus knows.`,
            help: `Say it in plain words, explain it once as "plain words (${word})", or add it to the words of a concept in content/thesaurus.yaml.`,
          };
        }
      }
    },
  },
  {
    id: 'no-makers',
    group: 'language',
    says: 'Nobody’s product is named: inside a sentence only units of this site and terms of the trade have a capital.',
    why: 'A maker’s name ages, leaves out people who have another, and may be a trade mark. What counts is the kind of thing.',
    wrong: 'Read the rail with the Ohmotron.',
    right: 'Read the rail at the farthest chip.',
    severity: 'warning',
    *findInTexts({ texts, library }) {
      const units = new Set([...library.units.values()].flatMap(({ title }) => title.split(/\s+/)));
      for (const { key, text } of texts) {
        for (const [word] of splitSentences(text).flatMap((sentence) => [
          ...sentence.matchAll(/(?<=[a-z0-9,’)%] )[A-Z][a-z]{2,}\b/g),
        ])) {
          if (terms.has(word) || units.has(word)) continue;
          yield {
            key,
            message: `Unexpected name \`${word}\` inside a sentence, expected the kind of thing it is.`,
            help: 'Say "a clip-on meter", not whose. A term of the trade that is written with a capital may stay: say so in the pull request.',
          };
        }
      }
    },
  },
  {
    id: 'vocabulary',
    group: 'language',
    says: 'A page speaks in the words of this site: unplug, again, repaired, anyone who.',
    why: 'One word for one thing: a tired reader should not wonder whether "plug out" and "unplug" are two acts.',
    wrong: 'Plug out, then mend the joint anew.',
    right: 'Read the rail at the farthest chip.',
    severity: 'warning',
    *findInTexts({ texts }) {
      for (const { key, text } of texts) {
        if (key.startsWith('front/symptoms')) continue;
        for (const { words, instead } of vocabulary) {
          const [found] = words.exec(text) ?? [];
          if (found === undefined) continue;
          yield {
            key,
            message: `Unexpected "${found}", expected ${instead}.`,
            help: 'One word for one thing, on every page.',
          };
        }
      }
    },
  },
  {
    id: 'calm-words',
    group: 'language',
    says: 'No page shouts: there is no exclamation mark.',
    why: 'Where everything is urgent nothing is. What can hurt has its own box.',
    wrong: 'Read the rail at the farthest chip!',
    right: 'Read the rail at the farthest chip.',
    severity: 'warning',
    *findInTexts({ texts }) {
      for (const { key, text } of texts) {
        if (!text.includes('!')) continue;
        yield {
          key,
          message: 'Unexpected exclamation mark, expected a full stop.',
          help: 'Say it plainly; a danger goes into <Caution use="…" />.',
        };
      }
    },
  },
];

function countWords(text: string): number {
  return text.split(/\s+/).filter((word) => /\p{L}|\p{N}/u.test(word)).length;
}

/** `answer in.`, `answer that it follows.`, `answer still short and …`: whatever follows up to the end of what is told. */
const advice = /\banswers? (?:that it |with )?([a-z]+(?:[ -][a-z]+){0,2}?)(?=[.,;:]|\s(?:and|or|when)\b|$)/gi;
/** What stands for an answer without naming it. */
const pointers: readonly string[] = ['so', 'yes', 'no'];

function isAnswer(words: string, check: Check): boolean {
  return pointers.includes(words) || wordsOfCheck(check).includes(words.replaceAll(' ', '-'));
}

/** A pin’s name with its number (`WAIT 24`), or letters that name a pin, a line or a family (`HS pin`, `an LS part`): print, not jargon. */
const print = /^(?: \d| (?:pin|line|part|chip|type|family|bus)\b)/;

/** Letters in capitals that are units, signs on a panel, or standards and families by their only name. */
const plain: ReadonlySet<string> = new Set([
  ...'VA OK ON OFF IC AC DC OL A MM EN IEC'.split(' '),
  ...'CMOS FM HC HCT LS MFM NMOS NPN NTSC PAL PNP RC TTL'.split(' '),
]);

/** Discoverers whose names are terms of the trade, and codes. */
const terms: ReadonlySet<string> = new Set(
  'Darlington Faraday Graetz Hall Kelvin Manchester Schmitt Schottky Zener Zobel Unicode Vpp'.split(' '),
);

/** Words that this site does not use, each with the one that it does. */
const vocabulary: readonly { readonly words: RegExp; readonly instead: string }[] = [
  { words: /(?<!\b(?:its|the|brick’s) |low-voltage )\bplug(?:ged)? out\b(?! of)/i, instead: '"unplug"' },
  { words: /\banew\b/i, instead: '"again", or "re-solder"' },
  { words: /\bwhoever\b/i, instead: '"anyone who"' },
  { words: /\b(?:be|to be) had\b/i, instead: '"unobtainable", or "cannot be replaced"' },
  { words: /\b(?:cured|cures|mends?|mended)\b/i, instead: '"repaired", "helps" or "gone"' },
  { words: /\bgo(?:es)? along\b/i, instead: '"is kept", or "is part of"' },
  { words: /\bstands? below\b/i, instead: '"is below"' },
];
