import { describe, expect, test } from 'vitest';
import { run as next } from '../../src/cli/next.ts';
import { runHere } from '../support/run-here.ts';

function run(...words: readonly string[]) {
  return runHere(next, words);
}

describe('npm run next', () => {
  test('prints causes with probabilities that sum to one, the next step and the minutes left, as JSON and nothing else', () => {
    const { status, stdout, stderr } = run(
      'audio-silent',
      'settings=silent',
      'speaker-dc=0.01V',
      'speaker-ohms=OL,8ohm',
      '--json',
    );
    expect([status, stderr]).toEqual([0, '']);
    const answer: unknown = JSON.parse(stdout);
    expect(answer).toMatchObject({
      next: { repair: 'speaker-open' },
      expectedMinutes: expect.any(Number),
      written: 'outside-look',
      problems: [],
    });
    const { causes } = answer as { readonly causes: readonly { readonly id: string; readonly probability: number }[] };
    expect(causes.reduce((sum, { probability }) => sum + probability, 0)).toBeCloseTo(1, 9);
    expect(causes[0]?.id).toBe('speaker-open');
  });

  test('takes stages of a path and a repair that did not cure', () => {
    const { status, stdout } = run('audio-silent', 'to-speaker/amp-in=bad', 'did=wiper-dead', '--json');
    expect(status).toBe(0);
    // The wiper and the coupling capacitor lie before that stage; the wiper was repaired in vain.
    const { causes } = JSON.parse(stdout) as { readonly causes: readonly { readonly id: string }[] };
    const ids = causes.map(({ id }) => id);
    expect(ids).toContain('input-coupling');
    expect(ids.indexOf('input-coupling')).toBeLessThan(ids.indexOf('wiper-dead'));
  });

  test('says what it did not understand, with the words there are, and answers with the rest', () => {
    const { status, stdout, stderr } = run(
      'audio-silent',
      'settings=loud',
      'speaker-dc=4.7kΩ',
      'nowhere=yes',
      'did=nobody',
    );
    expect(status).toBe(1);
    expect(stderr).toContain('expected plays, knob, jack, headphones-only, hiss, silent');
    expect(stderr).toContain('“4.7kΩ” at “Is there dc at the loudspeaker?”');
    expect(stderr).toContain('There is no check “nowhere”');
    expect(stderr).toContain('There is no cause “nobody”');
    expect(stdout).toContain('Next: check Covers on');
  });

  test('never throws at hopeless input', () => {
    const { status, stderr } = run(
      ...[
        'audio-silent',
        'settings=__proto__',
        `speaker-dc=${'9'.repeat(200)}`,
        'speaker-ohms=1e999',
        'speaker-dc=NaN',
      ],
    );
    expect(status).toBe(1);
    expect(stderr).not.toContain('    at ');
  });

  test('refuses an unknown tree, class or a pair without a sign, with the nearest name', () => {
    expect(run('audio-silnt')).toMatchObject({ status: 2, stderr: expect.stringContaining('audio-silent') });
    expect(run('audio-silent', '--with', 'multimeter-600')).toMatchObject({
      status: 2,
      stderr: expect.stringContaining('multimeter-6000'),
    });
    expect(run('audio-silent', 'settings')).toMatchObject({ status: 2, stderr: expect.stringContaining('Usage') });
  });

  test('plans only with what is at hand, and says what another instrument would save', () => {
    // What hum looks like along the signal a meter cannot tell.
    const { stdout } = run('audio-hum', '--own', 'multimeter', '--json');
    const { instruments } = JSON.parse(stdout) as { readonly instruments: readonly { readonly family: string }[] };
    expect(instruments.map(({ family }) => family)).toContain('oscilloscope');
    expect(instruments.map(({ family }) => family)).not.toContain('multimeter');
  });
});
