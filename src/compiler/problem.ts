import type { Position, Positions } from './position.ts';
import type { ReaderMessageId } from './reader-messages.ts';

export type ProblemSeverity = 'error' | 'warning';

/** Something wrong in a content file, as data; reporters turn it into text. */
export interface Problem {
  /** Id of the rule that found it, in plain words: `unknown-target`. */
  readonly rule: string;
  readonly severity: ProblemSeverity;
  /** Path of the file from the project's root. */
  readonly file: string;
  readonly position: Position;
  /** "Unexpected X, expected Y." */
  readonly message: string;
  /** How to mend it. */
  readonly help: string;
  /** The other place concerned, where there are two. */
  readonly other?: { readonly file: string; readonly position: Position; readonly says: string };
}

/** What a finder of problems says; file and severity are added where it is collected. */
export interface Finding {
  readonly rule: ReaderMessageId;
  readonly position: Position;
  readonly message: string;
  readonly help: string;
  readonly severity?: ProblemSeverity;
  readonly other?: { readonly file: string; readonly position: Position; readonly says: string };
}

export type Report = (finding: Finding) => void;

/** A report that files every finding under `file`, with `error` as the default severity. */
export function collectInto(problems: Problem[], file: string): Report {
  return (finding) => problems.push({ severity: 'error', file, ...finding });
}

/** The order problems are shown in: by file, then from the top of it down. */
export function compareProblems(a: Problem, b: Problem): number {
  return a.file.localeCompare(b.file, 'en') || lineOf(a) - lineOf(b) || columnOf(a) - columnOf(b);
}

function lineOf({ position }: Problem): number {
  return position === 'unavailable' ? 0 : position.line;
}

function columnOf({ position }: Problem): number {
  return position === 'unavailable' ? 0 : position.column;
}

/** What every reader of a file is given: where to file positions and names, and problems. */
export interface ReadContext {
  readonly positions: Positions;
  readonly report: Report;
}
