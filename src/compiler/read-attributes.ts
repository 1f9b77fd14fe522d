import type { AttributeSpec, ElementSpec } from './attribute-spec.ts';
import type { Element, WrittenAttribute } from './element.ts';
import { suggestName } from './nearest-name.ts';
import type { Position, Positions } from './position.ts';
import type { Report } from './problem.ts';

/** Not the names that every object of JavaScript has: something looked up by them would be found where nobody wrote it. */
export const idPattern: RegExp = /^(?!(?:constructor|prototype)$)[a-z0-9]+(-[a-z0-9]+)*$/;
const reservedIds: ReadonlySet<string> = new Set([
  ...['unit', 'with', 'did', 'in', 'symptom', 'end', 'ask', 'not-listed', 'rework', 'unseen', 'all'],
  ...['low', 'high', 'none', 'reversed', 'sometimes'],
  ...['constructor', 'prototype'],
]);

/** Attributes of one element, read by name. A missing or bad value has been reported; the getter then answers a harmless one. */
export interface Attributes {
  text(name: string): string;
  optionalText(name: string): string | undefined;
  words(name: string): readonly string[];
  number(name: string): number;
  optionalNumber(name: string): number | undefined;
  oneOf<Choice extends string>(name: string, choices: readonly Choice[], fallback: Choice): Choice;
  shows(name: string): Readonly<Record<string, readonly string[]>>;
}

/** Checks an element against its table and files the position of every attribute under `key@name`. */
export function readAttributes(
  element: Element,
  spec: ElementSpec,
  key: string,
  positions: Positions,
  report: Report,
): Attributes {
  positions.set(key, element.position);
  for (const [name, attribute] of element.attributes) {
    positions.set(`${key}@${name}`, attribute.position);
    const attributeSpec = Object.hasOwn(spec.attributes, name) ? spec.attributes[name] : undefined;
    if (attributeSpec === undefined) reportUnknownAttribute(name, attribute.position, spec, report);
    else checkValue(name, attribute, attributeSpec, report);
  }
  for (const [name, attributeSpec] of Object.entries(spec.attributes)) {
    if (attributeSpec.required === true && !element.attributes.has(name)) {
      report({
        rule: 'missing-attribute',
        position: element.position,
        message: `Unexpected \`<${spec.name}>\` without \`${name}\`, expected ${name}="…".`,
        help: `\`${name}\`: ${attributeSpec.says}${listChoices(attributeSpec)}.`,
      });
    }
  }
  return makeGetters(element.attributes);
}

function listChoices({ oneOf }: AttributeSpec): string {
  return oneOf === undefined ? '' : `: ${oneOf.join(', ')}`;
}

function makeGetters(written: ReadonlyMap<string, WrittenAttribute>): Attributes {
  const textOf = (name: string): string | undefined => written.get(name)?.value.trim();
  const numberOf = (name: string): number | undefined => {
    const value = textOf(name);
    return value === undefined || value === '' || Number.isNaN(Number(value)) ? undefined : Number(value);
  };
  return {
    text: (name) => textOf(name) ?? '',
    optionalText: textOf,
    words: (name) => splitWords(textOf(name) ?? ''),
    number: (name) => numberOf(name) ?? 0,
    optionalNumber: numberOf,
    oneOf: (name, choices, fallback) => choices.find((choice) => choice === textOf(name)) ?? fallback,
    shows: (name) =>
      Object.fromEntries(
        splitWords(textOf(name) ?? '').map((pair) => {
          const [check = '', outcomes = ''] = pair.split('=');
          return [check, outcomes.split('|')];
        }),
      ),
  };
}

/** Words of an attribute such as `needs`: separated by spaces, commas, or ` or `. */
export function splitWords(value: string): readonly string[] {
  return value.split(/\s+or\s+|[\s,]+/).filter((word) => word !== '');
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
      checkId(name, trimmed, position, report);
      return;
    case 'ids':
    case 'words':
    case 'instruments':
      for (const word of splitWords(trimmed)) checkWord(name, word, position, report);
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
    case 'shows':
      for (const pair of splitWords(trimmed)) checkShows(name, pair, position, report);
      return;
    case 'text':
      checkLength(name, trimmed, spec.maxLength ?? 300, position, report);
  }
}

function checkId(name: string, id: string, position: Position, report: Report): void {
  if (!reservedIds.has(id) && (!idPattern.test(id) || id.length > 24)) {
    report({
      rule: 'id-shape',
      position,
      message: `Unexpected ${name} \`${id.slice(0, 40)}\`, expected small letters, digits and single hyphens, at most 24 characters.`,
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
