import { makeVisible } from '../inspect-text.ts';
import type { Problem } from '../problem.ts';
import { readerMessages } from '../reader-messages.ts';

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
  const more = isUnread ? '; the rules look at a file once it can be read: mend these and check again' : '';
  return [...problems.map(printProblem), `${count}${more}`].join('\n');
}
