import type { ExplainedMessage } from './rules/all.ts';
import { makeVisible } from './inspect-text.ts';
import type { Position } from './position.ts';
import type { Problem } from './problem.ts';
import { readerMessages } from './reader-messages.ts';

/** A problem with everything that comes from a file made visible; for every reporter. */
export function makeProblemVisible(problem: Problem): Problem {
  const { file, message, help, other } = problem;
  return {
    ...problem,
    file: makeVisible(file),
    message: makeVisible(message),
    help: makeVisible(help),
    ...(other === undefined
      ? {}
      : { other: { ...other, file: makeVisible(other.file), says: makeVisible(other.says) } }),
  };
}

/** One problem as text: `file:line:column severity message`, the way out, and the rule's id. */
export function printProblem(problem: Problem): string {
  const { file, position, severity, message, help, rule, other } = makeProblemVisible(problem);
  const place = position === 'unavailable' ? file : `${file}:${position.line}:${position.column}`;
  const seeAlso =
    other === undefined
      ? ''
      : `\n  see ${other.file}${other.position === 'unavailable' ? '' : `:${other.position.line}:${other.position.column}`} (${other.says})`;
  return `${place} ${severity} ${message}\n  ${help} [${rule}]${seeAlso}`;
}

/** All problems and a closing count; where a file could not be read to its end, that its rules are still to come. */
export function printProblems(problems: readonly Problem[]): string {
  const errors = problems.filter(({ severity }) => severity === 'error').length;
  const warnings = problems.length - errors;
  const count = `${errors} ${errors === 1 ? 'error' : 'errors'}, ${warnings} ${warnings === 1 ? 'warning' : 'warnings'}`;
  const isUnread = problems.some(({ severity, rule }) => severity === 'error' && Object.hasOwn(readerMessages, rule));
  const more = isUnread ? '; the rules look at a file once it can be read: fix these and check again' : '';
  return [...problems.map(printProblem), `${count}${more}`].join('\n');
}

/**
 * Problems as workflow commands, one a line, which a runner shows as annotations beside the lines of a pull request:
 * `::error file=…,line=…,col=…,title=…::message`. The data of a command must not hold line breaks or a bare per cent sign, its
 * properties neither colons nor commas (documented workflow command syntax; how they are escaped is from memory of the runner's toolkit).
 */
export function printAnnotations(problems: readonly Problem[]): string {
  return problems.map(printAnnotation).join('\n');
}

function printAnnotation(problem: Problem): string {
  const { file, position, severity, rule, message, help, other } = makeProblemVisible(problem);
  const place = position === 'unavailable' ? [] : [`line=${position.line}`, `col=${position.column}`];
  const properties = [`file=${escapeProperty(file)}`, ...place, `title=${escapeProperty(rule)}`].join(',');
  const seeAlso = other === undefined ? '' : `\nsee ${other.file}${placeOf(other.position)} (${other.says})`;
  return `::${severity} ${properties}::${escapeData(`${message}\n${help}${seeAlso}`)}`;
}

function placeOf(position: Problem['position']): string {
  return position === 'unavailable' ? '' : `:${position.line}:${position.column}`;
}

function escapeData(text: string): string {
  return text.replaceAll('%', '%25').replaceAll('\r', '%0D').replaceAll('\n', '%0A');
}

function escapeProperty(text: string): string {
  return escapeData(text).replaceAll(':', '%3A').replaceAll(',', '%2C');
}

/** A problem as programs read it; a place that is not known is null. */
export interface JsonProblem {
  readonly file: string;
  readonly line: number | null;
  readonly column: number | null;
  readonly severity: Problem['severity'];
  readonly rule: string;
  readonly message: string;
  readonly help: string;
  readonly other?: {
    readonly file: string;
    readonly line: number | null;
    readonly column: number | null;
    readonly says: string;
  };
}

/** All problems as one JSON document: `{ errors, warnings, problems }`, in the order of files and lines. */
export function printJson(problems: readonly Problem[]): string {
  const errors = problems.filter(({ severity }) => severity === 'error').length;
  const document = { errors, warnings: problems.length - errors, problems: problems.map(toJson) };
  return escapeUnseen(JSON.stringify(document, undefined, 2));
}

/** JSON on a terminal: what is not seen is written as an escape that a program reads back (RFC 8259, section 7). */
function escapeUnseen(json: string): string {
  return json.replace(/(?!\n)[\p{C}\p{Zl}\p{Zp}\p{Default_Ignorable_Code_Point}]/gu, (character) =>
    [...Array(character.length).keys()]
      .map((index) => `\\u${character.charCodeAt(index).toString(16).padStart(4, '0')}`)
      .join(''),
  );
}

function toJson({ file, position, severity, rule, message, help, other }: Problem): JsonProblem {
  return {
    file,
    ...toPlace(position),
    severity,
    rule,
    message,
    help,
    ...(other === undefined ? {} : { other: { file: other.file, ...toPlace(other.position), says: other.says } }),
  };
}

function toPlace(position: Position): { readonly line: number | null; readonly column: number | null } {
  return position === 'unavailable' ? { line: null, column: null } : { line: position.line, column: position.column };
}

/** One explanation for the terminal: what is asked for, why, a wrong and a right example. */
export function printExplanation(message: ExplainedMessage): string {
  const { id, group, severity, says, why, all = [] } = message;
  return [
    `${id}: ${says}`,
    why,
    ...all.map((line) => `- ${line}`),
    '',
    printExamples(message),
    '',
    `${severity === 'error' ? 'An error: it stops the build' : 'A warning: judge for yourself'}. Group: ${group}.`,
  ].join('\n');
}

/** The wrong and the right example, each indented below its word. */
export function printExamples({ wrong, right, from }: Pick<ExplainedMessage, 'wrong' | 'right' | 'from'>): string {
  const place = from === undefined ? '' : ` (from ${from})`;
  return [`Wrong${place}:`, indent(wrong), `Right${place}:`, indent(right)].join('\n');
}

function indent(example: string): string {
  return example
    .split('\n')
    .map((line) => (line === '' ? '' : `  ${line}`))
    .join('\n');
}
