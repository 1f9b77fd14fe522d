/**
 * Suggests the next step on a tree: npm run next -- <tree> [check=outcome|reading …] [--with <class>] [--own <family,family>] [--json]
 * A stage of a signal path is path/stage=in or path/stage=bad; a repair that did not cure is did=cause.
 * Exits with 0 for an answer, 1 where something given was not understood (the rest still counts), 2 for a wrong call.
 */
import { parseArgs } from 'node:util';
import { compileContent } from '#compiler/compile-content.ts';
import { filesOfTree, loadContent, treeSlugs } from '#compiler/load.ts';
import { suggestName } from '#compiler/nearest-name.ts';
import {
  type Assessment,
  assessTree,
  type InstrumentSaving,
  type Known,
  measureInstruments,
} from '#core/diagnosis/tree/assess-tree.ts';
import { collectTreeChecks, type TreeCheck } from '#core/diagnosis/tree/tree-checks.ts';
import { thorough } from '#core/diagnosis/choose-action.ts';
import type { FaultTree } from '#core/model/fault-tree.ts';
import type { Library } from '#core/model/library.ts';
import { readOwnAccuracy } from '#core/reading/instrument.ts';
import { type Answer, readAnswerValue } from '#core/answer/answer.ts';
import { readAnswers } from '#core/answer/evidence.ts';

const USAGE = `Usage: npm run next -- <tree> [check=outcome|reading …] [--with <class>] [--own <families>] [--json]
  check=…   an outcome word or a reading: trough=low, rail=4.71V; path/stage=in, path/stage=bad; did=cause for a repair that did not cure
  --with    class of the instrument the readings were taken with, of content/instruments.yaml
  --own     families of instruments at hand, with commas; without it all of them
  --json    print { causes, next, expectedMinutes, … }`;
/** States of the plan that are visited for the expected minutes. */
const MOST_STATES = 2000;

/** 0 answered, 1 where something given was not understood, 2 a wrong call. */
export function run(words: readonly string[]): number {
  const call = readCall(words);
  if (call === undefined) {
    console.error(USAGE);
    return 2;
  }
  const files = loadContent(process.cwd());
  const { library } = compileContent(filesOfTree(files, call.tree));
  const tree = library.trees.get(call.tree);
  if (tree === undefined) {
    console.error(`There is no tree \`${call.tree}\`.${suggestName(call.tree, treeSlugs(files))}`);
    return 2;
  }
  if (
    call.instrument !== undefined &&
    !library.instrumentClasses.has(call.instrument) &&
    readOwnAccuracy(call.instrument) === undefined
  ) {
    const classes = [...library.instrumentClasses.keys()];
    console.error(`There is no class \`${call.instrument}\`.${suggestName(call.instrument, classes)}`);
    return 2;
  }
  const bench = { families: call.families, limitMinutes: undefined, isMainsOutside: false };
  const checks = collectTreeChecks(tree, library, bench);
  const { known, problems } = readKnown(tree, library, call, checks);
  for (const problem of problems) console.error(problem);
  const assessment = assessTree(tree, library, known, { bench, checks, effort: thorough, mostStates: MOST_STATES });
  const savings = measureInstruments(tree, library, known, bench, MOST_STATES);
  console.log(call.isJson ? printJson(assessment, savings, problems) : printWords(assessment, savings));
  return problems.length > 0 ? 1 : 0;

  function readKnown(
    of: FaultTree,
    library: Library,
    { pairs, instrument }: Call,
    checksOfTree: readonly TreeCheck[],
  ): { readonly known: Known; readonly problems: readonly string[] } {
    const did = pairs.filter(([key]) => key === 'did').flatMap(([, value]) => value.split(','));
    const unknown = did.filter((id) => !of.nodes.some((node) => node.id === id));
    const answers = pairs
      .filter(([key]) => key !== 'did')
      .map(([key, value]): Answer => ({
        tree: undefined,
        node: key.split('/')[0] ?? key,
        stage: key.split('/')[1],
        ...(instrument === undefined ? {} : { instrument }),
        ...(readAnswerValue(value.trim()) ?? { value }),
      }));
    const { read, problems: notUnderstood } = readAnswers(
      answers,
      { tree: of, references: library, limits: {} },
      checksOfTree,
    );
    return {
      known: { read, did, isWorsened: false },
      problems: [...notUnderstood, ...unknown.map((id) => `There is no cause “${id}” in this tree.`)],
    };
  }
}

interface Call {
  readonly tree: string;
  readonly pairs: readonly (readonly [key: string, value: string])[];
  readonly instrument: string | undefined;
  readonly families: ReadonlySet<string> | undefined;
  readonly isJson: boolean;
}

function readCall(words: readonly string[]): Call | undefined {
  try {
    const { values, positionals } = parseArgs({
      args: [...words],
      allowPositionals: true,
      options: { json: { type: 'boolean', default: false }, with: { type: 'string' }, own: { type: 'string' } },
    });
    const [tree, ...answers] = positionals;
    if (tree === undefined || answers.some((answer) => !answer.includes('='))) return undefined;
    return {
      tree,
      pairs: answers.map((answer) => {
        const cut = answer.indexOf('=');
        return [answer.slice(0, cut), answer.slice(cut + 1)] as const;
      }),
      instrument: values.with,
      families: values.own === undefined ? undefined : new Set(values.own.split(',')),
      isJson: values.json,
    };
  } catch {
    return undefined;
  }
}

function printJson(assessment: Assessment, savings: readonly InstrumentSaving[], problems: readonly string[]): string {
  const { causes, next, why, written, expectedMinutes, writtenMinutes, isExact, conflict } = assessment;
  const step =
    next.kind === 'check'
      ? { check: next.stage === undefined ? next.node : `${next.node}/${next.stage}` }
      : next.kind === 'stop'
        ? null
        : { [next.kind]: 'node' in next ? next.node : 'rework' };
  return JSON.stringify(
    {
      causes: causes.map(({ id, title, probability }) => ({ id, title, probability })),
      next: step,
      why,
      written: written.node,
      expectedMinutes,
      writtenMinutes,
      exact: isExact,
      conflict,
      instruments: savings,
      problems,
    },
    undefined,
    2,
  );
}

function printWords(
  { causes, next, why, written, expectedMinutes, writtenMinutes, conflict }: Assessment,
  savings: readonly InstrumentSaving[],
): string {
  const title = 'title' in next ? `${next.title} (${next.node})` : '';
  return [
    `Next: ${next.kind} ${title}`.trim(),
    `Why: ${why}`,
    `The tree's own next: ${written.title} (${written.node})`,
    `About ${Math.round(expectedMinutes)} minutes to a proven repair this way, about ${Math.round(writtenMinutes)} as the tree is written.`,
    ...(conflict === undefined ? [] : [conflict]),
    ...savings.map(
      ({ title: name, savedMinutes }) => `${name}: would save about ${Math.round(savedMinutes)} minutes here.`,
    ),
    ...causes
      .filter(({ probability }) => probability >= 0.005)
      .map(
        ({ id, title: name, probability, words }) => `${probability.toFixed(3)}  ${words.padEnd(11)}  ${name} (${id})`,
      ),
  ].join('\n');
}

if (import.meta.main) process.exitCode = run(process.argv.slice(2));
