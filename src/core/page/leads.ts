import type { FoundPins, Part, Pin } from '../model/part.ts';
import type { Child } from './markup.ts';

/** A part as far as it is drawn. */
export type DrawnPart = Pick<Part, 'title' | 'package' | 'pins'>;

/** A drawing 340 units wide. */
export interface Drawn {
  readonly height: number;
  readonly children: readonly Child[];
}

/** Where the leads of an instrument go, and what they are called: `Red lead` and `Black lead`, `Tip` and `Ground clip`. */
export interface Probed extends FoundPins {
  readonly leads: readonly [read: string, ground: string];
}

/** What the leads are called: those of a meter, a probe and its clip, or none where nothing but eyes and hands go there. */
export function nameLeads(instrument: string | undefined): Probed['leads'] {
  if (instrument === 'multimeter') return ['Red lead', 'Black lead'];
  return probes.has(instrument ?? '') ? ['Tip', 'Ground clip'] : ['Here', 'Ground'];
}

const probes: ReadonlySet<string> = new Set(['oscilloscope', 'logic-probe', 'frequency-counter', 'signal-tracer']);

/** Which lead goes to a pin. */
export function leadOf(pin: Pin, { read, ground }: Probed): 'read' | 'ground' | undefined {
  if (read.includes(pin)) return 'read';
  return pin === ground ? 'ground' : undefined;
}

/** Which lead goes where, in words: `Red lead: pin 11, +5 V. Black lead: pin 29, ground.` */
export function sayProbed({ read, ground, joins, leads: [first, second] }: Probed): string {
  // A leg that bears no number is told by its name alone.
  const say = ({ number, name }: Pin): string => (/^\d/.test(number) ? `pin ${number}, ${name}` : name);
  if (joins.length > 0) return `Join ${joins.map((pins) => pins.map(say).join(' with ')).join('; ')}.`;
  const each = read.length > 1 ? ', on one after the other' : '';
  return [
    `${first}${each}: ${read.map(say).join('; ')}.`,
    ...(ground === undefined ? [] : [`${second}: ${say(ground)}.`]),
  ].join(' ');
}
