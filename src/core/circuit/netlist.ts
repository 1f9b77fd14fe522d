import { type Change, healthy, type Netlist } from '../model/circuit.ts';

/** Samples of the tolerances beside the nominal one. */
export const sampleCount = 32;

/** Ohms that stand for a part that opened, and for one that shorted. */
const openOhms = '1g';
const shortOhms = '0.05';

const multipliers: Readonly<Record<string, number>> = {
  t: 1e12,
  g: 1e9,
  meg: 1e6,
  k: 1e3,
  m: 1e-3,
  u: 1e-6,
  n: 1e-9,
  p: 1e-12,
  f: 1e-15,
};

/**
 * A value as netlists write it, in the unit of its part: `4700u`, `10k`, `1meg`, `0.35`. Letters after the multiplier are a unit and say
 * nothing. NaN where it is none.
 * @example parseValue('4700uF') // 0.0047
 */
export function parseValue(text: string): number {
  const [, number = '', letters = ''] =
    /^([+-]?(?:\d+(?:\.\d+)?|\.\d+)(?:e[+-]?\d+)?)(meg|[tgkmunpf])?[a-z]*$/i.exec(text) ?? [];
  return number === '' ? Number.NaN : Number(number) * (multipliers[letters.toLowerCase()] ?? 1);
}

/** What can be changed in a netlist: its parts with a plain value, its parts with two legs, and its parameters. */
export interface Changeable {
  readonly name: string;
  readonly line: number;
  /** Value, or NaN where it has no plain one. */
  readonly value: number;
  /** Nodes of a part; empty for a parameter. */
  readonly nodes: readonly string[];
}

/** Parts and parameters by their names in capitals. */
export function listChangeable(lines: readonly string[]): ReadonlyMap<string, Changeable> {
  const found = new Map<string, Changeable>();
  let depth = 0;
  lines.forEach((text, line) => {
    if (/^\.subckt\b/i.test(text)) depth += 1;
    if (/^\.ends\b/i.test(text)) depth -= 1;
    if (depth > 0) return;
    const words = text.split(/\s+/);
    const [name = ''] = words;
    if (/^\.param$/i.test(name)) {
      for (const [, parameter = '', value = ''] of text.matchAll(/(?<!\w)([a-z]\w*)\s*=\s*([^\s={}]+)/gi)) {
        found.set(parameter.toUpperCase(), { name: parameter, line, value: parseValue(value), nodes: [] });
      }
      return;
    }
    if (name.startsWith('.')) return;
    const value = /^[rcl]/i.test(name) ? parseValue(words[3] ?? '') : Number.NaN;
    found.set(name.toUpperCase(), { name, line, value, nodes: words.slice(1, legsOf(name) + 1) });
  });
  return found;
}

function legsOf(name: string): number {
  const kind = (name[0] ?? '').toLowerCase();
  if (kind === 'q' || kind === 'j') return 3;
  return kind === 'm' || kind === 'e' || kind === 'g' || kind === 's' || kind === 't' ? 4 : 2;
}

/** Why a change cannot be made to a part, or undefined. */
export function findImpossible(change: Change, part: Changeable): string | undefined {
  if (change.kind === 'open' || change.kind === 'short') {
    return part.nodes.length === 0 ? 'a parameter neither opens nor shorts' : undefined;
  }
  return Number.isNaN(part.value) ? 'it has no plain value' : undefined;
}

/**
 * The netlist of one state and one sample, ready for the simulator: fault and tolerances put in, the nodes to save named.
 * Sample 0 is nominal: no tolerance, and the middle of the first way in which a fault comes; the others go round its ways.
 */
export function writeNetlist(circuit: Netlist, state: string, sample: number): string {
  const lines = [...circuit.lines];
  const parts = listChangeable(lines);
  const ways = (state === healthy ? undefined : circuit.faults[state]?.ways) ?? [{}];
  const faulty = ways[sample % ways.length] ?? {};
  const changes = Object.entries({ ...circuit.tolerances, ...faulty });
  changes.forEach(([name, change], dimension) => {
    const part = parts.get(name.toUpperCase());
    const text = lines[part?.line ?? -1];
    if (part === undefined || text === undefined) return;
    if ('from' in change) {
      if (sample === 0 && !Object.hasOwn(faulty, name)) return;
      const share = sample === 0 ? 0.5 : spread(sample, dimension);
      const at = change.from + (change.to - change.from) * share;
      lines[part.line] = withValue(text, part, change.kind === 'share' ? part.value * at : at);
    } else {
      const [first = '0', second = '0'] = endsOf(part);
      const ohms = change.kind === 'open' ? openOhms : shortOhms;
      const isGone = change.kind === 'open' || part.nodes.length === 2;
      const stand = `R${change.kind}${part.name} ${first} ${second} ${ohms}`;
      lines[part.line] = isGone ? stand : `${text}\n${stand}`;
    }
  });
  const nodes = new Set(Object.values(circuit.points).flatMap(({ red, black }) => [red, black]));
  nodes.delete('0');
  return [
    circuit.slug,
    ...lines,
    '.options rshunt=1e9',
    `.save ${[...nodes].map((node) => `v(${node})`).join(' ')}`,
    '.end',
  ].join('\n');
}

/** Between which legs a part opens or shorts: collector and emitter of a transistor, the two of any other. */
function endsOf({ name, nodes }: Changeable): readonly string[] {
  return /^[qj]/i.test(name) ? [nodes[0] ?? '0', nodes[2] ?? '0'] : nodes;
}

function withValue(text: string, { name, nodes }: Changeable, value: number): string {
  const printed = value.toPrecision(6);
  if (nodes.length === 0) {
    return text.replace(/(?<!\w)([a-z]\w*)\s*=\s*[^\s={}]+/gi, (found, parameter: string) =>
      parameter === name ? `${name}=${printed}` : found,
    );
  }
  const words = text.split(/\s+/);
  words[3] = printed;
  return words.join(' ');
}

/**
 * Where between 0 and 1 a sample lies in one dimension: the additive sequence with the powers of the generalised golden ratio of 8
 * dimensions, always the same, and filling the space evenly (H. Niederreiter, Random Number Generation and Quasi-Monte Carlo Methods,
 * 1992, on such sequences; from memory).
 */
function spread(sample: number, dimension: number): number {
  return (0.5 + sample * goldenRatio ** -(dimension + 1)) % 1;
}

/** The root of x⁹ = x + 1. */
const goldenRatio = 1.0850702;
