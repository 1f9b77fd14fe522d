import type { Position } from '../position.ts';
import type { Problem } from '../problem.ts';

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
