import { describe, expect, it } from 'vitest';
import { loadLibrary } from '#build/library.ts';
import { parseLinkState } from '#core/share/link-state.ts';
import { findStanding, makeReport, type ReportFrame } from '#core/walk/make-report.ts';
import type { BenchTree } from '#core/walk/judge-answer.ts';
import { namesOf } from '#core/share/map-names.ts';
import { makeTreeMap } from '#core/share/tree-map.ts';
import { makeCause, makeCheck, makePath, makeTree } from '../../arbitraries/make-tree.ts';
import { makeTarget } from '../../support/make-target.ts';

const rail = makeTarget({ slug: 'rail' });
const at = { target: 'rail', point: undefined };
const tree = makeTree([
  makeCheck('lamp', { yes: 'chip', no: 'fuse-open' }, { title: 'Does the lamp light?' }),
  makeCheck('chip', { 'none low': 'follow', in: 'worn', high: 'worn' }, { title: '5 V at the chip?', target: at }),
  makePath('follow', { 'input leg': 'fuse-open', 'output leg': 'regulator-open' }, 'worn', { title: 'Follow it' }),
  makeCause('fuse-open', { title: 'Fuse open' }),
  makeCause('regulator-open', { title: 'Regulator open' }),
  makeCause('worn', { title: 'Socket worn' }),
]);
const names = namesOf(makeTreeMap(tree, ['clock-dead'], []));

const bench: BenchTree = {
  tree,
  references: { targets: new Map([['rail', rail]]), instrumentClasses: loadLibrary().instrumentClasses },
  limits: {},
};
const frame: ReportFrame = { unit: '', symptom: '', notes: '', cautions: [], link: '' };

function reportOf(fragment: string, node?: string, on: BenchTree = bench) {
  return makeReport({ bench: on, state: parseLinkState(fragment, names).state, node }, frame);
}

// Verdicts follow from 4.75 to 5.25 V by hand: a multimeter of ±(0.5 % + 3 digits) or better is never 0.25 V off at 4 or 5 V.
describe('a line of a report', () => {
  it.each([
    ['chip=4.21V', { said: '4.21\u00a0V', target: '4.75 to 5.25\u00a0V', verdict: 'Low.' }],
    ['chip=5.00V', { said: '5.00\u00a0V', target: '4.75 to 5.25\u00a0V', verdict: 'In range.' }],
    [
      'chip=4.75V',
      { said: '4.75\u00a0V', target: '4.75 to 5.25\u00a0V', verdict: 'Too close to call: low or in range.' },
    ],
    ['chip=low', { said: 'Nothing there or Low', target: '4.75 to 5.25\u00a0V', verdict: undefined }],
    ['chip=47kohm', { said: '47kohm', target: '4.75 to 5.25\u00a0V', verdict: 'Does not fit this target.' }],
    ['lamp=yes', { said: 'Yes', target: undefined, verdict: undefined }],
    ['lamp=dim', { said: 'Dim', target: undefined, verdict: undefined }],
    ['follow/stage-1=bad', { title: 'Follow it: output leg', said: 'First bad here', verdict: undefined }],
    ['follow/gone=bad', { title: 'Follow it: gone', said: 'First bad here', verdict: undefined }],
    ['follow=good', { title: 'Follow it', said: 'Good' }],
    ['chip=low,4.74V', { said: 'Nothing there or Low (read 4.74\u00a0V)', verdict: undefined }],
    ['chip=4.9V,0.1V,5V', { said: '4.9\u00a0V, 0.1\u00a0V, 5\u00a0V', verdict: undefined }],
    ['chip=3-of-8', { said: '3 of 8 times' }],
    ['with=analogue-20k&chip=4.71V', { said: '4.71\u00a0V', verdict: 'Too close to call: low or in range.' }],
    ['clock-dead/the-beat=no', { title: 'clock dead: the beat', said: 'No' }],
  ])('%s', (fragment, expected) => {
    expect(reportOf(fragment).lines.at(-1)).toMatchObject(expected);
  });
});

describe('where a report says the diagnosis stands', () => {
  it('is the cause whose page it is', () => {
    expect(reportOf('lamp=no', 'fuse-open').end).toEqual({ kind: 'cause', title: 'Fuse open' });
  });

  it('is what is still open behind the check whose page it is', () => {
    expect(reportOf('lamp=yes&chip=low', 'follow').end).toEqual({
      kind: 'open',
      titles: ['Fuse open', 'Regulator open', 'Socket worn'],
    });
  });

  it.each([
    ['', 'lamp'],
    ['lamp=yes', 'chip'],
    ['lamp=yes&chip=low', 'follow'],
    ['lamp=yes&chip=low&follow/stage-0=bad', 'fuse-open'],
    ['lamp=yes&chip=4.21V', 'follow'],
    ['lamp=yes&chip=4.75V', 'chip'],
    ['lamp=yes&chip=5.00V', 'worn'],
    ['lamp=yes&clock-dead/beat=no', 'chip'],
  ])('is found from the answers on the page of the tree: "%s"', (fragment, standing) => {
    expect(findStanding(bench, parseLinkState(fragment, names).state)).toBe(standing);
  });
});

describe('a report', () => {
  it('judges by the limits of the board on the bench', () => {
    const own: BenchTree = { ...bench, limits: { rail: { low: 4, nominal: 4.3, high: 4.5 } } };

    expect(reportOf('chip=4.21V', undefined, own).lines[0]).toMatchObject({
      target: '4 to 4.5\u00a0V',
      verdict: 'In range.',
    });
  });

  it('names repairs that did not cure and checks that are asked for by their titles', () => {
    expect(reportOf('did=fuse-open,worn&ask=lamp,follow')).toMatchObject({
      did: ['Fuse open', 'Socket worn'],
      asked: ['Does the lamp light?', 'Follow it'],
    });
  });

  it('asks only for what has no answer yet', () => {
    expect(reportOf('lamp=yes&ask=lamp,follow').asked).toEqual(['Follow it']);
    expect(reportOf('lamp=yes&ask=lamp').asked).toEqual([]);
  });

  it('says the words of the button that was pressed, never those of its first band', () => {
    const load = makeCheck('chip', { 'none low in': 'worn', high: 'fuse-open' }, { title: 'Load?', target: at });
    const outcomes = load.outcomes.map((outcome) =>
      outcome.when.length > 1 ? { ...outcome, says: 'No more than expected' } : outcome,
    );
    const own = makeTree([{ ...load, outcomes }, makeCause('worn', {}), makeCause('fuse-open', {})]);
    const on = { ...bench, tree: own };

    expect(reportOf('chip=none', undefined, on).lines[0]?.said).toBe('No more than expected');
    expect(reportOf('chip=high', undefined, on).lines[0]?.said).toBe('High');
    // Typed, not pressed.
    expect(reportOf('chip=5.00V', undefined, on).lines[0]).toMatchObject({ said: '5.00\u00a0V', verdict: 'In range.' });
  });
});
