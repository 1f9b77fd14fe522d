import { describe, expect, it } from 'vitest';
import { loadLibrary } from '#build/library.ts';
import { parseLinkState } from '#core/share/link-state.ts';
import { findStanding, makeReport, type ReportSource } from '#core/share/make-report.ts';
import { makeTreeMap, namesOf } from '#core/share/tree-map.ts';
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

function sourceOf(fragment: string, change: Partial<ReportSource> = {}): ReportSource {
  return {
    tree,
    targets: new Map([['rail', rail]]),
    classes: loadLibrary().instrumentClasses,
    state: parseLinkState(fragment, names).state,
    node: undefined,
    unit: 'Fen bench supply',
    symptom: 'dim',
    notes: '',
    cautions: [],
    link: 'https://halfsplit.example/',
    ...change,
  };
}

function lineOf(fragment: string) {
  return makeReport(sourceOf(fragment)).lines.at(-1);
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
    ['chip=low', { said: 'Low', target: '4.75 to 5.25\u00a0V', verdict: undefined }],
    ['chip=47kohm', { said: '47kohm', target: '4.75 to 5.25\u00a0V', verdict: 'Does not fit this target any more.' }],
    ['lamp=yes', { said: 'Yes', target: undefined, verdict: undefined }],
    ['lamp=dim', { said: 'Dim', target: undefined, verdict: undefined }],
    ['follow/stage-1=bad', { title: 'Follow it: output leg', said: 'First bad here', verdict: undefined }],
    ['follow/gone=bad', { title: 'Follow it: gone', said: 'First bad here', verdict: undefined }],
    ['follow=good', { title: 'Follow it', said: 'Good to the end' }],
    ['clock-dead/the-beat=no', { title: 'clock dead: the beat', said: 'No' }],
  ])('%s', (fragment, expected) => {
    expect(lineOf(fragment)).toMatchObject(expected);
  });
});

describe('where a report says the diagnosis stands', () => {
  it('is the cause whose page it is', () => {
    expect(makeReport(sourceOf('lamp=no', { node: 'fuse-open' })).end).toEqual({ kind: 'cause', title: 'Fuse open' });
  });

  it('is what is still open behind the check whose page it is', () => {
    expect(makeReport(sourceOf('lamp=yes&chip=low', { node: 'follow' })).end).toEqual({
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
    expect(findStanding(sourceOf(fragment))).toBe(standing);
  });
});
