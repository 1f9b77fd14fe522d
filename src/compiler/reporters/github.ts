import type { Problem } from '../problem.ts';
import { makeProblemVisible } from './terminal.ts';

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
