import { describe, expect, it } from 'vitest';
import { compileContent } from '#compiler/compile-content.ts';
import { type Edit, makeContent, sampleFile, targetFile, unitFile } from './make-content.ts';

// What a first tree of a newcomer ran into: each of these was silent, or compelled something untrue.

function idsAfter(...edits: readonly Edit[]): readonly string[] {
  return compileContent(makeContent(edits)).problems.map(({ rule }) => rule);
}

const railWords = 'Read the rail at the farthest chip.';
const swapCheck = (outcomes: string): Edit => ({
  from: '<Check id="inside"',
  to: `<Check id="lead-swap" title="Does it follow the lead?" minutes="2" power="off" swap="known-good lead">

Swap the lead.

${outcomes}

</Check>

<Check id="inside"`,
});
const toSwap: Edit = { from: 'to="inside" says="Healthy"', to: 'to="lead-swap" says="Healthy"' };

describe('what a newcomer writes', () => {
  it.each([
    'Case open, power on. Touch pin 3 of the comparator with a wet finger.',
    'Touch the base of the transistor with a bare finger.',
    'Dab the input leg of the amplifier with a damp finger and listen.',
    'By-pass the interlock and read the rail.',
    'Býpass the interlock and read the rail.',
    'Leave the unit running overnight.',
  ])('is refused where it endangers: %s', (words) => {
    expect(idsAfter({ from: railWords, to: words })).toContain('forbidden-advice');
  });

  it.each([
    ['a title', { from: 'title="Is the rail in range?"', to: 'title="Bypass the interlock and read"' }],
    ['a stage', { from: 'says="Right leg"', to: 'says="Bypass the interlock"' }],
    ['a summary', { from: 'summary: The five volt rail reads low or nothing.', to: 'summary: Bypass the interlock.' }],
    ['a test point', { file: 'content/points.yaml', from: 'The right leg.', to: 'Bypass the interlock.' }],
    ['a set-up', { file: 'content/setups.yaml', from: 'Lift the lid.', to: 'Bypass the interlock.' }],
    ['a unit', { file: unitFile, from: 'An invented unit.', to: 'Bypass the interlock.' }],
  ])('is refused in every text that a reader meets: %s', (_where, edit) => {
    expect(idsAfter(edit)).toEqual(['forbidden-advice']);
  });

  it('says of a swap what follows and what stays, and both-bad only where both can be', () => {
    const two = '<Outcome when="follows" to="fuse-open" />\n<Outcome when="stays" to="inside" />';

    expect(idsAfter(toSwap, swapCheck(two))).toEqual([]);
    expect(idsAfter(toSwap, swapCheck(`${two}\n<Outcome when="both-bad" to="leave-it" />`))).toEqual([]);
    expect(idsAfter(toSwap, swapCheck('<Outcome when="follows both-bad" to="fuse-open" />'))).toContain(
      'outcomes-complete',
    );
    expect(idsAfter(toSwap, swapCheck(`${two}\n<Outcome when="neither" to="leave-it" />`))).toContain(
      'outcomes-complete',
    );
  });

  it('needs no record where a lead or a disk outside the unit is changed', () => {
    const withoutRecord: Edit = { from: '<Record>Photograph the tab and its washer.</Record>\n\n', to: '' };

    expect(idsAfter(withoutRecord)).toEqual(['record-first']);
    expect(
      idsAfter(withoutRecord, {
        from: 'chance="occasional" brings',
        to: 'chance="occasional" lies="accessory" brings',
      }),
    ).toEqual([]);
  });

  it('is told which kinds of supply an answer may name', () => {
    const edit = (kinds: string): Edit => ({
      from: '<Outcome when="no" to="fuse-open" />',
      to: `<Outcome when="no" to="fuse-open" supply="${kinds}" />`,
    });

    expect(idsAfter(edit('transformer switch-mode-brick'))).toEqual([]);
    expect(idsAfter(edit('transformer iron'))).toEqual(['attribute-choice']);
  });

  it.each(['op-amp', 'comparator'])('finds the role %s', (role) => {
    expect(idsAfter({ from: 'role="regulator"', to: `role="${role}"` })).toEqual([]);
  });

  it('gets no advice that repeats the name of an instrument that does not exist', () => {
    const { problems } = compileContent(
      makeContent([{ from: 'power="on" instrument="multimeter" was', to: 'power="on" instrument="ohmotron" was' }]),
    );

    expect(problems.map(({ rule, file }) => [rule, file])).toEqual([['known-slugs', sampleFile]]);
    expect(idsAfter({ file: targetFile, from: 'instrument: multimeter', to: 'instrument: ohmotron' })).toEqual([
      'known-slugs',
    ]);
  });

  it('is told that an abbreviation of a test point is not known', () => {
    expect(idsAfter({ file: 'content/points.yaml', from: 'The right leg.', to: 'The EAR socket.' })).toEqual([
      'plain-words',
    ]);
    expect(idsAfter({ file: 'content/points.yaml', from: 'The right leg.', to: 'The sound input (EAR).' })).toEqual([]);
  });

  it('cannot ask for no minutes, or jump into its own tree', () => {
    expect(idsAfter({ from: 'minutes="1" power="off" sign', to: 'minutes="0" power="off" sign' })).toEqual([
      'number-shape',
    ]);
    expect(idsAfter({ from: 'tree="other-tree" node="glow"', to: 'tree="sample-tree"' })).toContain('known-nodes');
  });
});
