import { findImpossible, listChangeable, parseValue } from '#core/circuit/netlist.ts';
import {
  type Change,
  type Circuit,
  type CircuitResults,
  figureNames,
  hashNetlist,
  healthy,
  type Netlist,
  spreadLevels,
} from '#core/model/circuit.ts';
import * as v from 'valibot';
import type { ReadContext } from './problem.ts';
import { readDrawing } from './read-drawing.ts';
import { readYaml } from './read-yaml.ts';
import { circuitModelSchema, circuitSchema } from './schemas.ts';

/** What a circuit file may hold, so that a run ends soon. */
const most = { elements: 60, states: 16, points: 8, steps: 20_000 };

/** Elements that a netlist may hold, by their first letter, and its settings. */
const element = /^[rclkvidqjmefghstxb]\w{0,20}\s/i;
const setting = /^\.(?:model|subckt|ends|param|tran|op|ac|options)\b/i;
/** No quotes, no backticks, no paths: what the simulator could take for a file or a command cannot be spelt. */
const plain = /^[\w\s.,+\-*/(){}=:<>?&|^%]*$/;
const reaching = /\b(?:file\w*|external|include|lib|shell|control|input_file|filesource)\b/i;

interface Split {
  readonly front: string;
  readonly body: readonly { readonly text: string; readonly line: number }[];
}

/** Front matter and netlist lines of a circuit or model file; blank lines and comments left out. */
function split(text: string, { report }: ReadContext): Split | undefined {
  const lines = text.split('\n');
  const end = lines.indexOf('---', 1);
  if (lines[0] !== '---' || end < 0) {
    report({
      rule: 'front-matter',
      position: { line: 1, column: 1 },
      message: 'Unexpected start of the file, expected front matter between two lines of `---`.',
      help: 'Begin with ---, the fields, then ---, then the netlist.',
    });
    return undefined;
  }
  const body = lines
    .map((line, index) => ({ text: line.trim(), line: index + 1 }))
    .slice(end + 1)
    .filter((each) => each.text !== '' && !each.text.startsWith('*'));
  return { front: lines.slice(1, end).join('\n'), body };
}

/** Reads the lines of a netlist; false where one of them is refused. */
function inspectLines(body: Split['body'], { report }: ReadContext): boolean {
  const refuse = (line: number, message: string, help: string): false => {
    report({ rule: 'netlist', position: { line, column: 1 }, message, help });
    return false;
  };
  const first = body[0]?.line ?? 1;
  const count = body.filter(({ text }) => element.test(text)).length;
  if (count > most.elements)
    return refuse(first, `Unexpected ${count} elements, expected at most ${most.elements}.`, 'Take a smaller circuit.');
  return body.every(({ text, line }) => {
    const shown = text.slice(0, 40);
    if (!element.test(text) && !setting.test(text))
      return refuse(
        line,
        `Unexpected line "${shown}", expected an element (R C L K V I D Q J M E F G H S T X B) or .model, .subckt, .param, .tran, .op, .ac, .options.`,
        'Control blocks, includes, libraries and continued lines are not read: write each element on one line.',
      );
    if (!plain.test(text) || reaching.test(text))
      return refuse(
        line,
        `Unexpected sign or word in "${shown}", expected names, numbers and formulas.`,
        'A netlist reads no file and runs no command. Write µ as u and Ω not at all.',
      );
    const run = /^\.tran\s+(\S+)\s+(\S+)/i.exec(text);
    if (run !== null) {
      const steps = parseValue(run[2] ?? '') / parseValue(run[1] ?? '');
      if (!(steps > 0 && steps <= most.steps))
        return refuse(
          line,
          `Unexpected length of \`.tran\`, expected at most ${most.steps} steps.`,
          'Take a longer step, or stop earlier.',
        );
    }
    return true;
  });
}

/** Compiles one model file: the lines that circuits take in by its name. Undefined where anything was wrong. */
export function compileModel(text: string, context: ReadContext): readonly string[] | undefined {
  const parts = split(text, context);
  if (parts === undefined) return undefined;
  const front = readYaml(parts.front, { firstLine: 2, key: 'front' }, circuitModelSchema, context);
  return front !== undefined && inspectLines(parts.body, context) ? parts.body.map((each) => each.text) : undefined;
}

/** Compiles one circuit file; `models` are the lines of the model files, `results` the text beside it. Undefined where anything was wrong. */
export function compileCircuit(
  text: string,
  slug: string,
  context: ReadContext,
  models: ReadonlyMap<string, readonly string[]>,
  results: string | undefined,
): Circuit | undefined {
  const parts = split(text, context);
  if (parts === undefined) return undefined;
  const front = readYaml(parts.front, { firstLine: 2, key: 'front' }, circuitSchema, context);
  if (front === undefined || !inspectLines(parts.body, context)) return undefined;
  const refuse = (key: string, message: string, help: string): undefined => {
    context.report({ rule: 'netlist', position: context.positions.find(key), message, help });
  };
  const unknown = front.models.find((name) => !models.has(name));
  if (unknown !== undefined)
    return refuse(
      'front/models',
      `Unexpected model \`${unknown}\`, expected a file of content/circuits/models/.`,
      `There are: ${[...models.keys()].join(', ')}.`,
    );
  const lines = [...front.models.flatMap((name) => models.get(name) ?? []), ...parts.body.map((each) => each.text)];
  if (lines.filter((line) => /^\.(?:tran|op)\b/i.test(line)).length !== 1)
    return refuse(
      'front',
      'Unexpected netlist without one `.tran` or `.op`, expected one of them.',
      'Say how it is run: .tran STEP STOP START, or .op.',
    );
  const { points: written, faults, drawing: drawn, models: _, ...rest } = front;
  const points = Object.fromEntries(
    Object.entries(written).map(([point, [red, black]]) => [
      point,
      { red: red.toLowerCase(), black: black.toLowerCase() },
    ]),
  );
  if (Object.keys(points).length > most.points || Object.keys(faults).length > most.states)
    return refuse(
      'front',
      `Unexpected size, expected at most ${most.points} points and ${most.states} faults.`,
      'Keep what a repairer reads.',
    );
  const changeable = listChangeable(lines);
  const nodes = new Set([
    '0',
    ...[...changeable.values()].flatMap((part) => part.nodes.map((node) => node.toLowerCase())),
  ]);
  const everyNode = new Set([
    ...nodes,
    ...lines.flatMap((line) => (/^[x.]/i.test(line) ? line.toLowerCase().split(/\s+/) : [])),
  ]);
  for (const [point, { red, black }] of Object.entries(points)) {
    const missing = [red, black].find((node) => !everyNode.has(node));
    if (missing !== undefined)
      return refuse(
        `front/points/${point}`,
        `Unexpected node \`${missing}\`, expected one of the netlist.`,
        'Red lead first, then black; 0 is ground.',
      );
  }
  const wanted: readonly (readonly [key: string, changes: Readonly<Record<string, Change>>])[] = [
    ['front/tolerances', rest.tolerances],
    ...Object.entries(faults).flatMap(([id, { ways }]) =>
      ways.map((changes) => [`front/faults/${id}/changes`, changes] as const),
    ),
  ];
  for (const [key, changes] of wanted) {
    for (const [name, change] of Object.entries(changes)) {
      const part = changeable.get(name.toUpperCase());
      const why = part === undefined ? 'it is not in the netlist' : findImpossible(change, part);
      if (why !== undefined)
        return refuse(
          `${key}/${name}`,
          `Unexpected change of \`${name}\`: ${why}.`,
          'Name a part or a .param of the netlist; `open`, `short`, `10..50 %` or `1k..2k`.',
        );
    }
  }
  const circuit = { slug, ...rest, evidence: rest.evidence ?? Object.keys(points), points, faults, lines };
  return {
    ...circuit,
    drawing: readDrawing(drawn, circuit, context),
    results: readResults(results, circuit, context),
  };
}

const spreadSchema = v.pipe(v.array(v.pipe(v.number(), v.finite())), v.length(spreadLevels.length + 1));
const resultsSchema = v.strictObject({
  engine: v.pipe(v.string(), v.maxLength(60)),
  netlist: v.string(),
  seconds: v.number(),
  states: v.record(
    v.string(),
    v.record(
      v.string(),
      v.strictObject({
        ...v.entriesFromList(figureNames, spreadSchema),
        trace: v.pipe(v.array(v.number()), v.maxLength(400)),
      }),
    ),
  ),
});

/** The numbers beside a netlist, if they are of just this netlist. */
function readResults(
  text: string | undefined,
  circuit: Netlist,
  { positions, report }: ReadContext,
): CircuitResults | undefined {
  const say = (found: string): undefined => {
    report({
      rule: 'circuit-numbers',
      position: positions.find('front'),
      message: `Unexpected ${found}, expected the numbers of this netlist in ${circuit.slug}.json.`,
      help: `Run npm run simulate -- ${circuit.slug}, and send the file it writes as well.`,
    });
  };
  if (text === undefined) return say('absence of results');
  let value: unknown;
  try {
    value = JSON.parse(text);
  } catch {
    return say('text that is no JSON');
  }
  const { success, output } = v.safeParse(resultsSchema, value);
  if (!success) return say('shape of the results');
  if (output.netlist !== hashNetlist(circuit)) return say('results of an earlier netlist');
  const states = [healthy, ...Object.keys(circuit.faults)];
  const isWhole = states.every((state) =>
    Object.keys(circuit.points).every((point) => output.states[state]?.[point] !== undefined),
  );
  return isWhole ? output : say('results that lack a state or a point');
}
