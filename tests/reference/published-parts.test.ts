import { listParagraphs } from '#core/model/prose.ts';
import { findFreshEsr, formulas } from '#core/reading/formula.ts';
import { readContent } from '#build/library.ts';
import type { Substitute } from '#core/model/fault-tree.ts';
import { describe, expect, test } from 'vitest';
import { findTarget, healthyLimits, type PublishedRow, statementOf } from './published-limits.ts';

/** IEC 60063:2015, preferred number series, from memory: significant digits of one decade. */
const e6 = [10, 15, 22, 33, 47, 68];
const e24 = [10, 11, 12, 13, 15, 16, 18, 20, 22, 24, 27, 30, 33, 36, 39, 43, 47, 51, 56, 62, 68, 75, 82, 91];
/** Rated voltages in the specification table of a general-purpose aluminium electrolytic series. */
const ratedVolts = [6.3, 10, 16, 25, 35, 50, 63, 100];
/** The same table: greatest loss factor at 120 Hz and 20 °C by rated voltage, and 0.02 for each further 1000 µF. */
const lossFactors = [0.23, 0.2, 0.16, 0.14, 0.12, 0.1, 0.09, 0.08];
/** IEC 60062:2016, clause 3, from memory: digit of each colour. */
const colours = ['black', 'brown', 'red', 'orange', 'yellow', 'green', 'blue', 'violet', 'grey', 'white'];

const { library } = readContent();
const substitutes: readonly Substitute[] = [...library.trees.values()].flatMap(({ nodes }) =>
  nodes.flatMap((node) => (node.kind === 'cause' ? (node.repair?.substitutes ?? []) : [])),
);

/** Numbers that stand before an ohm or farad unit, ranges included: `470 µF to 1000 µF`, `1 to 22 µF`. */
function partValues(text: string): readonly { readonly digits: string; readonly unit: string }[] {
  return [...text.matchAll(/([\d.]+)(?: to ([\d.]+))? (Ω|kΩ|MΩ|pF|nF|µF)/g)].flatMap(([, first, second, unit]) =>
    [first, second].flatMap((digits) => (digits === undefined || unit === undefined ? [] : [{ digits, unit }])),
  );
}

/** The two significant digits of a value: 4.7 is 47, 330 is 33, 0.1 is 10. */
function significant(digits: string): number {
  return Number((Number(digits).toExponential(9).split('e')[0] ?? '').replace('.', '').slice(0, 2));
}

/** True where nothing but zeros follows the two digits. */
function hasTwoDigits(digits: string): boolean {
  return Number(digits) === Number(Number(digits).toPrecision(2));
}

describe('part values belong to the preferred series', () => {
  const named = substitutes.flatMap(({ value }) => partValues(value ?? ''));

  test('the series follow the tenth power they are rounded from, apart from the historical exceptions', () => {
    // IEC 60063: E24 is 10^(n/24), with 27 to 47 and 82 as the known exceptions.
    const exceptions = new Set([27, 30, 33, 36, 39, 43, 47, 82]);
    for (const [index, member] of e24.entries()) {
      const exact = Math.round(10 * 10 ** (index / 24));
      expect(exceptions.has(member) ? Math.abs(member - exact) === 1 : member === exact, `${member}`).toBe(true);
    }
    expect(e24.filter((_, index) => index % 4 === 0)).toEqual(e6);
  });

  test('every resistance and capacitance that a substitute names is in E24', () => {
    expect(named.length).toBeGreaterThanOrEqual(10);
    for (const { digits, unit } of named) {
      expect(e24, `${digits} ${unit}`).toContain(significant(digits));
      expect(hasTwoDigits(digits), `${digits} ${unit}`).toBe(true);
    }
  });

  test('every capacitance that a substitute names is in E6, the series of 20 %', () => {
    const capacitances = named.filter(({ unit }) => unit.endsWith('F'));
    expect(capacitances.length).toBeGreaterThanOrEqual(5);
    for (const { digits, unit } of capacitances) expect(e6, `${digits} ${unit}`).toContain(significant(digits));
  });

  test('every part that the demo units name by number has a value of E24', () => {
    const texts = [...library.units.values()].flatMap(({ points, differs, prose }) => [
      ...Object.values(points),
      ...Object.values(differs),
      ...listParagraphs(prose),
    ]);
    const parts = texts.flatMap((text) =>
      [...text.matchAll(/\b[RC]N?\d+(?: and [RC]\d+)?(?:,| is) [\d.]+ (?:Ω|kΩ|MΩ|pF|nF|µF)/g)].flatMap(([found]) =>
        partValues(found),
      ),
    );
    expect(parts.length).toBeGreaterThanOrEqual(12);
    for (const { digits, unit } of parts) {
      expect(e24, `${digits} ${unit}`).toContain(significant(digits));
      expect(hasTwoDigits(digits), `${digits} ${unit}`).toBe(true);
    }
  });

  test('every voltage that a substitute names is a rated voltage of the series sheet', () => {
    const volts = substitutes.flatMap(({ voltage }) =>
      /^([\d.]+) V\b/.exec(voltage ?? '')?.[1] === undefined ? [] : [Number.parseFloat(voltage ?? '')],
    );
    expect(volts.length).toBeGreaterThanOrEqual(8);
    for (const rating of volts) expect(ratedVolts).toContain(rating);
  });
});

describe('the colour code', () => {
  const read = (...bands: readonly string[]): number => {
    const [multiplier = 0, ...digits] = bands.map((band) => colours.indexOf(band)).toReversed();
    return Number(digits.toReversed().join('')) * 10 ** multiplier;
  };

  test('reads the published examples', () => {
    // Red, violet, black, brown is 270 × 10: four bands of a 1 % part.
    expect(read('red', 'violet', 'black', 'brown')).toBe(2700);
    expect(read('orange', 'orange', 'brown')).toBe(330);
  });

  test('makes yellow, violet, red 4.7 kΩ and brown, black, green 1 MΩ, as the page says', () => {
    expect(read('yellow', 'violet', 'red')).toBe(4700);
    expect(read('brown', 'black', 'green')).toBe(1e6);
    expect(statementOf('resistor-tolerance')).toContain('Yellow, violet, red is 4.7 kΩ; brown, black, green is 1 MΩ');
  });
});

describe('electrolytic capacitors follow the series sheet', () => {
  const seriesResistance = (microfarads: number, lossFactor: number): number =>
    lossFactor / (2 * Math.PI * 120 * microfarads * 1e-6);

  test('the loss factors printed are those of the sheet, by rated voltage', () => {
    const printed = /0\.23 at 6\.3 V.*?0\.08 at 100 V/.exec(statementOf('esr-120'))?.[0] ?? '';
    const pairs = [...printed.matchAll(/(0\.\d+) at ([\d.]+)/g)].map(([, loss, volts]) => [
      Number(loss),
      Number(volts),
    ]);
    expect(pairs).toEqual(ratedVolts.map((volts, index) => [lossFactors[index], volts]));
    expect(statementOf('esr-120')).toContain('0.02 more for each further 1000 µF');
  });

  test('tan δ/(2πfC) gives 2.12 Ω for 100 µF 16 V and 0.186 Ω for 1000 µF 25 V', () => {
    expect(seriesResistance(100, 0.16)).toBeCloseTo(2.12, 2);
    expect(seriesResistance(1000, 0.14)).toBeCloseTo(0.186, 3);
    expect(findFreshEsr(100e-6, 16)).toBeCloseTo(2.12, 2);
    expect(findFreshEsr(1000e-6, 25)).toBeCloseTo(0.186, 3);
    expect(statementOf('esr-120')).toContain('100 µF 16 V gives 2.12 Ω, 1000 µF 25 V gives 0.186 Ω');
  });

  test('the end of life is twice the loss factor, and a tester near 100 kHz is told not to use it', () => {
    expect(healthyLimits('esr-120')).toEqual([undefined, 200]);
    expect(statementOf('esr-120')).toContain('never use this figure with them');
  });

  test('leakage is 0.01 CV or 3 µA, whichever is greater: 16 µA for 100 µF on 16 V', () => {
    expect(Math.max(0.01 * 100 * 16, 3)).toBe(16);
    expect(statementOf('capacitor-leakage')).toContain('100 µF on 16 V may leak 16 µA');
    // 16 mV over 1 kΩ are those 16 µA: 100 % of what is allowed.
    expect(formulas.leakage.compute([0.016, 100e-6, 16])).toBeCloseTo(1, 12);
    expect(formulas.leakage.compute([0.003, 1e-6, 16])).toBeCloseTo(1, 12);
    // Ohm's law: 1 µA through 1 kΩ. Through 10 kΩ a 4700 µF part (0.01 CV = 1.2 mA at 25 V) would lose 12 V and need minutes.
    expect(1e-6 * 1e3).toBeCloseTo(0.001, 12);
    expect(0.01 * 4700 * 25).toBeCloseTo(1175, 6);
    expect(statementOf('capacitor-leakage')).toContain('1 mV is 1 µA');
  });

  test('capacitance keeps the 20 % of the sheet and the +80 % of period data books, from memory', () => {
    expect(healthyLimits('capacitance-electrolytic')).toEqual([100 - 20, 100 + 80]);
    expect(findTarget('capacitance-electrolytic').status).toBe('memory');
  });
});

describe('junctions are those of the makers’ sheets', () => {
  const rows: readonly PublishedRow[] = [
    // BC847 class table: VBE 0.58, 0.66, 0.70 V at 2 mA. 2N3904 table at 10 mA and 1 mA: VBE(sat) 0.65 to 0.85 V,
    // VCE(sat) at most 0.2 V.
    ['transistor-vbe', 0.58, 0.85, 'read'],
    ['transistor-saturation', undefined, 0.2, 'read'],
    // 1N5817 table: at most 0.45 V at 1 A; the diode range's lower limit is practice.
    ['schottky-junction', 0.15, 0.45, 'practice'],
    // A meter's diode range feeds about 1 mA: practice.
    ['silicon-junction', 0.45, 0.75, 'practice'],
  ];

  test.each(rows)('%s keeps its limits and says where they come from', (slug, low, high, status) => {
    expect(healthyLimits(slug)).toEqual([low, high]);
    expect(findTarget(slug).status).toBe(status);
  });

  test('the diode range passes no silicon junction that the sheets refuse at full current', () => {
    // 1N4148: at most 1.0 V at 10 mA; 1N4001 to 1N4007: at most 1.1 V at 1 A.
    expect(healthyLimits('silicon-junction')[1]).toBeLessThanOrEqual(1);
    expect((healthyLimits('bridge-two-diodes')[1] ?? 0) / 2).toBe(1.1);
  });

  test('the Schottky classes promise 0.45 to 0.60 V at 1 A and leak up to 10 mA hot', () => {
    // 1N5817, 1N5818, 1N5819 tables: 0.45, 0.55, 0.60 V; 10 mA at 100 °C.
    expect(statementOf('schottky-junction')).toContain('0.45 to 0.60 V at full current');
    expect(statementOf('schottky-junction')).toContain('up to 10 mA when hot');
  });

  test('silicon and Schottky cannot be taken for each other on the diode range', () => {
    expect(healthyLimits('silicon-junction')[0]).toBeGreaterThanOrEqual(healthyLimits('schottky-junction')[1] ?? 1);
  });

  test('a working transistor’s base junction reads as silicon does', () => {
    // The diode range feeds about 1 mA, so its window holds the sheet's 0.58 to 0.70 V at 2 mA, not the 0.85 V at 10 mA.
    const [lowest = 0, highest = 0] = healthyLimits('silicon-junction');
    expect(healthyLimits('transistor-vbe')[0]).toBeGreaterThanOrEqual(lowest);
    expect(highest).toBeGreaterThanOrEqual(0.7);
    expect(statementOf('transistor-vbe')).toContain('0.58 to 0.70 V at 2 mA');
  });
});

describe('a wire of a signal lead follows the copper wire table', () => {
  /** Diameter in millimetres of an American wire gauge, by its definition: 0.127 mm × 92^((36 − n) ÷ 39). */
  const ohmsPerMetre = (gauge: number): number => {
    const millimetres = 0.127 * 92 ** ((36 - gauge) / 39);
    return 0.017241 / ((Math.PI / 4) * millimetres ** 2);
  };

  test('28 gauge has 0.21 Ω and 30 gauge 0.34 Ω a metre, as the table’s 6.49 and 10.32 Ω for 100 feet', () => {
    expect(6.49 / 30.48).toBeCloseTo(ohmsPerMetre(28), 2);
    expect(10.32 / 30.48).toBeCloseTo(ohmsPerMetre(30), 2);
    expect(statementOf('signal-lead')).toContain('28 gauge 0.21 Ω and 30 gauge 0.34 Ω a metre');
  });

  test('the limit passes 1.5 m of either with 0.4 Ω and more left for the contacts', () => {
    const limit = healthyLimits('signal-lead')[1] ?? 0;
    expect(limit - 1.5 * ohmsPerMetre(30)).toBeGreaterThan(0.4);
    expect(healthyLimits('lead-conductor')[1]).toBeLessThan(limit);
  });
});

describe('coupling capacitors', () => {
  test('470 µF into 8 Ω passes everything above 42 Hz, 1/(2πRC)', () => {
    expect(1 / (2 * Math.PI * 8 * 470e-6)).toBeCloseTo(42, 0);
    const advice = substitutes
      .flatMap(({ prose }) => listParagraphs(prose))
      .filter((text) => text.includes('470 µF into 8 Ω'));
    expect(advice).toEqual([expect.stringContaining('above 42 Hz')]);
  });
});
