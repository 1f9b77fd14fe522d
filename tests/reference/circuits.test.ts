import { afterAll, describe, expect, it } from 'vitest';
import { loadLibrary } from '#build/library.ts';
import { Simulator, simulateCircuit } from '#build/simulator.ts';
import { findImpossible, listChangeable, parseValue, writeNetlist } from '#core/circuit/netlist.ts';
import { figureAt, measureWaveform, summarise } from '#core/circuit/waveform.ts';
import { type FigureName, healthy, type Netlist } from '#core/model/circuit.ts';

const { circuits } = loadLibrary();

function nominal(circuit: string, state: string, point: string, figure: FigureName = 'mean'): number {
  return circuits.get(circuit)?.results?.states[state]?.[point]?.[figure][0] ?? Number.NaN;
}

function bare(lines: readonly string[], points: Netlist['points']): Netlist {
  const words = { slug: 'trial', title: '', summary: '', source: '', status: 'practice' } as const;
  return { ...words, lines, points, evidence: [], tolerances: {}, faults: {} };
}

const simulator = new Simulator();
afterAll(() => simulator.stop());

describe('the simulator against closed forms', () => {
  it('charges a capacitor: 1 − 1/e of 5 V after one time constant, as the charging law has it', async () => {
    const rc = bare(['VS in 0 PULSE(0 5 0 1n 1n 1 2)', 'R1 in out 10k', 'C1 out 0 10u', '.tran 0.1m 100m 0 0.1m'], {
      'reset-pin': { red: 'out', black: '0' },
    });
    const reading = (await simulateCircuit(rc, simulator, 1)).states[healthy]?.['reset-pin'];
    expect(reading?.high[0]).toBeCloseTo(5 * (1 - Math.exp(-1)), 2);
  });

  it('divides a voltage as its two resistors do', async () => {
    const divider = bare(['VS in 0 9', 'R1 in out 2k', 'R2 out 0 1k', '.op'], {
      'regulator-out': { red: 'out', black: '0' },
    });
    const reading = (await simulateCircuit(divider, simulator, 1)).states[healthy]?.['regulator-out'];
    expect(reading?.mean[0]).toBeCloseTo(3, 3);
  });

  it('gives the figures of Debian’s ngspice 39.3 for a bridge of 13.9 V peak, 0.35 Ω, 4,700 µF and 1 A', async () => {
    // The program itself, run by hand: mean 9.98, ac 0.45, lowest 9.26, peak to peak 1.41 V; 100 dips a second.
    const bridge = bare(
      [
        '.model rectifier d(is=14.11n rs=0.034 n=1.984 cjo=25p tt=5u)',
        'VS a0 b SIN(0 13.9 50)',
        'RS a0 a 0.35',
        'RG b 0 1meg',
        'D1 a can rectifier',
        'D2 b can rectifier',
        'D3 0 a rectifier',
        'D4 0 b rectifier',
        'C1 can 0 4700u',
        'IL can 0 1',
        '.options method=gear',
        '.tran 0.1m 600m 400m 0.1m',
      ],
      { reservoir: { red: 'can', black: '0' } },
    );
    const reading = (await simulateCircuit(bridge, simulator, 0)).states[healthy]?.['reservoir'];
    expect(reading?.mean[0]).toBeCloseTo(9.98, 1);
    expect(reading?.ac[0]).toBeCloseTo(0.45, 1);
    expect(reading?.low[0]).toBeCloseTo(9.26, 1);
    expect(reading?.rate[0]).toBeCloseTo(100, 0);
  });
});

describe('circuits as they are kept', () => {
  it.each(['key-line', 'drive-command-line'])('%s is simulated to the same numbers again', async (slug) => {
    const {
      results,
      drawing: _,
      ...circuit
    } = circuits.get(slug) ?? { results: undefined, drawing: undefined, ...bare([], {}) };
    expect(await simulateCircuit(circuit, simulator)).toEqual(results);
  });

  it('a pulled-up key line rests at what its two resistors divide 5 V to, by hand', () => {
    expect(nominal('key-line', healthy, 'key-line')).toBeCloseTo((5 * 200) / 204.7, 2);
  });

  it('a called drive line lies at what the gate leaves of 5 V through 150 Ω, by hand', () => {
    // 5 V, 150 Ω in series with 0.2 Ω and 8 Ω to ground; 10 kΩ and 20 kΩ beside them change the third digit.
    expect(nominal('drive-command-line', healthy, 'drive-motor-host')).toBeCloseTo((5 * 8) / 158.2, 2);
    expect(nominal('drive-command-line', 'cable-link', 'drive-motor-line')).toBeCloseTo((5 * 20_000) / 20_150, 1);
  });

  it('a follower behind about 75 Ω gives about double without its load, as its divider does', () => {
    const loaded =
      nominal('video-follower', healthy, 'video-out', 'high') - nominal('video-follower', healthy, 'video-out', 'low');
    const open =
      nominal('video-follower', 'termination-open', 'video-out', 'high') -
      nominal('video-follower', 'termination-open', 'video-out', 'low');
    expect(open / loaded).toBeGreaterThan(1.8);
    expect(open / loaded).toBeLessThan(2.1);
  });

  it('ripple is not above I / (2 f C), which takes the capacitor to feed the load all the time (ripple formula of handbooks)', () => {
    const ripple =
      nominal('supply-7805', healthy, 'reservoir', 'high') - nominal('supply-7805', healthy, 'reservoir', 'low');
    const most = 1 / (2 * 50 * 4700e-6);
    expect(ripple).toBeLessThan(most);
    expect(ripple).toBeGreaterThan(0.5 * most);
  });

  it('dips come at twice the mains rate from a whole bridge, and at the mains rate with a diode open', () => {
    expect(nominal('supply-7805', healthy, 'reservoir', 'rate')).toBeCloseTo(100, 0);
    expect(nominal('supply-7805', 'bridge-half', 'reservoir', 'rate')).toBeCloseTo(50, 0);
  });

  it('the regulator leaves what lies less than 2 V above its output (dropout of the sheet)', () => {
    const states = circuits.get('supply-7805')?.results?.states ?? {};
    for (const points of Object.values(states)) {
      const input = points['regulator-in'];
      const output = points['regulator-out'];
      expect((output?.low[0] ?? 0) <= Math.max(0, (input?.low[0] ?? 0) - 1.9) + 0.05).toBe(true);
    }
  });
});

describe('netlists', () => {
  it.each([
    ['4700u', 4.7e-3],
    ['4700uF', 4.7e-3],
    ['1meg', 1e6],
    ['1m', 1e-3],
    ['0.35', 0.35],
    ['1e-9', 1e-9],
    ['10k', 1e4],
    ['-5', -5],
  ])('%s is %d', (text, value) => {
    expect(parseValue(text)).toBeCloseTo(value, 12);
  });

  it('has no value for a name or a formula', () => {
    expect([parseValue('{C}'), parseValue('abc'), parseValue('')]).toEqual([NaN, NaN, NaN]);
  });

  it('lists no part inside a sub-circuit, and says why a parameter cannot open', () => {
    const parts = listChangeable([
      '.subckt inner a b',
      'R9 a b 1k',
      '.ends',
      '.param V=5',
      'R1 x y 2k',
      'Q1 c b e npn',
    ]);
    expect([...parts.keys()]).toEqual(['V', 'R1', 'Q1']);
    expect(parts.get('Q1')?.nodes).toEqual(['c', 'b', 'e']);
    expect(findImpossible({ kind: 'open' }, parts.get('V') ?? { name: '', line: 0, value: 0, nodes: [] })).toBe(
      'a parameter neither opens nor shorts',
    );
  });

  it('opens a part, shorts collector to emitter, and goes round the ways of a fault', () => {
    const circuit = {
      ...bare(['.param V=5', 'R1 x y 2k', 'Q1 c b e npn', '.op'], { reservoir: { red: 'x', black: '0' } }),
      faults: {
        broken: { title: '', also: [], ways: [{ R1: { kind: 'open' } }, { Q1: { kind: 'short' } }] },
      },
    } as const;
    expect(writeNetlist(circuit, 'broken', 0)).toContain('RopenR1 x y 1g');
    expect(writeNetlist(circuit, 'broken', 1)).toContain('Q1 c b e npn\nRshortQ1 c e 0.05');
  });
});

describe('a waveform', () => {
  it('has the rms of a sine, amplitude over √2, its mean and its rate', () => {
    const seconds = Array.from({ length: 2001 }, (_, index) => index / 10_000);
    const volts = seconds.map((at) => 3 + 2 * Math.sin(2 * Math.PI * 50 * at));
    const { mean, ac, low, high, rate } = measureWaveform({ seconds, volts });
    expect([mean, ac, low, high, rate]).toEqual([
      expect.closeTo(3, 3),
      expect.closeTo(Math.SQRT2, 3),
      expect.closeTo(1, 3),
      expect.closeTo(5, 3),
      expect.closeTo(50, 1),
    ]);
  });

  it('summarised by percentiles gives back its median and its ends', () => {
    const spread = summarise(7, [1, 2, 3, 4, 5]);
    expect([spread[0], figureAt(spread, 0), figureAt(spread, 0.5), figureAt(spread, 1)]).toEqual([7, 1, 3, 5]);
  });
});
