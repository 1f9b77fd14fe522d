import { type ContentFile, compileContent } from '#compiler/compile-content.ts';
import { loadContent } from '#compiler/load.ts';
import { suggestName } from '#compiler/nearest-name.ts';
import type { InstrumentClass } from '#core/model/instrument-class.ts';
import type { Library } from '#core/model/library.ts';
import type { Target } from '#core/model/target.ts';
import { printHealthy } from '#core/model/target-text.ts';
import { nameOwnAccuracy, parseAccuracy } from '#core/reading/instrument.ts';
import { judgeInstrument } from '#core/reading/advice.ts';
import { sayFormula } from '#core/reading/formula.ts';
import { describeJudgement, instrumentFor, judgeEntry, readEntry } from '#core/reading/judge-reading.ts';
import type { Judgement } from '#core/reading/judgement.ts';
import { findImplausible } from '#core/reading/plausible.ts';

const usage = `Usage: npm run judge -- <target> "<reading>" [--instrument <class>] [--json]
  <target>      slug of a file in content/targets, for example rail-5v-at-chip
  <reading>     what the display shows: 4.71, "4,71 V", 4k7, OL, open;
                where the target is computed each figure in its order: "4.4 V; 9 V"
  --instrument  a class of content/instruments.yaml, or an accuracy of your own: "0.5% + 2"
  --json        print { verdict, probabilities, uncertainty, unit, … }`;

interface Request {
  readonly target: string;
  readonly reading: string;
  readonly instrument: string | undefined;
  readonly isJson: boolean;
}

/** 0 judged, 1 the reading is no reading, 2 the request is wrong. */
export function run(words: readonly string[]): number {
  const isJson = words.includes('--json');
  const request = readRequest(words);
  if (typeof request === 'string') return refuse('request', request, isJson, 2);
  const { library } = compileContent(loadContent(process.cwd()).filter(isNeeded));
  const target = library.targets.get(request.target);
  if (target === undefined) {
    return refuse(
      'unknown-target',
      `There is no target \`${request.target}\`.${suggestName(request.target, [...library.targets.keys()])}`,
      isJson,
      2,
    );
  }
  const entry = readEntry(request.reading.split(';'), target);
  const name = nameInstrument(request.instrument, library);
  if (name.problem !== undefined) return refuse('unknown-instrument', name.problem, isJson, 2);
  const instrument =
    library.instrumentClasses.get(name.known ?? '') ??
    instrumentFor(entry, target, name.known, library.instrumentClasses);
  const judged = judgeEntry(entry, target, instrument, [...library.instrumentClasses.values()]);
  if (judged.kind === 'problem') return refuse(judged.problem.code, judged.problem.message, isJson, 1);
  const slip = entry.kind === 'readings' ? findImplausible(entry.readings, target) : undefined;
  const notes = slip === undefined ? judged.notes : [{ kind: 'implausible' as const, text: slip }, ...judged.notes];
  const told = { ...judged, notes };
  console.log(isJson ? printJson(told, target, instrument) : printWords(told, target, instrument));
  return 0;
}

/** Trees and their rules have no say here; reading them would take most of the time. */
function isNeeded({ file }: ContentFile): boolean {
  return file.startsWith('content/targets/') || file === 'content/instruments.yaml';
}

/** A reading may begin with a minus, so only the two options are taken for options. */
function readRequest(words: readonly string[]): Request | string {
  const positional: string[] = [];
  let instrument: string | undefined;
  let isJson = false;
  for (let index = 0; index < words.length; index++) {
    const word = words[index] ?? '';
    if (word === '--json') isJson = true;
    else if (word === '--instrument') {
      index += 1;
      instrument = words[index];
      if (instrument === undefined) return `Missing class after --instrument.\n${usage}`;
    } else if (word.startsWith('--instrument=')) instrument = word.slice('--instrument='.length);
    else if (word.startsWith('--') && word !== '--') return `Unknown option \`${word}\`.\n${usage}`;
    else if (word !== '--') positional.push(word);
  }
  const [target, ...reading] = positional;
  if (target === undefined || reading.length === 0) return usage;
  return { target, reading: reading.join(' '), instrument, isJson };
}

/** The name that readings carry for what was asked for, or why there is none. */
function nameInstrument(
  wanted: string | undefined,
  { instrumentClasses }: Library,
): { readonly known?: string | undefined; readonly problem?: string } {
  if (wanted === undefined || instrumentClasses.has(wanted)) return { known: wanted };
  const accuracy = parseAccuracy(wanted);
  if (accuracy !== undefined) return { known: nameOwnAccuracy(accuracy) };
  const names = [...instrumentClasses.keys()];
  return { problem: `There is no class \`${wanted}\`.${suggestName(wanted, names)} Classes: ${names.join(', ')}.` };
}

function printJson(judgement: Judgement, target: Target, instrument: InstrumentClass | undefined): string {
  const { verdict, probabilities, uncertainty, unit, value, isEvidence, notes, settle } = judgement;
  const always = ['low', 'in', 'high', 'none'].map((band) => [band, 0]);
  const found = probabilities.map(({ band, probability }) => [band, probability]);
  const canJudge = instrument === undefined ? undefined : judgeInstrument(target, instrument).kind;
  const result = {
    verdict,
    probabilities: Object.fromEntries([...always, ...found]),
    uncertainty,
    unit,
    value: value === Number.POSITIVE_INFINITY ? 'OL' : value,
    instrument: instrument?.slug,
    canJudge,
    isEvidence,
    notes,
    settle,
  };
  return JSON.stringify(result, undefined, 2);
}

function printWords(judgement: Judgement, target: Target, instrument: InstrumentClass | undefined): string {
  const { value, uncertainty, unit, probabilities, notes, settle } = judgement;
  const shown = probabilities.filter(({ probability }) => probability >= 0.0005);
  return [
    describeJudgement(judgement),
    `Healthy: ${printHealthy(target)}.${instrument === undefined ? '' : ` With: ${instrument.title}.`}`,
    ...(target.computed === undefined ? [] : [`Computed: ${sayFormula(target.computed, target.entered)}.`]),
    ...(value === undefined || !Number.isFinite(value)
      ? []
      : [
          `Reading: ${Number(value.toPrecision(6))} ${unit}, standard uncertainty ${Number(uncertainty.toPrecision(2))} ${unit}.`,
        ]),
    `Probabilities: ${shown.map(({ band, probability }) => `${band} ${probability.toFixed(3)}`).join(', ')}.`,
    ...notes.map(({ text }) => `Note: ${text}`),
    ...settle.map(({ text }) => `To settle it: ${text}`),
  ].join('\n');
}

function refuse(code: string, message: string, isJson: boolean, exitCode: number): number {
  if (isJson) console.log(JSON.stringify({ problem: { code, message } }, undefined, 2));
  else console.error(message);
  return exitCode;
}

if (import.meta.main) process.exitCode = run(process.argv.slice(2));
