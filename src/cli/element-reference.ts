import type { AttributeSpec, ElementSpec } from '#compiler/attribute-spec.ts';
import { elementSpecs } from '#compiler/elements/all.ts';

const proseWords: Readonly<Record<ElementSpec['prose'], string>> = {
  required: 'Words: required',
  allowed: 'Words: allowed',
  none: 'Words: none, attributes only',
};

/** The element reference as Markdown, made from the tables that the compiler reads by. */
export function printElementReference(): string {
  return elementSpecs.map(printElement).join('\n\n');
}

function printElement({ name, says, attributes, children, prose }: ElementSpec): string {
  const rows = Object.entries(attributes).map(([attribute, spec]) => printRow(attribute, spec));
  const table = rows.length === 0 ? [] : ['', '| attribute | | holds |', '| --- | --- | --- |', ...rows];
  const inside = children.length === 0 ? '' : ` Inside: ${children.map((child) => `\`${child}\``).join(', ')}.`;
  return [`#### ${name}`, '', `\`<${name}>\`: ${says}. ${proseWords[prose]}.${inside}`, ...table].join('\n');
}

function printRow(name: string, spec: AttributeSpec): string {
  return `| \`${name}\` | ${spec.required === true ? 'required' : ''} | ${escapeBars(`${spec.says}${describeShape(spec)}`)} |`;
}

function describeShape({ kind, oneOf, maxLength }: AttributeSpec): string {
  if (oneOf !== undefined) return `: ${oneOf.map((choice) => `\`${choice}\``).join(', ')}`;
  if (maxLength !== undefined) return `; at most ${maxLength} characters`;
  return kind === 'count' ? '; a whole number' : '';
}

/** A bar would end the cell of the table. */
function escapeBars(text: string): string {
  return text.replaceAll('|', '\\|');
}
