import { tidyLabel } from '../figure/label.ts';
import { escapeAttribute, escapeProse, escapeYaml } from './escape-mdx.ts';
import type { RepairSeed } from './repair-seed.ts';

/**
 * Turns a finished repair into the beginning of a tree: its checks in the order they were done, each leading on by what
 * was found and to a hand-over by anything else, then its cause with how it was repaired and proved. What only the author
 * can know is marked `Replace this:`; the compiler's messages tell the rest. Whatever the repair's words are, they stay
 * words.
 */
export function draftFromRepair(repair: RepairSeed): string {
  const checks = repair.steps.map((step, index) => writeCheck(step, index, repair.steps.length));
  return [
    '---',
    `title: ${escapeYaml(or(repair.title, 'Replace this: the symptom in a few words'), 60)}`,
    'block: power',
    `summary: ${escapeYaml(or(repair.symptom, 'Replace this: one sentence about the symptom'), 200)}`,
    'symptoms:',
    `  - ${escapeYaml(or(repair.symptom, 'Replace this: as an owner types it'), 80)}`,
    `  - ${escapeYaml('Replace this: the same in other words', 80)}`,
    `  - ${escapeYaml('Replace this: and once more', 80)}`,
    '---',
    '',
    ...checks,
    ...writeCause(repair),
    ...writeHandOver(),
  ].join('\n');
}

function writeCheck(step: RepairSeed['steps'][number], index: number, count: number): string {
  const next = index + 1 < count ? `step-${index + 2}` : 'found-cause';
  return [
    `<Check id="step-${index + 1}" title="${escapeAttribute(or(step.title, 'Replace this: a question'), 60)}" minutes="5" power="off">`,
    '',
    `  Replace this: how and where, in two to five short sentences. In this repair: ${escapeProse(or(step.said, 'nothing was noted'))}`,
    '',
    `  <Outcome when="as-here" to="${next}" says="${escapeAttribute(or(step.said, 'As in this repair'), 60)}" />`,
    '',
    '  <Outcome when="otherwise" to="not-this" says="Anything else" />',
    '</Check>',
    '',
  ].join('\n');
}

function writeCause({ cause, repair, proof }: RepairSeed): readonly string[] {
  return [
    `<Cause id="found-cause" title="${escapeAttribute(or(cause, 'Replace this: the part and its failure'), 60)}" chance="occasional">`,
    '',
    `  ${escapeProse(or(cause, 'Replace this: what it is and why it fails'))}`,
    '',
    '  <Confirm>',
    '',
    '    Replace this: which reading makes sure of it, with a Target.',
    '',
    '  </Confirm>',
    '',
    '  <Repair minutes="30" leaves="nothing" success="usual">',
    '',
    `    ${escapeProse(or(repair, 'Replace this: what is done at the bench'))}`,
    '',
    '  </Repair>',
    '',
    '  <Prove minutes="10">',
    '',
    `    ${escapeProse(or(proof, 'Replace this: the same reading again, and how long to watch it'))}`,
    '',
    '  </Prove>',
    '</Cause>',
    '',
  ];
}

function writeHandOver(): readonly string[] {
  return [
    '<HandOver id="not-this" title="Another fault than the one of this repair" because="beyond-this-page">',
    '',
    '  Unplug it and keep your hands out. Write down what you read, and pass it on with your notes.',
    '',
    '</HandOver>',
    '',
  ];
}

function or(text: string, other: string): string {
  return tidyLabel(text) === '' ? other : text;
}
