import type { Shows } from '#core/model/fault-tree.ts';
import type { Element, WrittenAttribute } from './element.ts';
import type { AttributeSpec, ElementSpec } from './elements.ts';
import { suggestName } from './nearest-name.ts';
import type { Position } from './position.ts';
import type { ReadContext } from './problem.ts';
import type { Report } from './problem.ts';

/** How long the name of a file may be. */
export const longestSlug = 40;
/** Not the names that every object of JavaScript has: something looked up by them would be found where nobody wrote it. */
export const idPattern: RegExp = /^(?!(?:constructor|prototype)$)[a-z0-9]+(-[a-z0-9]+)*$/;
const reservedIds: ReadonlySet<string> = new Set([
  ...['unit', 'with', 'did', 'in', 'symptom', 'end', 'ask', 'not-listed', 'rework', 'unseen', 'all'],
  ...['low', 'high', 'none', 'reversed', 'sometimes'],
  ...['constructor', 'prototype'],
]);

/**
 * The attributes of one element, typed by its table: words and slugs as lists (empty where left out), numbers as numbers, anything
 * else as text. A missing or bad value has been reported; it is then undefined or odd, and no tree is made of it.
 */
export type Attributes<Spec extends ElementSpec> = {
  readonly [Name in keyof Spec['attributes']]: ValueOf<Spec['attributes'][Name]>;
};
type ValueOf<Attribute extends AttributeSpec> = Attribute['kind'] extends 'ids' | 'words' | 'former'
  ? readonly (Attribute extends { readonly oneOf: readonly (infer Choice)[] } ? Choice : string)[]
  : Attribute['kind'] extends 'shows'
    ? Shows
    : Attribute extends { readonly required: true }
      ? SingleOf<Attribute>
      : SingleOf<Attribute> | undefined;
type SingleOf<Attribute extends AttributeSpec> = Attribute extends { readonly oneOf: readonly (infer Choice)[] }
  ? Choice
  : Attribute['kind'] extends 'minutes' | 'count'
    ? number
    : string;

/**
 * Reads the attributes of an element by its table, files the position of each under `key@name` and what it names, and reports those
 * that the table does not have, or has otherwise.
 */
export function readAttributes<const Spec extends ElementSpec>(
  element: Element,
  spec: Spec,
  key: string,
  { positions, report }: ReadContext,
): Attributes<Spec> {
  positions.set(key, element.position);
  for (const [name, { position }] of element.attributes) {
    positions.set(`${key}@${name}`, position);
    if (!Object.hasOwn(spec.attributes, name)) reportUnknownAttribute(name, position, spec, report);
  }
  const values: Record<string, unknown> = {};
  for (const [name, attribute] of Object.entries<AttributeSpec>(spec.attributes)) {
    const written = element.attributes.get(name);
    values[name] = readValue(written?.value.trim() ?? '', attribute);
    if (written !== undefined) {
      checkValue(name, written, attribute, report);
      if (attribute.refers !== undefined) {
        const kind = attribute.refers;
        for (const word of splitWords(written.value)) positions.addName({ kind, name: word, key: `${key}@${name}` });
      }
    } else if (attribute.required === true) {
      report({
        rule: 'missing-attribute',
        position: element.position,
        message: `Unexpected \`<${spec.name}>\` without \`${name}\`, expected ${name}="…".`,
        help: `\`${name}\`: ${attribute.says}${attribute.oneOf === undefined ? '' : `: ${attribute.oneOf.join(', ')}`}.`,
      });
    }
  }
  // The boundary where text gets the type that its table says: readValue goes by the same kinds as ValueOf.
  return values as Attributes<Spec>;
}

function readValue(value: string, { kind }: AttributeSpec): string | number | readonly string[] | Shows | undefined {
  switch (kind) {
    case 'ids':
    case 'words':
    case 'former':
      return splitWords(value);
    case 'shows':
      return Object.fromEntries(
        splitWords(value).map((pair) => {
          const [check = '', outcomes = ''] = pair.split('=');
          return [check, outcomes.split('|')];
        }),
      );
    case 'minutes':
    case 'count':
      return value === '' ? undefined : Number(value);
    default:
      return value === '' ? undefined : value;
  }
}

/** Words of an attribute such as `needs`: separated by spaces, commas, or ` or `. */
export function splitWords(value: string): readonly string[] {
  return value.split(/(?<!\s)\s+or\s+|[\s,]+/).filter((word) => word !== '');
}

function checkValue(name: string, { value, position }: WrittenAttribute, spec: AttributeSpec, report: Report): void {
  const trimmed = value.trim();
  if (trimmed === '') {
    report({
      rule: 'attribute-value',
      position,
      message: `Unexpected empty \`${name}\`, expected ${spec.says}.`,
      help: 'Fill it in, or remove it.',
    });
    return;
  }
  switch (spec.kind) {
    case 'id':
      checkId(name, trimmed, isNamedAfterFile(spec.refers) ? longestSlug : 24, position, report);
      return;
    case 'ids':
    case 'words':
      for (const word of splitWords(trimmed)) {
        if (spec.oneOf === undefined) checkWord(name, word, position, report);
        else checkChoice(name, word, spec.oneOf, position, report);
      }
      return;
    case 'former':
      for (const word of splitWords(trimmed)) checkFormer(name, word, position, report);
      return;
    case 'minutes':
    case 'count':
      checkNumber(name, trimmed, spec.kind, position, report);
      return;
    case 'one-of':
      checkChoice(name, trimmed, spec.oneOf ?? [], position, report);
      return;
    case 'place':
      checkPlace(name, trimmed, position, report);
      return;
    case 'shows':
      for (const pair of splitWords(trimmed)) checkShows(name, pair, position, report);
      return;
    case 'text':
      checkLength(name, trimmed, spec.maxLength ?? 300, position, report);
  }
}

/** What another file is called, and not a node, a stage or a row of a table. */
const isNamedAfterFile = (refers: AttributeSpec['refers']): boolean =>
  refers === 'tree' || refers === 'target' || refers === 'caution' || refers === 'figure';

function checkId(name: string, id: string, longest: number, position: Position, report: Report): void {
  if (!reservedIds.has(id) && (!idPattern.test(id) || id.length > longest)) {
    report({
      rule: 'id-shape',
      position,
      message: `Unexpected ${name} \`${id.slice(0, 40)}\`, expected small letters, digits and single hyphens, at most ${longest} characters.`,
      help: 'For example `reservoir-dry`.',
    });
  } else if (reservedIds.has(id)) {
    report({
      rule: 'id-reserved',
      position,
      message: `Unexpected ${name} \`${id}\`, expected a name that addresses and programs do not use themselves.`,
      help: `Choose another: ${[...reservedIds].join(', ')} are taken.`,
    });
  }
}

function checkWord(name: string, word: string, position: Position, report: Report): void {
  if (idPattern.test(word)) return;
  report({
    rule: 'word-shape',
    position,
    message: `Unexpected \`${word.slice(0, 40)}\` in \`${name}\`, expected words of small letters, digits and hyphens.`,
    help: 'Separate several with spaces.',
  });
}

function checkFormer(name: string, word: string, position: Position, report: Report): void {
  const parts = word.split('/');
  if (parts.length <= 2 && parts.every((part) => idPattern.test(part))) return;
  report({
    rule: 'word-shape',
    position,
    message: `Unexpected \`${word.slice(0, 40)}\` in \`${name}\`, expected an earlier id, or \`tree/id\` of another tree.`,
    help: 'Separate several with spaces.',
  });
}

function checkPlace(name: string, place: string, position: Position, report: Report): void {
  const parts = place.split('/');
  if (parts.length === 2 && parts.every((part) => idPattern.test(part))) return;
  report({
    rule: 'word-shape',
    position,
    message: `Unexpected \`${place.slice(0, 60)}\` in \`${name}\`, expected one stage of a path, as \`path/stage\`.`,
    help: 'For example `to-speaker/wiper`.',
  });
}

function checkNumber(name: string, value: string, kind: 'minutes' | 'count', position: Position, report: Report): void {
  const pattern = kind === 'count' ? /^[1-9]\d{0,2}$/ : /^(\d{1,4}|\d{0,4}\.\d{1,2})$/;
  if (pattern.test(value) && (kind === 'count' || Number(value) > 0)) return;
  report({
    rule: 'number-shape',
    position,
    message: `Unexpected \`${value.slice(0, 40)}\` in \`${name}\`, expected ${kind === 'count' ? 'a whole number from 1' : 'minutes as a plain number above 0'}.`,
    help: `For example ${name}="3".`,
  });
}

function checkChoice(
  name: string,
  value: string,
  choices: readonly string[],
  position: Position,
  report: Report,
): void {
  if (choices.includes(value)) return;
  report({
    rule: 'attribute-choice',
    position,
    message: `Unexpected ${name} \`${value.slice(0, 40)}\`, expected ${choices.map((choice) => `\`${choice}\``).join(' or ')}.`,
    help: `Choose one of them.${suggestName(value, choices)}`,
  });
}

function checkShows(name: string, pair: string, position: Position, report: Report): void {
  const [check = '', outcomes = '', ...rest] = pair.split('=');
  if (rest.length === 0 && idPattern.test(check) && outcomes.split('|').every((word) => idPattern.test(word))) return;
  report({
    rule: 'shows-shape',
    position,
    message: `Unexpected \`${pair.slice(0, 40)}\` in \`${name}\`, expected check=outcome or check=one|other.`,
    help: 'For example shows="tone-at-pot=in cap-heat=warm|hot".',
  });
}

function checkLength(name: string, value: string, maxLength: number, position: Position, report: Report): void {
  if (value.length <= maxLength) return;
  report({
    rule: 'text-length',
    position,
    message: `Unexpected ${value.length} characters in \`${name}\`, expected at most ${maxLength}.`,
    help: 'Shorten it; the detail belongs in the prose.',
  });
}

function reportUnknownAttribute(name: string, position: Position, spec: ElementSpec, report: Report): void {
  const known = Object.keys(spec.attributes);
  report({
    rule: 'unknown-attribute',
    position,
    message: `Unexpected attribute \`${name}\` on \`<${spec.name}>\`, expected ${known.map((word) => `\`${word}\``).join(', ')}.`,
    help: `Remove or rename it.${suggestName(name, known)}`,
  });
}
