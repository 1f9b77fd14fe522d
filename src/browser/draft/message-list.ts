import type { Problem } from '#compiler/problem.ts';
import { makeElement } from '../kit/elements.ts';

/** So many are shown; the rest are counted. Mending the first ones often mends them. */
const most = 100;

/** Fills the list below the editor: each problem with its line, its severity in words, the way out and its rule. */
export function fillMessageList(
  list: HTMLElement,
  problems: readonly Problem[],
  goTo: (line: number, column: number) => void,
): void {
  const items = problems.slice(0, most).map((problem) => makeMessage(problem, goTo));
  const rest = problems.length - items.length;
  list.replaceChildren(...items, ...(rest > 0 ? [makeElement('li', { class: 'rest' }, `And ${rest} more.`)] : []));
}

function makeMessage(problem: Problem, goTo: (line: number, column: number) => void): HTMLElement {
  const { severity, position, message, help, rule, other } = problem;
  const place = makeElement('button', { class: 'place' });
  place.type = 'button';
  const { line, column } = position === 'unavailable' ? { line: 1, column: 1 } : position;
  place.textContent = position === 'unavailable' ? 'The file' : `Line ${line}`;
  place.addEventListener('click', () => goTo(line, column));
  const words = severity === 'error' ? 'Error' : 'Warning';
  const item = makeElement(
    'li',
    { class: severity },
    place,
    ' ',
    makeElement('strong', { class: 'severity' }, `${words}.`),
    ` ${message} `,
    makeElement('span', { class: 'help' }, help),
    ' ',
    makeElement('code', { class: 'rule' }, rule),
  );
  if (other !== undefined) {
    const at = other.position === 'unavailable' ? other.file : `${other.file}, line ${other.position.line}`;
    item.append(makeElement('span', { class: 'help' }, ` See ${at} (${other.says}).`));
  }
  return item;
}

/** `2 errors, 1 warning`, or that there is nothing to mend. */
export function countProblems(problems: readonly Problem[]): string {
  if (problems.length === 0) return 'Nothing to mend: this tree would pass the check.';
  const errors = problems.filter(({ severity }) => severity === 'error').length;
  const warnings = problems.length - errors;
  const count = (number: number, word: string): string => `${number} ${word}${number === 1 ? '' : 's'}`;
  return [errors > 0 ? count(errors, 'error') : '', warnings > 0 ? count(warnings, 'warning') : '']
    .filter((text) => text !== '')
    .join(', ');
}
