import { createFieldReader, describe, type FieldReader } from './field-reader.ts';
import { failUnknownId, readEvidence } from './read-evidence.ts';
import { readPath } from './read-path.ts';
import {
  defaultGiveUpMinutes,
  mostCauses,
  mostChecks,
  mostOutcomes,
  mostSetups,
  type DiagnosisProblem,
  type PathProblem,
  type ProblemCause,
  type ProblemCheck,
  type ProblemSetup,
} from './problem.ts';
import type { ProblemMessage } from './problem-message.ts';

/** Two thousand years: more minutes are a slip of the keyboard, and would drown the rest in rounding. */
const mostMinutes = 1e9;
/** Only ratios of weights matter, so the scale is free; this keeps their sum within what a number holds. */
const mostWeight = 1e100;
/** A row of probabilities typed with two decimals may be this far from one; it is scaled and noted. */
const rowSumTolerance = 0.02;
/** A sum this near to one is one but for the rounding of the arithmetic. */
const rounding = 1e-9;

export type ReadProblemResult =
  | {
      readonly kind: 'read';
      readonly problem: DiagnosisProblem | PathProblem;
      readonly notes: readonly ProblemMessage[];
    }
  | { readonly kind: 'refused'; readonly messages: readonly ProblemMessage[] };

/**
 * Reads a diagnosis problem or a signal path from parsed JSON, as public/data/schema/plan-problem.json describes it.
 * All messages are collected; nothing is thrown whatever the value is.
 * Rows of probabilities within 0.02 of one are scaled to one with a note, others are refused.
 * @example readProblem({ causes: [{ id: 'a', weight: 1 }], checks: [], goal: 'isolate' }).kind // 'read'
 */
export function readProblem(value: unknown): ReadProblemResult {
  const reader = createFieldReader();
  const file = reader.readObject(value, '');
  const problem =
    file === undefined
      ? undefined
      : 'stages' in file || 'probes' in file
        ? readPath(file, reader)
        : readBareProblem(file, reader);
  const hasErrors = reader.messages.some((message) => message.kind === 'error');
  if (problem === undefined || hasErrors) return { kind: 'refused', messages: reader.messages };
  return { kind: 'read', problem, notes: reader.messages };
}

/** Reads a problem from the text of a file; text that is not JSON is refused with the parser's reason. */
export function readProblemText(text: string): ReadProblemResult {
  let value: unknown;
  try {
    value = JSON.parse(text);
  } catch (error) {
    const reason = error instanceof Error ? error.message : 'it ends too soon';
    return {
      kind: 'refused',
      messages: [{ kind: 'error', where: '', text: `Unexpected text, expected JSON: ${reason}` }],
    };
  }
  return readProblem(value);
}

function readBareProblem(file: Readonly<Record<string, unknown>>, reader: FieldReader): DiagnosisProblem {
  reader.noteOtherKeys(file, '', [
    'causes',
    'checks',
    'setups',
    'goal',
    'proveMinutes',
    'giveUpMinutes',
    'evidence',
    '$schema',
  ]);
  const setups = readSetups(file['setups'], reader);
  const setupIds = setups.map((setup) => setup.id);
  const causes = readCauses(file['causes'], reader, setupIds);
  const checks = readChecks(file['checks'], reader, setupIds, causes.length);
  const goal = file['goal'];
  if (goal !== 'isolate' && goal !== 'repair')
    reader.fail('goal', `Unexpected ${describe(goal)}, expected \`isolate\` or \`repair\``);
  return {
    kind: 'problem',
    causes,
    checks,
    setups,
    goal: goal === 'repair' ? 'repair' : 'isolate',
    proveMinutes: reader.readNumber(file['proveMinutes'], 'proveMinutes', {
      lowest: 0,
      highest: mostMinutes,
      fallback: 0,
    }),
    giveUpMinutes: reader.readNumber(file['giveUpMinutes'], 'giveUpMinutes', {
      lowest: 0,
      highest: mostMinutes,
      fallback: defaultGiveUpMinutes,
    }),
    evidence: readEvidence(file['evidence'], reader, causes, checks),
  };
}

function readSetups(value: unknown, reader: FieldReader): readonly ProblemSetup[] {
  const setups = reader.readList(value, 'setups', 0, mostSetups).flatMap((item, index) => {
    const where = `setups[${index}]`;
    const fields = reader.readObject(item, where);
    if (fields === undefined) return [];
    reader.noteOtherKeys(fields, where, ['id', 'minutes']);
    return [
      {
        id: reader.readText(fields['id'], `${where}.id`),
        minutes: readMinutes(fields['minutes'], `${where}.minutes`, reader),
      },
    ];
  });
  failRepeatedIds(setups, 'setups', reader);
  return setups;
}

function readCauses(value: unknown, reader: FieldReader, setupIds: readonly string[]): readonly ProblemCause[] {
  const causes = reader.readList(value, 'causes', 1, mostCauses).map((item, index): ProblemCause => {
    const where = `causes[${index}]`;
    const fields = reader.readObject(item, where) ?? {};
    reader.noteOtherKeys(fields, where, ['id', 'weight', 'repairMinutes', 'repairSuccess', 'repairSetup']);
    return {
      id: reader.readText(fields['id'], `${where}.id`),
      weight: reader.readNumber(fields['weight'], `${where}.weight`, { lowest: 0, highest: mostWeight }),
      repairMinutes:
        fields['repairMinutes'] === undefined
          ? undefined
          : readMinutes(fields['repairMinutes'], `${where}.repairMinutes`, reader),
      repairSuccess: reader.readNumber(fields['repairSuccess'], `${where}.repairSuccess`, {
        lowest: 0,
        highest: 1,
        fallback: 1,
      }),
      repairSetup: readSetupIds(fields['repairSetup'], `${where}.repairSetup`, reader, setupIds),
    };
  });
  failRepeatedIds(causes, 'causes', reader);
  const hasNoWeight = causes.length > 0 && causes.every((cause) => cause.weight === 0);
  if (hasNoWeight && !reader.messages.some((message) => message.where.endsWith('.weight'))) {
    reader.fail('causes', 'Unexpected weight 0 for every cause, expected at least one above 0');
  }
  return causes;
}

function readChecks(
  value: unknown,
  reader: FieldReader,
  setupIds: readonly string[],
  causeCount: number,
): readonly ProblemCheck[] {
  const checks = reader.readList(value, 'checks', 0, mostChecks).map((item, index): ProblemCheck => {
    const where = `checks[${index}]`;
    const fields = reader.readObject(item, where) ?? {};
    reader.noteOtherKeys(fields, where, ['id', 'minutes', 'setup', 'outcomes', 'likelihood']);
    const outcomes = reader
      .readList(fields['outcomes'], `${where}.outcomes`, 1, mostOutcomes)
      .map((outcome, place) => reader.readText(outcome, `${where}.outcomes[${place}]`));
    failRepeatedIds(
      outcomes.map((id) => ({ id })),
      `${where}.outcomes`,
      reader,
    );
    return {
      id: reader.readText(fields['id'], `${where}.id`),
      minutes: readMinutes(fields['minutes'], `${where}.minutes`, reader),
      setup: readSetupIds(fields['setup'], `${where}.setup`, reader, setupIds),
      outcomes,
      likelihood: readRows(fields['likelihood'], `${where}.likelihood`, reader, causeCount, outcomes.length),
    };
  });
  failRepeatedIds(checks, 'checks', reader);
  return checks;
}

function readRows(
  value: unknown,
  where: string,
  reader: FieldReader,
  rowCount: number,
  outcomeCount: number,
): readonly (readonly number[])[] {
  const rows = reader.readList(value, where, 0, mostCauses);
  if (rows.length !== rowCount)
    reader.fail(where, `Unexpected ${rows.length} rows, expected ${rowCount}: one for each cause, in the same order`);
  return rows.map((row, index) => {
    const place = `${where}[${index}]`;
    const numbers = reader.readList(row, place, 0, mostOutcomes);
    const probabilities = numbers.map((number, column) =>
      reader.readNumber(number, `${place}[${column}]`, { lowest: 0, highest: 1 + rounding }),
    );
    if (probabilities.length !== outcomeCount) {
      reader.fail(
        place,
        `Unexpected ${probabilities.length} probabilities, expected ${outcomeCount}: one for each outcome`,
      );
      return probabilities;
    }
    const sum = probabilities.reduce((total, probability) => total + probability, 0);
    if (Math.abs(sum - 1) <= rounding) return probabilities;
    const shown = Number(sum.toPrecision(6));
    if (!(Math.abs(sum - 1) <= rowSumTolerance)) {
      reader.fail(place, `Unexpected row that sums to ${shown}, expected 1: every check comes out one way or another`);
      return probabilities;
    }
    reader.note(place, `Unexpected row that sums to ${shown}, expected 1; the row was scaled`);
    return probabilities.map((probability) => probability / sum);
  });
}

function readSetupIds(
  value: unknown,
  where: string,
  reader: FieldReader,
  setupIds: readonly string[],
): readonly string[] {
  return reader.readList(value, where, 0, mostSetups).map((item, index) => {
    const id = reader.readText(item, `${where}[${index}]`);
    failUnknownId(
      id,
      setupIds.map((known) => ({ id: known })),
      `${where}[${index}]`,
      reader,
    );
    return id;
  });
}

function readMinutes(value: unknown, where: string, reader: FieldReader): number {
  return reader.readNumber(value, where, { lowest: 0, highest: mostMinutes });
}

/** Ids name things, so each may stand for one thing only. */
function failRepeatedIds(items: readonly { readonly id: string }[], where: string, reader: FieldReader): void {
  const seen = new Set<string>();
  for (const { id } of items) {
    if (id !== '' && seen.has(id))
      reader.fail(where, `Unexpected second ${describe(id)}, expected a name of its own for each`);
    seen.add(id);
  }
}
