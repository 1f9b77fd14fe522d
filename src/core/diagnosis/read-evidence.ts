import { describe, type FieldReader, listNames } from './field-reader.ts';
import {
  type Evidence,
  mostCauses,
  mostChecks,
  mostOutcomes,
  type ProblemCause,
  type ProblemCheck,
} from './problem.ts';

/** A likelihood may be on any scale: a ratio to another is all that counts. */
const mostLikelihood = 1e100;

/** Reads the evidence of a problem file; messages go to the reader. Called by readProblem. */
export function readEvidence(
  value: unknown,
  reader: FieldReader,
  causes: readonly ProblemCause[],
  checks: readonly ProblemCheck[],
): readonly Evidence[] {
  return reader.readList(value, 'evidence', 0, mostChecks + mostCauses).flatMap((item, index): readonly Evidence[] => {
    const where = `evidence[${index}]`;
    const fields = reader.readObject(item, where);
    if (fields === undefined) return [];
    reader.noteOtherKeys(fields, where, ['check', 'outcome', 'likelihood', 'repaired']);
    if (fields['repaired'] !== undefined) {
      const cause = reader.readText(fields['repaired'], `${where}.repaired`);
      failUnknownId(cause, causes, `${where}.repaired`, reader);
      return [{ kind: 'repaired', cause }];
    }
    const checkId = reader.readText(fields['check'], `${where}.check`);
    failUnknownId(checkId, checks, `${where}.check`, reader);
    const check = checks.find((candidate) => candidate.id === checkId);
    if (check === undefined) return [];
    if (fields['likelihood'] === undefined) {
      const outcome = reader.readText(fields['outcome'], `${where}.outcome`);
      failUnknownId(
        outcome,
        check.outcomes.map((id) => ({ id })),
        `${where}.outcome`,
        reader,
      );
      return [{ kind: 'outcome', check: checkId, outcome }];
    }
    if (fields['outcome'] !== undefined)
      reader.fail(where, 'Unexpected `outcome` beside `likelihood`, expected one of the two');
    const likelihood = reader
      .readList(fields['likelihood'], `${where}.likelihood`, 1, mostOutcomes)
      .map((number, place) =>
        reader.readNumber(number, `${where}.likelihood[${place}]`, { lowest: 0, highest: mostLikelihood }),
      );
    if (likelihood.length !== check.outcomes.length) {
      reader.fail(
        `${where}.likelihood`,
        `Unexpected ${likelihood.length} numbers, expected ${check.outcomes.length}: one for each outcome of \`${checkId}\``,
      );
    } else if (likelihood.every((number) => number === 0)) {
      reader.fail(
        `${where}.likelihood`,
        'Unexpected zeros only, expected at least one outcome that agrees with the reading',
      );
    }
    return [{ kind: 'reading', check: checkId, likelihood }];
  });
}

/** Says which names there are where a name stands for nothing. */
export function failUnknownId(
  id: string,
  known: readonly { readonly id: string }[],
  where: string,
  reader: FieldReader,
): void {
  if (id === '' || known.some((item) => item.id === id)) return;
  reader.fail(
    where,
    `Unexpected ${describe(id)}, expected ${known.length === 0 ? 'none: the file lists none' : listNames(known.map((item) => item.id))}`,
  );
}
