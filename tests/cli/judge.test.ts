import { describe, expect, test } from 'vitest';
import { run as judge } from '../../src/cli/judge.ts';
import { runHere } from '../support/run-here.ts';

const run = (...words: readonly string[]) => runHere(judge, words);

function runJson(...words: readonly string[]): Readonly<Record<string, unknown>> {
  return JSON.parse(run(...words, '--json').stdout);
}

// 6000 counts, ±(0.5 % + 3 × 1 mV): at 4.72 V a = 0.0266 V, half digit 0.005 V, u = √(0.0266² + 0.005²)/√3 = 0.015626 V;
// (4.75 − 4.72)/u = 1.9198, Φ = 0.97256 from a normal table.
describe('npm run judge', () => {
  test('prints verdict, probabilities, uncertainty and unit as JSON, four bands always', () => {
    const judged = runJson('rail-5v-at-chip', '4.72');
    expect(judged).toMatchObject({ verdict: 'low', unit: 'V', instrument: 'multimeter-6000' });
    expect(judged['uncertainty']).toBeCloseTo(0.015_626, 5);
    const probabilities = judged['probabilities'];
    expect(probabilities).toMatchObject({ low: expect.closeTo(0.97256, 4), in: expect.closeTo(0.02744, 4), none: 0 });
    expect(Object.keys(probabilities ?? {})).toEqual(expect.arrayContaining(['low', 'in', 'high', 'none']));
    expect(Object.keys(runJson('ttl-output-low', '0.1')['probabilities'] ?? {})).toEqual(
      expect.arrayContaining(['low', 'none']),
    );
  });

  test('takes an instrument, its own accuracy, and a reading that begins with a minus', () => {
    expect(runJson('rail-5v-at-chip', '4.72', '--instrument', 'multimeter-2000')['verdict']).toBe('too-close');
    expect(runJson('rail-5v-at-chip', '4.720', '--instrument', '0.05% + 3')['verdict']).toBe('low');
    expect(runJson('memory-vbb', '-5.02')['verdict']).toBe('in');
  });

  // By hand: 4.4 of 9.0 V is 48.9 %; and 47 V where a loudspeaker has at most 0.5 V is 47 mV with its prefix lost.
  test('computes a target from its figures, and doubts what can hardly be', () => {
    expect(runJson('half-supply', '4.4; 9.0')).toMatchObject({
      verdict: 'in',
      unit: '%',
      value: expect.closeTo(48.89, 2),
    });
    expect(runJson('speaker-dc', '47')).toMatchObject({
      notes: expect.arrayContaining([expect.objectContaining({ kind: 'implausible' })]),
    });
  });

  test('catches a moving clock read with a meter', () => {
    expect(runJson('clock-at-gate', '1.8')).toMatchObject({ verdict: 'too-close', isEvidence: false });
  });

  test('says in words what it found and what would settle it', () => {
    const { stdout, status } = run('rail-5v-at-chip', '4,74 V', '--instrument=multimeter-2000');
    expect(status).toBe(0);
    expect(stdout).toContain('Too close to call: low or in range.');
    expect(stdout).toContain('To settle it: Read it with another instrument');
  });

  test('a hopeless reading, an unknown target and an unknown class end with a message', () => {
    expect(run('rail-5v-at-chip', '1e999')).toMatchObject({
      status: 1,
      stderr: expect.stringContaining('more than any'),
    });
    expect(runJson('rail-5v-at-chip', '4.7 ohm')).toMatchObject({ problem: { code: 'wrong-unit' } });
    expect(run('rail-5v-at-chp', '5')).toMatchObject({
      status: 2,
      stderr: expect.stringContaining('`rail-5v-at-chip`'),
    });
    expect(run('rail-5v-at-chip', '5', '--instrument', 'ruler')).toMatchObject({ status: 2 });
    expect(run('rail-5v-at-chip')).toMatchObject({ status: 2, stderr: expect.stringContaining('Usage') });
  });
});
