import type { OwnValuesName } from '../model/target.ts';
import { parseReading } from '../quantity/parse-reading.ts';
import { printQuantity } from '../quantity/reading.ts';
import { findUnit, takesPrefix } from '../quantity/unit.ts';
import { findLossOhms, findRipple } from './formula.ts';

/** A part or condition of the reader's own unit. */
export interface OwnValue {
  readonly name: string;
  /** What a bare number is in: `kΩ`, or what no instrument reads: `°C/W`. */
  readonly unit: string;
  /** As the worked example has it, in `unit`. */
  readonly example: number;
  /** Its tolerance in per cent where nothing else is known; 0 for what is counted or read. */
  readonly tolerance: number;
}

/** What follows from values of one's own: a target of one's own, with the worst case of the tolerances. */
export interface OwnFormula {
  readonly title: string;
  /** The formula for people. */
  readonly says: string;
  readonly source: string;
  readonly values: readonly OwnValue[];
  readonly result: { readonly name: string; readonly unit: string };
  /** From units without prefix to the unit of the result without prefix. */
  readonly compute: (values: readonly number[]) => number;
}

const value = (name: string, unit: string, example: number, tolerance = 0): OwnValue => ({
  name,
  unit,
  example,
  tolerance,
});

/** Every calculation that a target's page offers; content names them. */
export const ownFormulas: Readonly<Record<OwnValuesName, OwnFormula>> = {
  'current-by-drop': {
    title: 'Current from a drop',
    says: 'I = U ÷ R',
    source: 'Ohm’s law',
    values: [value('drop over the part', 'mV', 45), value('its resistance', 'Ω', 0.1, 5)],
    result: { name: 'current', unit: 'A' },
    compute: ([volts = 0, ohms = 0]) => volts / ohms,
  },
  'charge-time': {
    title: 'Time until a capacitor reaches a voltage',
    says: 't = R × C × ln(V ÷ (V − Vt))',
    source: 'charging through a resistor; after one R × C it is at 63.2 %',
    values: [
      value('resistor', 'kΩ', 4.7, 5),
      value('capacitor', 'µF', 22, 20),
      value('supply V', 'V', 5, 5),
      value('turning point Vt', 'V', 1.6),
    ],
    result: { name: 'time', unit: 's' },
    compute: ([ohms = 0, farads = 0, supply = 0, turn = 0]) => ohms * farads * Math.log(supply / (supply - turn)),
  },
  'bleed-time': {
    title: 'Time until a capacitor is down to a voltage, at the earliest',
    says: 't = R × C × ln(V ÷ Vs). Never safe by the clock: the resistor may be open. Measure.',
    source: 'discharging through a resistor; after one R × C it is at 36.8 %',
    values: [
      value('resistor', 'kΩ', 2.2, 5),
      value('capacitor', 'µF', 4700, 20),
      value('from V', 'V', 35),
      value('to Vs', 'V', 5),
    ],
    result: { name: 'time', unit: 's' },
    compute: ([ohms = 0, farads = 0, from = 0, to = 0]) => ohms * farads * Math.log(from / to),
  },
  'ripple-trough': {
    title: 'Lowest point of the ripple',
    says: '1.414 × secondary − 2 × diode − I ÷ (2 × f × C), full wave',
    source:
      'peak of the sine less a bridge’s two diodes, less the charge lost between two peaks; the true dip is a little smaller',
    values: [
      value('secondary under load', 'V rms', 9, 10),
      value('drop of one diode', 'V', 1),
      value('load current', 'A', 1),
      value('capacitor', 'µF', 4700, 20),
      value('mains frequency', 'Hz', 50),
    ],
    result: { name: 'lowest point', unit: 'V' },
    compute: ([rms = 0, diode = 0, amperes = 0, farads = 0, hertz = 0]) =>
      Math.SQRT2 * rms - 2 * diode - findRipple(amperes, hertz, farads),
  },
  ripple: {
    title: 'Ripple to expect',
    says: 'I ÷ (2 × f × C), full wave',
    source: 'the charge lost between two peaks; an upper estimate',
    values: [value('load current', 'A', 1), value('mains frequency', 'Hz', 50), value('capacitor', 'µF', 4700, 20)],
    result: { name: 'ripple', unit: 'Vpp' },
    compute: ([amperes = 0, hertz = 0, farads = 0]) => findRipple(amperes, hertz, farads),
  },
  'junction-heat': {
    title: 'Temperature inside a regulator',
    says: 'tab + (input − output) × I × junction to tab',
    source: 'the thermal tables of regulator sheets: 5 °C/W from junction to tab in TO-220, 125 °C at most',
    values: [
      value('tab', '°C', 75),
      value('input', 'V', 11),
      value('output', 'V', 5),
      value('current', 'A', 0.8),
      value('junction to tab', '°C/W', 5),
    ],
    result: { name: 'junction', unit: '°C' },
    compute: ([tab = 0, input = 0, output = 0, amperes = 0, thermal = 0]) => tab + (input - output) * amperes * thermal,
  },
  'adjusted-output': {
    title: 'Output that two resistors set',
    says: 'reference × (1 + the other ÷ the one with the reference across it)',
    source: 'the sheets of adjustable regulators and shunt references; the adjust leg’s own current is left out',
    values: [
      value('reference', 'V', 1.25, 4),
      value('resistor with the reference across it', 'Ω', 240, 5),
      value('the other resistor', 'Ω', 720, 5),
    ],
    result: { name: 'output', unit: 'V' },
    compute: ([reference = 0, across = 0, other = 0]) => reference * (1 + other / across),
  },
  'series-resistor': {
    title: 'Resistor before a lamp or Zener diode',
    says: 'R = (supply − drop) ÷ I',
    source: 'Ohm’s law',
    values: [value('supply', 'V', 5, 5), value('drop of the diode', 'V', 2, 10), value('current', 'mA', 10)],
    result: { name: 'resistor', unit: 'Ω' },
    compute: ([supply = 0, drop = 0, amperes = 0]) => (supply - drop) / amperes,
  },
  'turns-a-minute': {
    title: 'Turns a minute from the index pulse',
    says: '60 ÷ period',
    source: 'one pulse each turn',
    values: [value('period', 'ms', 203.5)],
    result: { name: 'speed', unit: 'turns a minute' },
    compute: ([seconds = 0]) => 60 / seconds,
  },
  'crystal-load': {
    title: 'Load that a crystal sees',
    says: 'C1 × C2 ÷ (C1 + C2) + stray',
    source: 'crystal makers’ notes on load capacitance',
    values: [value('C1', 'pF', 33, 5), value('C2', 'pF', 33, 5), value('board and pins', 'pF', 4, 50)],
    result: { name: 'load', unit: 'F' },
    compute: ([one = 0, other = 0, stray = 0]) => seriesOf(one, other) + stray,
  },
  'fresh-esr': {
    title: 'ESR at 120 Hz from the loss factor',
    says: 'tan δ ÷ (2 × π × 120 Hz × C)',
    source: 'the meaning of the loss factor',
    values: [value('tan δ on its sheet', '', 0.16), value('capacitance', 'µF', 100, 20)],
    result: { name: 'at most, when new', unit: 'Ω' },
    compute: ([factor = 0, farads = 0]) => findLossOhms(factor, farads),
  },
  divider: {
    title: 'Voltage between two resistors',
    says: 'supply × lower ÷ (upper + lower), with nothing drawn from it',
    source: 'Ohm’s law',
    values: [value('supply', 'V', 12, 5), value('upper resistor', 'kΩ', 2.7, 5), value('lower resistor', 'kΩ', 1.8, 5)],
    result: { name: 'voltage', unit: 'V' },
    compute: ([supply = 0, upper = 0, lower = 0]) => (supply * lower) / (upper + lower),
  },
  'pull-up-least': {
    title: 'Smallest pull-up that the output still pulls down',
    says: '(supply − low level) ÷ (output’s low current − what the inputs give)',
    source: 'the sheets of open-collector gates: 16 mA of a 7400 output, 8 mA of an LS one; 1.6 and 0.4 mA an input',
    values: [
      value('supply', 'V', 5),
      value('low level', 'V', 0.4),
      value('output’s low current', 'mA', 16),
      value('inputs together, low', 'mA', 4.8),
    ],
    result: { name: 'at least', unit: 'Ω' },
    compute: ([supply = 0, low = 0, sunk = 0, given = 0]) => (sunk > given ? (supply - low) / (sunk - given) : NaN),
  },
  'pull-up-most': {
    title: 'Largest pull-up that still makes a high',
    says: '(supply − high level) ÷ (leakage of the outputs + what the inputs take)',
    source: 'the sheets of open-collector gates: up to 0.25 mA leaks into each output, 0.04 mA goes into a 7400 input',
    values: [
      value('supply', 'V', 5),
      value('high level', 'V', 2.4),
      value('outputs together, leakage', 'mA', 1),
      value('inputs together, high', 'mA', 0.12),
    ],
    result: { name: 'at most', unit: 'Ω' },
    compute: ([supply = 0, high = 0, leaks = 0, taken = 0]) => (supply - high) / (leaks + taken),
  },
  'probe-pull': {
    title: 'How far a probe pulls the crystal',
    says: 'half the motional capacitance × (1 ÷ (C0 + load with the probe) − 1 ÷ (C0 + load))',
    source:
      'crystal makers’ notes on pulling; the motional capacitance is a typical one, so take it as a size, not a figure',
    values: [
      value('capacitor at the probed leg', 'pF', 33),
      value('the other capacitor', 'pF', 33),
      value('board and pins', 'pF', 4),
      value('probe', 'pF', 12),
      value('C0 of the crystal', 'pF', 5),
      value('motional capacitance', 'pF', 0.02),
    ],
    result: { name: 'pull', unit: 'ppm' },
    compute: ([probed = 0, other = 0, stray = 0, probe = 0, shunt = 0, motional = 0]) => {
      const [before, after] = [seriesOf(probed, other) + stray, seriesOf(probed + probe, other) + stray];
      return (motional / 2) * (1 / (shunt + after) - 1 / (shunt + before)) * 1e6;
    },
  },
  'current-loop': {
    title: 'Current in the loop',
    says: '(supply − drop of the light − the output’s low level) ÷ the three resistors together',
    source:
      'IEC 63035: a loop of 5 mA, and a receiver that is on with less; 220 Ω three times and 5 V as drawings of the loop show them',
    values: [
      value('sender’s supply', 'V', 5, 5),
      value('drop of the light', 'V', 1.5, 13),
      value('sender’s low output', 'V', 0.2),
      value('resistor to the supply', 'Ω', 220, 5),
      value('resistor at the output', 'Ω', 220, 5),
      value('resistor in the receiver', 'Ω', 220, 5),
    ],
    result: { name: 'current', unit: 'A' },
    compute: ([supply = 0, light = 0, low = 0, ...ohms]) =>
      (supply - light - low) / ohms.reduce((sum, one) => sum + one, 0),
  },
  'pitch-step': {
    title: 'How far a key is off, in cents',
    says: '1200 × log2(f ÷ expected); expected = first key × 2^(step ÷ volts an octave)',
    source: 'equal temperament: an octave doubles the frequency and has 1200 cents; a hundred make a semitone',
    values: [
      value('first key', 'Hz', 220),
      value('second key', 'Hz', 441),
      value('step between them', 'V', 1),
      value('volts an octave', 'V', 1),
    ],
    result: { name: 'off by', unit: 'cents' },
    compute: ([first = 0, second = 0, step = 0, octave = 0]) => 1200 * (Math.log2(second / first) - step / octave),
  },
};

/** Two capacitors one behind the other. */
function seriesOf(one: number, other: number): number {
  return (one * other) / (one + other);
}

/** What was typed for one value: the number without prefix and its tolerance in per cent. */
export interface OwnFigure {
  readonly value: number;
  readonly tolerance: number;
}

/** Reads what was typed for a value, `4k7` or `22`; undefined where it is none. Tolerances from 0 to 90 per cent. */
export function readOwnFigure(text: string, tolerance: string, { unit }: OwnValue): OwnFigure | undefined {
  const base = findUnit(unit)?.base;
  const parsed = parseReading(text, { quantity: '', unit: base === undefined ? '%' : unit });
  const percent = Number(tolerance.replace(',', '.').replace('%', ''));
  if (parsed.kind === 'problem' || parsed.reading.kind !== 'number' || !(percent >= 0 && percent <= 90))
    return undefined;
  return { value: parsed.reading.value, tolerance: percent };
}

/** The figures of the worked example. */
export function exampleFigures({ values }: OwnFormula): readonly OwnFigure[] {
  return values.map(
    (one) => readOwnFigure(String(one.example), String(one.tolerance), one) ?? { value: 0, tolerance: 0 },
  );
}

/** The result, and the least and the most of it that the tolerances allow: every corner of them is tried (worst case). */
export function computeOwn(
  { compute }: OwnFormula,
  figures: readonly OwnFigure[],
): { readonly value: number; readonly least: number; readonly most: number } {
  const corners = figures.reduce<readonly (readonly number[])[]>(
    (made, { value: middle, tolerance }) =>
      [...new Set([-tolerance, tolerance])].flatMap((off) => made.map((rest) => [...rest, middle * (1 + off / 100)])),
    [[]],
  );
  const results = corners.map(compute);
  return { value: compute(figures.map((one) => one.value)), least: Math.min(...results), most: Math.max(...results) };
}

/** The result in words: `time: 39.9 ms, with these tolerances 28.5 to 54.8 ms`; empty where nothing follows from the figures. */
export function sayOwn(formula: OwnFormula, figures: readonly OwnFigure[]): string {
  const { value: middle, least, most } = computeOwn(formula, figures);
  if (![middle, least, most].every(Number.isFinite)) return '';
  const print = (one: number): string => {
    const base = findUnit(formula.result.unit)?.base;
    return base !== undefined && takesPrefix(base)
      ? printQuantity(one, base, 3)
      : `${Number(one.toPrecision(4))}\u00a0${formula.result.unit}`;
  };
  const worst = least === most ? '' : `, with these tolerances ${print(least)} to ${print(most)}`;
  return `${formula.result.name}: ${print(middle)}${worst}`;
}
