/** Something about a problem file that its author should know. */
export interface ProblemMessage {
  /** An `error` leaves no problem to plan; a `note` says what was assumed. */
  readonly kind: 'error' | 'note';
  /** Where in the file, as `checks[2].likelihood[0]`; empty for the file as a whole. */
  readonly where: string;
  /** One sentence: what was found, what was expected, how to mend it. */
  readonly text: string;
}

/**
 * Prints a message on one line.
 * @example printProblemMessage({ kind: 'error', where: 'goal', text: 'Unexpected `fix`, expected `isolate` or `repair`' })
 * // 'error at goal: Unexpected `fix`, expected `isolate` or `repair`'
 */
export function printProblemMessage(message: ProblemMessage): string {
  return message.where === ''
    ? `${message.kind}: ${message.text}`
    : `${message.kind} at ${message.where}: ${message.text}`;
}
