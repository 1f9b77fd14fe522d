import { readFileSync } from 'node:fs';
import { type PathPlan, planPath } from '#core/diagnosis/plan-path.ts';
import { type Plan, planProblem } from '#core/diagnosis/plan-problem.ts';
import type { DiagnosisProblem, PathProblem } from '#core/diagnosis/problem.ts';
import { printProblemMessage } from '#core/diagnosis/problem-message.ts';
import { readProblemText } from '#core/diagnosis/read-problem.ts';

const usage = `Usage: npm run plan -- <problem.json> [--json]
  <problem.json>  causes, checks and set-ups, or the stages and probes of a signal path
  --json          print the plan as JSON`;

process.exitCode = run(process.argv.slice(2));

/** 0 planned, 1 the file holds no problem that can be planned, 2 the request is wrong. */
function run(words: readonly string[]): number {
  const isJson = words.includes('--json');
  const [file, ...rest] = words.filter((word) => word !== '--json');
  if (file === undefined || rest.length > 0) return refuse([usage], 2);
  const text = readText(file);
  if (text === undefined) return refuse([`${file} cannot be read.`], 2);
  const read = readProblemText(text);
  if (read.kind === 'refused') return refuse(read.messages.map(printProblemMessage), 1);
  for (const note of read.notes) console.error(printProblemMessage(note));
  const plan = planAny(read.problem);
  if (typeof plan === 'string') return refuse([plan], 1);
  console.log(isJson ? JSON.stringify(plan) : printPlan(plan));
  return 0;
}

function readText(file: string): string | undefined {
  try {
    return readFileSync(file, 'utf8');
  } catch {
    return undefined;
  }
}

function refuse(lines: readonly string[], status: number): number {
  for (const line of lines) console.error(line);
  return status;
}

function planAny(problem: DiagnosisProblem | PathProblem): Plan | string {
  if (problem.kind === 'path') {
    const result = planPath(problem);
    return result.kind === 'plan' ? describePath(problem, result.plan) : result.text;
  }
  const result = planProblem(problem);
  return result.kind === 'plan' ? result.plan : result.contradiction.text;
}

/** The plan of a path in the shape of every other plan: always exact. */
function describePath(problem: PathProblem, plan: PathPlan): Plan {
  const nameOf = (stage: number): string => problem.stages[stage]?.id ?? '';
  return {
    posterior: problem.stages.map(({ id }, stage) => ({ id, probability: plan.probabilities[stage] ?? 0 })),
    next: plan.nextProbe === undefined ? null : { probe: plan.nextProbe },
    expectedMinutes: plan.expectedMinutes,
    exact: true,
    atLeast: plan.expectedMinutes,
    atMost: plan.expectedMinutes,
    worstMinutes: plan.worstMinutes,
    groups: plan.groups.map((group) => group.map(nameOf)),
  };
}

function printPlan({ posterior, next, expectedMinutes, exact, atLeast, atMost, worstMinutes, groups }: Plan): string {
  const step = next === null ? 'stop' : Object.entries(next).flat().join(' ');
  const minutes = (value: number): string => value.toFixed(2);
  return [
    `next: ${step}`,
    `expected minutes: ${minutes(expectedMinutes)}${exact ? '' : ` (between ${minutes(atLeast)} and ${minutes(atMost)})`}`,
    `worst minutes: ${minutes(worstMinutes)}`,
    ...posterior.map(({ id, probability }) => `  ${id}: ${probability.toPrecision(4)}`),
    `left unseparated: ${groups.map((group) => group.join(' + ')).join(', ')}`,
  ].join('\n');
}
