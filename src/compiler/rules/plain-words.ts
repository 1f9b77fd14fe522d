import { readerTexts, splitSentences } from './prose-places.ts';
import type { Rule } from './rule.ts';

/** A pin’s name with its number (`WAIT 24`), or letters that name a pin, a line or a family (`HS pin`, `an LS part`): print, not jargon. */
const print = /^(?: \d| (?:pin|line|part|chip|type|family|bus)\b)/;

/** Letters in capitals that are units, signs on a panel, or standards and families by their only name. */
const plain: ReadonlySet<string> = new Set([
  ...'VA OK ON OFF IC AC DC OL A MM EN IEC'.split(' '),
  ...'CMOS FM HC HCT LS MFM NMOS NPN NTSC PAL PNP RC TTL'.split(' '),
]);

export const plainWords: Rule = {
  id: 'plain-words',
  group: 'language',
  says: 'An abbreviation that a page uses is known to the thesaurus, or explained in brackets where its file first has it.',
  why: 'A person with their first meter does not know the letters, and a search for them finds nothing.',
  wrong: 'Read the rail at the PMIC.',
  right: 'Read the rail at the farthest chip.',
  severity: 'warning',
  *find(context) {
    const { concepts } = context.library.thesaurus;
    const known = new Set(
      Object.values(concepts).flatMap(({ words, gone, fine }) =>
        [...words, ...gone, ...fine].flatMap((phrase) => phrase.toLowerCase().split(/[^a-z0-9]+/)),
      ),
    );
    for (const [file, texts] of Map.groupBy(readerTexts(context), (text) => text.file)) {
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
            file,
            key,
            message: `Unexpected abbreviation \`${word}\`, expected one that the thesaurus knows.`,
            help: `Say it in plain words, explain it once as "plain words (${word})", or add it to the words of a concept in content/thesaurus.yaml.`,
          };
        }
      }
    }
  },
};

/** Discoverers whose names are terms of the trade, and codes. */
const terms: ReadonlySet<string> = new Set(
  'Darlington Faraday Graetz Hall Kelvin Manchester Schmitt Schottky Zener Zobel Unicode Vpp'.split(' '),
);

export const noMakers: Rule = {
  id: 'no-makers',
  group: 'language',
  says: 'Nobody’s product is named: inside a sentence only units of this site and terms of the trade have a capital.',
  why: 'A maker’s name ages, excludes whoever has another, and may be a trade mark. What counts is the kind of thing.',
  wrong: 'Read the rail with the Ohmotron.',
  right: 'Read the rail at the farthest chip.',
  severity: 'warning',
  *find(context) {
    const units = new Set([...context.library.units.values()].flatMap(({ title }) => title.split(/\s+/)));
    for (const { file, key, text } of readerTexts(context)) {
      for (const [word] of splitSentences(text).flatMap((sentence) => [
        ...sentence.matchAll(/(?<=[a-z0-9,’)%] )[A-Z][a-z]{2,}\b/g),
      ])) {
        if (terms.has(word) || units.has(word)) continue;
        yield {
          file,
          key,
          message: `Unexpected name \`${word}\` inside a sentence, expected the kind of thing it is.`,
          help: 'Say "a clip-on meter", not whose. A term of the trade that is written with a capital may stay: say so in the pull request.',
        };
      }
    }
  },
};

export const calmWords: Rule = {
  id: 'calm-words',
  group: 'language',
  says: 'No page shouts: there is no exclamation mark.',
  why: 'Where everything is urgent nothing is. What can hurt has its own box.',
  wrong: 'Read the rail at the farthest chip!',
  right: 'Read the rail at the farthest chip.',
  severity: 'warning',
  *find(context) {
    for (const { file, key, text } of readerTexts(context)) {
      if (!text.includes('!')) continue;
      yield {
        file,
        key,
        message: 'Unexpected exclamation mark, expected a full stop.',
        help: 'Say it plainly; a danger goes into <Caution use="…" />.',
      };
    }
  },
};
