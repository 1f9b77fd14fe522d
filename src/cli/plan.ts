/**
 * Plans a bare diagnosis problem: npm run plan -- problem.json [--json] [--states 20000]
 * The file is described by public/data/schema/plan-problem.json; `-` reads it from standard input.
 * Exits with 0 for a plan, 1 for a file that was refused, 2 for a wrong call.
 */
import { readFileSync } from 'node:fs';
import { parseArgs } from 'node:util';
import type { Plan } from '#core/diagnosis/plan-problem.ts';
import { planFile, printProblemMessage, type ProblemMessage, readProblemText } from '#core/diagnosis/read-problem.ts';

const USAGE = 'Usage: npm run plan -- <problem.json | -> [--json] [--states <most states of the plan to visit, 20000>]';

process.exitCode = run(process.argv.slice(2));

function run(words: readonly string[]): number {
  const call = readCall(words);
  if (call === undefined) {
    console.error(USAGE);
    return 2;
  }
  const text = readInput(call.file);
  if (text === undefined) {
    console.error(`Unexpected name \`${call.file}\`, expected a file that can be read`);
    return 2;
  }
  const result = planFile(readProblemText(text), { mostStates: call.mostStates });
  if (result.kind === 'refused') return report(result.messages, call.isJson);
  for (const note of result.notes) console.error(printProblemMessage(note));
  console.log(call.isJson ? JSON.stringify(result.plan) : printPlan(result.plan));
  return 0;
}

interface Call {
  readonly file: string;
  readonly isJson: boolean;
  readonly mostStates: number;
}

function readCall(words: readonly string[]): Call | undefined {
  try {
    const { values, positionals } = parseArgs({
      args: [...words],
      allowPositionals: true,
      options: { json: { type: 'boolean', default: false }, states: { type: 'string', default: '20000' } },
    });
    const [file] = positionals;
    const mostStates = Number(values.states);
    if (file === undefined || positionals.length !== 1 || !Number.isInteger(mostStates) || mostStates < 1)
      return undefined;
    return { file, isJson: values.json, mostStates };
  } catch {
    return undefined;
  }
}

function readInput(file: string): string | undefined {
  try {
    return readFileSync(file === '-' ? 0 : file, 'utf8');
  } catch {
    return undefined;
  }
}

function report(messages: readonly ProblemMessage[], isJson: boolean): number {
  for (const message of messages) console.error(printProblemMessage(message));
  if (isJson) console.log(JSON.stringify({ messages }));
  return 1;
}

function printPlan(plan: Plan): string {
  const next =
    plan.next === null
      ? 'nothing: no step is worth its minutes'
      : Object.entries(plan.next)
          .map(([kind, id]) => `${kind} ${id}`)
          .join('');
  const range = plan.exact ? 'exact' : `estimated, from ${plan.atLeast.toFixed(2)} to ${plan.atMost.toFixed(2)}`;
  const likeliest = plan.posterior.toSorted((first, second) => second.probability - first.probability);
  return [
    `next      ${next}`,
    `expected  ${plan.expectedMinutes.toFixed(2)} minutes (${range}), at most ${plan.worstMinutes.toFixed(2)}`,
    `groups    ${plan.groups.map((group) => group.join(' + ')).join(', ')}`,
    ...likeliest.slice(0, 12).map(({ id, probability }) => `${(100 * probability).toFixed(1).padStart(6)} %  ${id}`),
    ...(likeliest.length > 12 ? [`and ${likeliest.length - 12} less likely`] : []),
  ].join('\n');
}
