import { readContent } from '#build/library.ts';
import { describe, expect, test } from 'vitest';
import { findTarget, healthyLimits, statementOf, variantLimits } from './published-limits.ts';

/** Composite video parameter table: 625 lines at 25 frames; 525 lines from the 4.5 MHz sound carrier divided by 286. */
const palLineHertz = 625 * 25;
const ntscLineHertz = 4.5e6 / 286;

describe('line and field timing follow from the standards', () => {
  test('the PAL line is 15 625 Hz and 64.000 µs', () => {
    expect(palLineHertz).toBe(15_625);
    expect(variantLimits('line-period', 'pal').nominal).toBeCloseTo(1e6 / palLineHertz, 10);
    expect(findTarget('line-period').nominal).toBe(64);
  });

  test('the NTSC line is 15 734.264 Hz and 63.556 µs', () => {
    expect(ntscLineHertz).toBeCloseTo(15_734.264, 2);
    expect(variantLimits('line-period', 'ntsc').nominal).toBeCloseTo(1e6 / ntscLineHertz, 3);
  });

  test('the 0.5 % either side, which is practice, is 0.5 % of each', () => {
    for (const variant of ['pal', 'ntsc']) {
      const { low, nominal, high } = variantLimits('line-period', variant);
      expect(Math.abs((low ?? 0) - (nominal ?? 0) * 0.995)).toBeLessThan(0.01);
      expect(Math.abs((high ?? 0) - (nominal ?? 0) * 1.005)).toBeLessThan(0.01);
    }
    expect(findTarget('line-period').status).toBe('practice');
  });

  test('the fields are two to a frame: 50 Hz, and 59.94 Hz from the 525-line rate', () => {
    expect(palLineHertz / 312.5).toBe(50);
    expect(ntscLineHertz / 262.5).toBeCloseTo(59.94, 2);
    expect(variantLimits('field-rate', 'pal').nominal).toBe(50);
    expect(variantLimits('field-rate', 'ntsc').nominal).toBe(59.94);
  });

  test.each([
    ['pal', palLineHertz / 312, '50.08 Hz'],
    ['pal', palLineHertz / 311, '50.24'],
    ['ntsc', ntscLineHertz / 262, '60.05 Hz'],
    ['ntsc', ntscLineHertz / 263, '59.83 Hz'],
  ])('a healthy machine without interlace passes: %s at %f Hz', (variant, hertz, printed) => {
    const { low, high } = variantLimits('field-rate', variant);
    expect(hertz).toBeGreaterThan(low ?? Number.POSITIVE_INFINITY);
    expect(hertz).toBeLessThan(high ?? 0);
    expect(Number.parseFloat(printed)).toBeCloseTo(hertz, 2);
    expect(statementOf('field-rate')).toContain(printed);
  });

  test.each(['field-rate', 'sync-level', 'burst-level', 'luma-level', 'colour-subcarrier'])(
    '%s is judged as PAL while no unit has been chosen',
    (slug) => {
      const { low, high } = variantLimits(slug, 'pal');
      expect(healthyLimits(slug)).toEqual([low, high]);
    },
  );

  test('a line period is judged by both standards together while no unit has been chosen', () => {
    expect(healthyLimits('line-period')).toEqual([
      variantLimits('line-period', 'ntsc').low,
      variantLimits('line-period', 'pal').high,
    ]);
  });

  test('the line sync is 4.7 µs wide and its limits lie 0.2 µs either side', () => {
    // Composite video parameter table (it prints ms where µs is meant).
    expect(findTarget('sync-width').nominal).toBe(4.7);
    expect(healthyLimits('sync-width')).toEqual([4.5, 4.9]);
  });
});

describe('subcarriers follow from the line rate', () => {
  test('PAL: 283.75 lines’ worth and 25 Hz is 4 433 618.75 Hz, a quarter of 17.734475 MHz', () => {
    const hertz = 283.75 * palLineHertz + 25;
    expect(hertz).toBe(4_433_618.75);
    expect(17_734_475 / 4).toBe(hertz);
    expect(variantLimits('colour-subcarrier', 'pal').nominal).toBe(hertz);
    expect(statementOf('colour-subcarrier')).toContain('4 433 618.75 Hz for PAL');
    expect(statementOf('colour-subcarrier')).toContain('17.734475 MHz');
  });

  test('NTSC: 227.5 lines’ worth is 3 579 545 Hz, a quarter of 14.31818 MHz', () => {
    const hertz = 227.5 * ntscLineHertz;
    expect(hertz).toBeCloseTo(3_579_545, 0);
    expect(14_318_180 / 4).toBe(3_579_545);
    expect(variantLimits('colour-subcarrier', 'ntsc').nominal).toBe(3_579_545);
    expect(statementOf('colour-subcarrier')).toContain('14.31818 MHz');
  });

  test('50 ppm of the PAL subcarrier is 222 Hz, and the 300 Hz of practice is 68 ppm, or 84 ppm in NTSC', () => {
    expect(50e-6 * 4_433_618.75).toBeCloseTo(222, 0);
    expect(300 / 4.43361875).toBeCloseTo(68, 0);
    expect(300 / 3.579545).toBeCloseTo(84, 0);
    expect(healthyLimits('clock-error-colour')).toEqual([-50, 50]);
    expect(statementOf('clock-error-colour')).toContain('222 Hz at the PAL subcarrier');
    expect(statementOf('clock-error-colour')).toContain('68 ppm PAL or 84 ppm NTSC');
    for (const variant of ['pal', 'ntsc']) {
      const { low, nominal, high } = variantLimits('colour-subcarrier', variant);
      expect([(nominal ?? 0) - (low ?? 0), (high ?? 0) - (nominal ?? 0)]).toEqual([300, 300]);
    }
  });
});

describe('levels follow from 1 V into 75 Ω', () => {
  test('sync and burst are 300 mV in PAL and 40 parts of 140, 286 mV, in NTSC, within the 10 % of practice', () => {
    expect((1000 * 40) / 140).toBeCloseTo(286, 0);
    for (const slug of ['sync-level', 'burst-level']) {
      expect(variantLimits(slug, 'pal')).toEqual({ low: 270, nominal: 300, high: 330 });
      // 0.9 × 286 = 257.4 and 1.1 × 286 = 314.6, printed without decimals.
      expect(variantLimits(slug, 'ntsc')).toEqual({ low: 257, nominal: 286, high: 315 });
      expect(findTarget(slug).status).toBe('practice');
    }
  });

  test('luminance is the rest: 700 mV in PAL and 100 parts of 140, 714 mV, in NTSC', () => {
    expect(100 / 140).toBeCloseTo(0.714, 3);
    expect(variantLimits('luma-level', 'pal').nominal).toBe(0.7);
    expect(variantLimits('luma-level', 'ntsc').nominal).toBe(0.714);
  });

  test('sync and luminance add up to the 1 V of the composite signal', () => {
    for (const variant of ['pal', 'ntsc']) {
      const sum =
        (variantLimits('sync-level', variant).nominal ?? 0) / 1000 +
        (variantLimits('luma-level', variant).nominal ?? 0);
      expect(sum).toBeCloseTo(findTarget('composite-level').nominal ?? 0, 10);
    }
    // Practice: machines of the time give 0.7 to 1.5 V into 75 Ω, so the standard's 1 V is not held to 10 %.
    expect(healthyLimits('composite-level')).toEqual([0.6, 1.6]);
  });

  test('a 75 Ω source gives double without a load and two thirds into two loads', () => {
    const level = (loadOhms: number): number => (2 * loadOhms) / (75 + loadOhms);
    expect(level(75)).toBe(1);
    expect(level(1e12)).toBeCloseTo(2, 6);
    expect(level(37.5)).toBeCloseTo(2 / 3, 10);
    const misreads = findTarget('composite-level').misreads;
    const covers = (volts: number): readonly string[] =>
      misreads.filter(({ from, to }) => volts >= (from ?? -1) && volts <= (to ?? 99)).map(({ says }) => says);
    expect(covers(2)).toEqual([expect.stringContaining('nothing terminates')]);
    expect(covers(2 / 3)).toEqual([expect.stringContaining('two terminations')]);
    expect(statementOf('termination')).toContain('About 37 Ω means two of them');
  });

  test('75 Ω within 5 % is 71 to 79 Ω', () => {
    expect(healthyLimits('termination')).toEqual([Math.round(75 * 0.95), Math.round(75 * 1.05)]);
  });

  test('analogue RGB is 0.7 V into 75 Ω, from memory of IEC 60933, within 10 %', () => {
    const [low, high] = healthyLimits('rgb-level');
    expect(low).toBeCloseTo(0.7 * 0.9, 10);
    expect(high).toBeCloseTo(0.7 * 1.1, 10);
    expect(findTarget('rgb-level').status).toBe('memory');
  });
});

describe('clock and reset', () => {
  test('a serial clock of 1.8432 MHz makes 9600 exactly, and 2 MHz makes 9615.4, 0.16 % fast', () => {
    expect(1_843_200 / 16 / 12).toBe(9600);
    expect(2e6 / 13 / 16).toBeCloseTo(9615.4, 1);
    expect((2e6 / 13 / 16 / 9600 - 1) * 100).toBeCloseTo(0.16, 2);
    expect(statementOf('bit-rate-error')).toContain('9615.4, an error of +0.16 %');
  });

  test('half a bit over nine and a half bits is 5.3 % for both ends, more than twice the 2 % allowed at each', () => {
    expect((0.5 / 9.5) * 100).toBeCloseTo(5.3, 1);
    expect(healthyLimits('bit-rate-error')).toEqual([-2, 2]);
    expect(statementOf('bit-rate-error')).toContain('5.3 % for both ends together');
  });

  /** Milliseconds until an RC node on 5 V reaches `volts`: t = RC ln(V/(V − v)). */
  const rise = (ohms: number, farads: number, volts: number): number =>
    1000 * ohms * farads * Math.log(5 / (5 - volts));

  test('4.7 kΩ and 22 µF reach the 1.6 V of a 74LS14 in 40 ms, and in 16 ms with 40 % of the capacitance', () => {
    expect(rise(4700, 22e-6, 1.6)).toBeCloseTo(40, 0);
    expect(rise(4700, 0.4 * 22e-6, 1.6)).toBeCloseTo(16, 0);
    expect(statementOf('reset-length')).toContain('40 ms, and 16 ms when the capacitor has dried to 40 %');
  });

  test.each([
    ['quillon-44', 22e-6],
    ['bracken', 47e-6],
  ])(
    'the reset length of %s is what its own RC gives over the 74LS14 thresholds and the parts’ tolerance',
    (slug, farads) => {
      const limits = readContent().library.units.get(slug)?.targets['reset-length'];
      // Thresholds 1.4 to 1.9 V; electrolytic −20 to +50 %, resistor 5 %.
      expect(limits?.low).toBe(Math.round(rise(4700 * 0.95, farads * 0.8, 1.4)));
      expect(limits?.nominal).toBe(Math.round(rise(4700, farads, 1.6)));
      expect(limits?.high).toBe(Math.round(rise(4700 * 1.05, farads * 1.5, 1.9)));
    },
  );

  test('the Bracken’s raster and watchdog follow from its crystal', () => {
    const bracken = readContent().library.units.get('bracken');
    const lineMicroseconds = 320 / 5;
    const fieldHertz = 1e6 / lineMicroseconds / 258;
    expect(bracken?.targets['line-period']?.nominal).toBe(lineMicroseconds);
    expect(bracken?.targets['field-rate']?.nominal).toBeCloseTo(fieldHertz, 2);
    expect(Math.round(12_000 / fieldHertz)).toBe(198);
    expect(bracken?.differs['reset-stuck']).toContain('every twelve fields, about 198 ms');
  });

  test('three clock periods at 4 MHz and two cycles at 1 MHz are far below the 20 ms of practice', () => {
    // Microprocessor user manuals on reset length: three clock periods for one class, two cycles for another.
    expect(Math.max(3 / 4e6, 2 / 1e6) * 1000).toBeLessThan((healthyLimits('reset-length')[0] ?? 0) / 1000);
    expect(statementOf('reset-length')).toContain('three clock periods for one class and two for another');
  });
});
