import * as v from 'valibot';
import { isRecord } from '../model/read-record.ts';
import { planPath } from './plan-path.ts';
import { type Plan, type PlanOptions, planProblem } from './plan-problem.ts';
import {
  type DiagnosisProblem,
  type Evidence,
  type PathFile,
  type PathProblem,
  pathSchema,
  type ProblemFile,
  problemSchema,
} from './problem.ts';

/** Something about a problem file that its author should know. */
export interface ProblemMessage {
  /** An `error` leaves no problem to plan; a `note` says what was assumed. */
  readonly kind: 'error' | 'note';
  /** Where in the file, as `checks[2].likelihood[0]`; empty for the file as a whole. */
  readonly where: string;
  /** One sentence: what was found, what was expected, how to fix it. */
  readonly text: string;
}

export type ReadProblemResult =
  | {
      readonly kind: 'read';
      readonly problem: DiagnosisProblem | PathProblem;
      readonly notes: readonly ProblemMessage[];
    }
  | { readonly kind: 'refused'; readonly messages: readonly ProblemMessage[] };

export type PlanFileResult =
  | { readonly kind: 'plan'; readonly plan: Plan; readonly notes: readonly ProblemMessage[] }
  | { readonly kind: 'refused'; readonly messages: readonly ProblemMessage[] };

/** A row of probabilities typed with two decimals may be this far from one; it is scaled and noted. */
const rowSumTolerance = 0.02;
/** A sum this near to one is one but for the rounding of the arithmetic. */
const rounding = 1e-9;

/**
 * Reads a diagnosis problem or a signal path from parsed JSON, as problem.ts describes it; a file with stages or probes is a path.
 * All messages about its form are collected, then all about its sense; nothing is thrown whatever the value is.
 * Rows of probabilities within 0.02 of one are scaled to one with a note, others are refused.
 * @example readProblem({ causes: [{ id: 'a', weight: 1 }], checks: [], goal: 'isolate' }).kind // 'read'
 */
export function readProblem(value: unknown): ReadProblemResult {
  const isPath = isRecord(value) && ('stages' in value || 'probes' in value);
  const messages: ProblemMessage[] = [];
  const say = (kind: ProblemMessage['kind'], where: string, text: string): void =>
    void messages.push({ kind, where, text });
  const parsed = isPath ? v.safeParse(pathSchema, value) : v.safeParse(problemSchema, value);
  if (!parsed.success) return { kind: 'refused', messages: parsed.issues.map(toMessage) };
  for (const where of listUnreadKeys(value, parsed.output, ''))
    say('note', where, 'Unexpected key, nothing reads it; look for a slip of the pen');
  const problem = 'stages' in parsed.output ? readPath(parsed.output, say) : readChecked(parsed.output, say);
  if (messages.some(({ kind }) => kind === 'error')) return { kind: 'refused', messages };
  return { kind: 'read', problem, notes: messages };
}

/** Reads a problem from the text of a file; text that is not JSON is refused with the parser's reason. */
export function readProblemText(text: string): ReadProblemResult {
  try {
    return readProblem(JSON.parse(text));
  } catch (error) {
    const reason = error instanceof Error ? error.message : 'it ends too soon';
    return {
      kind: 'refused',
      messages: [{ kind: 'error', where: '', text: `Unexpected text, expected JSON: ${reason}` }],
    };
  }
}

/** Plans what readProblem read, a problem or a signal path, in one shape for both; what was refused stays refused. */
export function planFile(read: ReadProblemResult, options: PlanOptions = {}): PlanFileResult {
  if (read.kind === 'refused') return read;
  const { problem, notes } = read;
  const refuse = (text: string): PlanFileResult => ({
    kind: 'refused',
    messages: [...notes, { kind: 'error', where: 'evidence', text }],
  });
  if (problem.kind === 'problem') {
    const result = planProblem(problem, options);
    return result.kind === 'plan' ? { ...result, notes } : refuse(result.contradiction.text);
  }
  const result = planPath(problem);
  if (result.kind === 'contradiction') return refuse(result.text);
  const { probabilities, nextProbe, expectedMinutes, worstMinutes, groups } = result.plan;
  const nameStage = (stage: number): string => problem.stages[stage]?.id ?? '';
  return {
    kind: 'plan',
    notes,
    plan: {
      posterior: problem.stages.map((stage, index) => ({ id: stage.id, probability: probabilities[index] ?? 0 })),
      next: nextProbe === undefined ? null : { probe: nextProbe },
      expectedMinutes,
      exact: true,
      atLeast: expectedMinutes,
      atMost: expectedMinutes,
      worstMinutes,
      groups: groups.map((group) => group.map(nameStage)),
    },
  };
}

/**
 * Prints a message on one line.
 * @example printProblemMessage({ kind: 'error', where: 'goal', text: 'Unexpected `fix`, expected `isolate` or `repair`' })
 * // 'error at goal: Unexpected `fix`, expected `isolate` or `repair`'
 */
export function printProblemMessage({ kind, where, text }: ProblemMessage): string {
  return where === '' ? `${kind}: ${text}` : `${kind} at ${where}: ${text}`;
}

type Say = (kind: ProblemMessage['kind'], where: string, text: string) => void;

/** What no form can say: names that stand for something, one name for one thing, rows that sum to one. */
function readChecked(file: ProblemFile, say: Say): DiagnosisProblem {
  const { $schema: _, ...problem } = file;
  const { causes, checks, setups } = problem;
  const nameOf = (items: readonly { readonly id: string }[]): readonly string[] => items.map(({ id }) => id);
  const setupIds = nameOf(setups);
  failRepeated(setupIds, 'setups', say);
  failRepeated(nameOf(causes), 'causes', say);
  failRepeated(nameOf(checks), 'checks', say);
  if (causes.every((cause) => cause.weight === 0))
    say('error', 'causes', 'Unexpected weight 0 for every cause, expected at least one above 0');
  const failUnknownSetups = (ids: readonly string[], where: string): void => {
    for (const [index, id] of ids.entries()) failUnknown(id, setupIds, `${where}[${index}]`, say);
  };
  for (const [index, cause] of causes.entries()) failUnknownSetups(cause.repairSetup, `causes[${index}].repairSetup`);
  return {
    ...problem,
    kind: 'problem',
    checks: checks.map((check, index) => {
      const where = `checks[${index}]`;
      failUnknownSetups(check.setup, `${where}.setup`);
      failRepeated(check.outcomes, `${where}.outcomes`, say);
      const { length } = check.likelihood;
      if (length !== causes.length)
        say(
          'error',
          `${where}.likelihood`,
          `Unexpected ${length} rows, expected ${causes.length}: one for each cause, in the same order`,
        );
      return {
        ...check,
        likelihood: check.likelihood.map((row, cause) =>
          scaleRow(row, check.outcomes.length, `${where}.likelihood[${cause}]`, say),
        ),
      };
    }),
    evidence: problem.evidence.flatMap((item, index) => readEvidence(item, problem, `evidence[${index}]`, say)),
  };
}

function scaleRow(row: readonly number[], outcomeCount: number, where: string, say: Say): readonly number[] {
  if (row.length !== outcomeCount) {
    say('error', where, `Unexpected ${row.length} probabilities, expected ${outcomeCount}: one for each outcome`);
    return row;
  }
  const sum = row.reduce((total, probability) => total + probability, 0);
  if (Math.abs(sum - 1) <= rounding) return row;
  const found = `Unexpected row that sums to ${Number(sum.toPrecision(6))}, expected 1`;
  if (Math.abs(sum - 1) > rowSumTolerance) say('error', where, `${found}: every check comes out one way or another`);
  else say('note', where, `${found}; the row was scaled`);
  return row.map((probability) => probability / sum);
}

function readEvidence(
  { check: checkId, outcome, likelihood, repaired }: ProblemFile['evidence'][number],
  { causes, checks }: Pick<ProblemFile, 'causes' | 'checks'>,
  where: string,
  say: Say,
): readonly Evidence[] {
  const fail = (key: string, text: string): readonly Evidence[] => {
    say('error', `${where}${key}`, text);
    return [];
  };
  if (repaired !== undefined) {
    failUnknown(
      repaired,
      causes.map(({ id }) => id),
      `${where}.repaired`,
      say,
    );
    return [{ kind: 'repaired', cause: repaired }];
  }
  if (checkId === undefined) return fail('', 'Unexpected entry without a name, expected `check` or `repaired`');
  const check = checks.find(({ id }) => id === checkId);
  if (check === undefined) {
    failUnknown(
      checkId,
      checks.map(({ id }) => id),
      `${where}.check`,
      say,
    );
    return [];
  }
  if ((outcome === undefined) === (likelihood === undefined))
    return fail('', 'Unexpected both or none of `outcome` and `likelihood`, expected one of the two');
  if (outcome !== undefined) {
    failUnknown(outcome, check.outcomes, `${where}.outcome`, say);
    return [{ kind: 'outcome', check: checkId, outcome }];
  }
  const numbers = likelihood ?? [];
  if (numbers.length !== check.outcomes.length)
    return fail(
      '.likelihood',
      `Unexpected ${numbers.length} numbers, expected ${check.outcomes.length}: one for each outcome of \`${checkId}\``,
    );
  if (numbers.every((number) => number === 0))
    return fail('.likelihood', 'Unexpected zeros only, expected at least one outcome that agrees with the reading');
  return [{ kind: 'reading', check: checkId, likelihood: numbers }];
}

function readPath({ $schema: _, ...path }: PathFile, say: Say): PathProblem {
  const { stages, probes } = path;
  if (probes.length !== stages.length - 1)
    say(
      'error',
      'probes',
      `Unexpected list of ${probes.length}, expected ${stages.length - 1}: one between each stage and the next`,
    );
  failRepeated(
    stages.map(({ id }) => id),
    'stages',
    say,
  );
  if (stages.every(({ weight }) => weight === 0))
    say('error', 'stages', 'Unexpected weight 0 for every stage, expected at least one above 0');
  return {
    ...path,
    kind: 'path',
    evidence: path.evidence.map(({ probe, outcome, likelihood }, index) => {
      const where = `evidence[${index}]`;
      if (probe >= probes.length)
        say('error', `${where}.probe`, `Unexpected \`${probe}\`, expected a number from 0 to ${probes.length - 1}`);
      if ((outcome === undefined) === (likelihood === undefined))
        say('error', where, 'Unexpected both or none of `outcome` and `likelihood`, expected one of the two');
      const [good = 0, bad = 0] = likelihood ?? (outcome === 'good' ? [1, 0] : [0, 1]);
      if (good === 0 && bad === 0)
        say('error', `${where}.likelihood`, 'Unexpected zeros only, expected good or bad to agree with the reading');
      return { probe, likelihood: [good, bad] };
    }),
  };
}

/** Ids name things, so each may stand for one thing only. */
function failRepeated(ids: readonly string[], where: string, say: Say): void {
  for (const [place, id] of ids.entries())
    if (ids.indexOf(id) < place)
      say('error', where, `Unexpected second ${describe(id)}, expected a name of its own for each`);
}

/** Says which names there are where a name stands for nothing. */
function failUnknown(id: string, known: readonly string[], where: string, say: Say): void {
  if (known.includes(id)) return;
  const names = known.slice(0, 12).map((name) => `\`${shorten(name)}\``);
  const more = known.length > names.length ? ` and ${known.length - names.length} more` : '';
  const expected = known.length === 0 ? 'none: the file lists none' : names.join(', ') + more;
  say('error', where, `Unexpected ${describe(id)}, expected ${expected}`);
}

function toMessage(issue: v.BaseIssue<unknown>): ProblemMessage {
  const where = (issue.path ?? []).reduce(
    (path, { key }) => (typeof key === 'number' ? `${path}[${key}]` : `${path}${path === '' ? '' : '.'}${String(key)}`),
    '',
  );
  const isCount = issue.type === 'min_length' || issue.type === 'max_length';
  const found = isCount && Array.isArray(issue.input) ? `list of ${issue.input.length}` : describe(issue.input);
  // A key that is missing has no message of its own.
  const expected = issue.type === 'object' && issue.expected?.startsWith('"') === true ? 'a value here' : issue.message;
  return { kind: 'error', where, text: `Unexpected ${found}, expected ${expected}` };
}

/** Places of the keys that reading left out: usually a slip of the pen. */
function listUnreadKeys(input: unknown, read: unknown, where: string): readonly string[] {
  if (Array.isArray(input) && Array.isArray(read))
    return input.flatMap((item, index) => listUnreadKeys(item, read[index], `${where}[${index}]`));
  if (!isRecord(input) || !isRecord(read)) return [];
  return Object.keys(input).flatMap((key) => {
    const place = where === '' ? shorten(key) : `${where}.${shorten(key)}`;
    return key in read ? listUnreadKeys(input[key], read[key], place) : [place];
  });
}

/** Says what a value is, short enough for a message. */
function describe(value: unknown): string {
  if (value === undefined) return 'nothing';
  if (value === null) return '`null`';
  if (Array.isArray(value)) return `a list of ${value.length}`;
  if (typeof value === 'object') return 'an object';
  if (typeof value === 'string') return value === '' ? 'an empty text' : `text \`${shorten(value)}\``;
  if (value === Number.POSITIVE_INFINITY || value === Number.NEGATIVE_INFINITY) return 'a number too large to hold';
  return `\`${shorten(String(value))}\``;
}

function shorten(text: string): string {
  const flat = text.replaceAll(/[\s`]+/gu, ' ');
  return flat.length > 40 ? `${flat.slice(0, 39)}…` : flat;
}
