import { describe, expect, it } from 'vitest';
import { compileContent } from '#compiler/compile-content.ts';
import { compileTree } from '#compiler/compile-tree.ts';
import { makeAnew } from '#compiler/keep.ts';
import { Positions } from '#compiler/position.ts';
import { allRules } from '#compiler/rules/all.ts';
import { quantityUnits } from '#compiler/rules/targets.ts';
import { runRules } from '#compiler/rules/rule.ts';
import { wordsOf } from '#core/circuit/drawing.ts';
import { fitDrawing } from '#core/circuit/fit-drawing.ts';
import {
  addressFile,
  unitFile,
  drawnUnit,
  type Edit,
  makeContent,
  lampForbids,
  openRail,
  otherSide,
  readGlow,
  otherFile,
  partFile,
  pictureFile,
  printSample,
  sampleFile,
  targetFile,
} from './make-content.ts';

/** What one rule lets pass and what it does not. Lines and columns were counted by hand in make-content.ts. */
interface RuleCase {
  /** As near to the fault as sound content comes: nothing at all may be said about it. */
  readonly ok: readonly Edit[];
  readonly notOk: readonly Edit[];
  /** All that this rule says of `notOk`, as the terminal prints it. */
  readonly golden: string;
}

const thesaurusFile = 'content/thesaurus.yaml';
const railStart = '<Caution use="mains" />\n<Caution use="static" />\n';
const railWords = 'Read the rail at the farthest chip.';
const thirtyWords =
  'Read the rail at the chip that is farthest from the regulator and look at the number on the meter until it has stood for the time of one breath.';

function makeFirstNode(element: string): Edit {
  return { from: '<Check id="lamp"', to: `${element}\n\n<Check id="lamp"` };
}

const stages = ['first', 'second', 'third']
  .map((id) => `<Stage id="${id}" title="${id}" minutes="1" fault="socket-worn" />`)
  .join('\n');

/** A class of meter for 20 V in steps of 10 mV. */
function meterOf(percent: string): Edit {
  const range = `{ to: 20, ${percent}, counts: 2, resolution: 0.01 }`;
  const meter = `{ title: Meter, family: multimeter, status: practice, quantities: { voltage-dc: { unit: V, ranges: [${range}] } } }`;
  return { file: 'content/instruments.yaml', from: 'classes: {}', to: `classes: { meter: ${meter} }` };
}

/** The unit has the sample circuit, with these parts. */
function fitted(parts: string): Edit {
  return { file: unitFile, from: '\ntargets:', to: `\ncircuits: { sample-supply: { ${parts} } }\ntargets:` };
}

const afterLamp: Edit = { from: 'minutes="3" power="on"', to: 'minutes="3" after="lamp" power="on"' };
const pathAfterLamp: Edit = { from: 'title="Follow the supply"', to: 'title="Follow the supply" after="lamp"' };

const scopeOnly: Edit = {
  from: 'power="on" instrument="multimeter" was',
  to: 'power="on" instrument="oscilloscope" was',
};
const scopeCaution: Edit = {
  from: '<Caution use="static" />\n\nRead',
  to: '<Caution use="static" />\n<Caution use="scope-ground" />\n\nRead',
};
const tubeHazard: Edit = {
  file: 'content/hazards.yaml',
  from: 'static: {',
  to: 'picture-tube: { title: Tube, cautions: [] }\nstatic: {',
};
const tubeHandOver: Edit = { from: 'because="licensed"', to: 'because="picture-tube"' };
const notTube: Edit = { from: 'because="licensed"', to: 'because="not-a-fault"' };

const besideIt: Edit = { from: 'power="off" sign', to: 'power="accessory" sign' };
const shortRead = { file: otherFile, from: 'It failed short.\n\n<Confirm>\n\nRead it.' };

const twoVolts =
  'entered: [{ name: one, quantity: voltage-dc, unit: V }, { name: other, quantity: voltage-dc, unit: V }]';

const withCircuit: Edit = { from: 'was: [old-sample]', to: 'was: [old-sample]\ncircuits: [sample-supply]' };

const ownColours = { file: 'content/site.yaml', from: 'summary: Trees made for a test.\n' };

const cases: Readonly<Record<string, RuleCase>> = {
  'since-told': {
    ok: [{ file: otherFile, from: 'since: 2026-01-06', to: 'since: 2024-02-29' }],
    notOk: [{ file: otherFile, from: 'since: 2026-01-06\n', to: '' }],
    golden: `${otherFile}:3:1 error Unexpected absence of \`since\`, expected the day on which the tree came into the library.
  Write the day of today below \`block\`, as \`since: 2026-11-30\`. [since-told]`,
  },
  // Relative luminance by hand (WCAG 2.2): #777777 0.1845, #1e1c16 0.0117; (0.1845 + 0.05) / (0.0117 + 0.05) = 3.80; on black 4.69.
  'contrast-enough': {
    ok: [
      {
        ...ownColours,
        to: `${ownColours.from}colours: { dark: { paper: '#000000', card: '#000000', faint: '#777777' } }\n`,
      },
    ],
    notOk: [{ ...ownColours, to: `${ownColours.from}colours: { dark: { paper: '#000000', faint: '#777777' } }\n` }],
    golden: `content/site.yaml:3:38 error Unexpected contrast of 3.8 between \`faint\` and \`card\` (dark), expected 4.5 or more.
  Make \`faint\` differ more, or take another \`card\`. [contrast-enough]`,
  },
  'block-folder': {
    ok: [{ file: otherFile, from: 'block: power', to: 'block: power # as its folder' }],
    notOk: [
      { file: otherFile, from: 'block: power', to: 'block: audio' },
      { file: 'content/blocks.yaml', from: 'power:', to: 'audio: { title: Audio, summary: Sound. }\npower:' },
    ],
    golden: `${otherFile}:3:1 error Unexpected block \`audio\` in folder \`power\`, expected the two to be equal.
  Move the file, or fix the block. [block-folder]`,
  },
  'quantity-unit': {
    ok: [{ file: targetFile, from: 'unit: V\nnone: 0.5', to: 'unit: mV\nnone: 0.5' }],
    notOk: [{ file: targetFile, from: 'unit: V\nnone: 0.5', to: 'unit: kΩ\nnone: 0.5' }],
    golden: `${targetFile}:4:1 error Unexpected unit \`kΩ\` for the quantity \`voltage-dc\`, expected \`V\` (volts).
  Correct the unit, or the quantity. [quantity-unit]`,
  },
  'computed-fits': {
    ok: [{ file: targetFile, from: 'none: 0.5', to: `none: 0.5\ncomputed: difference\n${twoVolts}` }],
    notOk: [{ file: targetFile, from: 'none: 0.5', to: `none: 0.5\ncomputed: percent\n${twoVolts}` }],
    golden: `${targetFile}:6:1 error Unexpected figures in V, V for \`percent\` in V, expected two figures in one unit, for %.
  Choose another of ratio, percent, difference, sum, trough, departure, peak, ripple, leakage, loss, or fix the units. [computed-fits]`,
  },
  'part-numbers': {
    ok: [{ file: partFile, from: '[LM317]', to: '[LM317, LM317T]' }],
    notOk: [{ file: partFile, from: '[LM317]', to: '[LM317, lm317]' }],
    golden: `${partFile}:3:18 error Unexpected \`lm317\` again, expected a number that content/parts/regulator.yaml does not have.
  Where two kinds share a number, give each a title that tells them apart. [part-numbers]`,
  },
  'point-pins': {
    ok: [{ file: unitFile, from: 'IC3 pin 2.', to: 'IC3, the middle leg.' }],
    notOk: [{ file: unitFile, from: 'IC3 pin 2.', to: 'IC3 pin 1.' }],
    golden: `${unitFile}:10:3 error Unexpected pin 1, expected 2 of the A regulator.
  Correct the words, or name the chip that the unit has under \`chips\`. [point-pins]`,
  },
  'placement-fits': {
    ok: [drawnUnit],
    notOk: [drawnUnit, { file: unitFile, from: 'size: [120, 100]', to: 'size: [120, 70]' }],
    golden: `${unitFile}:20:9 error Unexpected \`IC5\` over the edge, expected it within 120 by 70 mm.
  Move its centre, or correct the size of the board. [placement-fits]`,
  },
  'placement-agrees': {
    ok: [
      drawnUnit,
      // A fuse told by its current is no part of that name.
      { file: unitFile, from: '"IC7 pin 14."', to: '"IC7 pins 10 to 14, behind the fuse of T5 A."' },
    ],
    notOk: [drawnUnit, { file: unitFile, from: '"IC7 pin 14."', to: '"IC7 pin 13."' }],
    golden: `${unitFile}:24:5 error Unexpected pin 14 of \`IC7\`, expected a pin that the words of this point name.
  Light the pin that the words are about, or correct the words. [placement-agrees]`,
  },
  'picture-leads': {
    ok: [{ file: pictureFile, from: 'sample-tree/rail', to: 'sample-tree' }],
    notOk: [{ file: pictureFile, from: 'sample-tree/rail', to: 'sample-tree/rial' }],
    golden: `${pictureFile}:4:9 error Unexpected \`sample-tree/rial\`, expected a tree, or a node as \`tree/node\`.
  Name one that exists. Did you mean \`rail\`? [picture-leads]`,
  },
  'circuit-agrees': {
    ok: [withCircuit],
    notOk: [withCircuit, { from: 'shows="lamp=no rail=none|low"', to: 'shows="lamp=no rail=in"' }],
    golden: `${sampleFile}:59:57 error Unexpected \`rail=in\` of \`fuse-open\`, expected \`none\`: circuit sample-supply computes 0 to 0 V, so \`in\` comes 0 times in 100.
  Correct \`shows\`, or the range of the fault in the circuit if that is what is wrong, and run npm run simulate. [circuit-agrees]`,
  },
  'circuit-used': {
    ok: [withCircuit],
    notOk: [{ file: otherFile, from: 'summary: The five', to: 'circuits: [sample-supply]\nsummary: The five' }],
    golden: `${otherFile}:5:12 error Unexpected circuit \`sample-supply\`, expected one with a fault that is a cause here.
  Its faults: fuse-open. Add the cause’s id to \`also\` of one of them, or take the circuit out. [circuit-used]`,
  },
  'unit-circuit': {
    ok: [drawnUnit, fitted('RLOAD: "IC3, 100 Ω", RFUSE: none')],
    notOk: [drawnUnit, fitted('RLOAD: "IC3, 100 Ω", RFUSE: F9')],
    golden: `${unitFile}:11:51 error Unexpected \`F9\`, expected a part that the placement has.
  Place it on its board, or name it under \`off-board\`. [unit-circuit]`,
  },
  'limits-agree': {
    ok: [{ file: unitFile, from: '{ low: 4.9 }', to: '{ low: 4.9, nominal: 5.1, high: 5.2 }' }],
    notOk: [{ file: unitFile, from: '{ low: 4.9 }', to: '{ low: 5.3 }' }],
    golden: `${unitFile}:12:3 error Unexpected limits out of order with target \`rail-5v\`, expected none below low below high.
  A limit that is left out keeps the target’s own: give both where both differ. Named bands cannot be changed. [limits-agree]`,
  },
  'prose-number': {
    ok: [
      {
        from: railWords,
        to: 'Read the rail: it should read 4.75 to 5.25 V. A short reads 0 V, and the range is at least 20 V.',
      },
    ],
    notOk: [{ from: railWords, to: 'Read the rail: it should read 4.5 to 5.5 V.' }],
    golden: `${sampleFile}:28:1 warning Unexpected "4.5 to 5.5 V" beside target \`rail-5v\`, expected its own numbers: 4.75 to 5.25\u00a0V.
  Leave the number to the target, or use the target whose number you mean. [prose-number]`,
  },
  'honest-source': {
    ok: [{ file: targetFile, from: 'status: practice', to: 'status: computed' }],
    notOk: [{ file: targetFile, from: 'status: practice', to: 'status: read' }],
    golden: `${targetFile}:12:1 error Unexpected status \`read\` on source \`bench\`, expected at most \`practice\`.
  Mark it \`practice\`, or name the published source that was read. [honest-source]`,
  },
  'instrument-judges': {
    // ±(0.5 % + 2 counts of 10 mV) at 5 V: u = 0.026 V, and the window of 0.5 V is 19 u wide.
    ok: [meterOf('percent: 0.5')],
    // ±(10 % + 2 counts of 10 mV) at 5 V: a = 0.52 V, u = 0.30 V, and the window of 0.5 V is 1.7 u wide.
    notOk: [meterOf('percent: 10'), { from: ' target="rail-5v" point="chip-supply" minutes', to: ' minutes' }],
    golden: `${sampleFile}:23:71 error Unexpected instrument \`multimeter\` for target \`rail-5v\`, expected one that can judge it: its uncertainty 0.30 V is too wide for the window of 0.50 V.
  Use a finer instrument, or a target with a wider window. [instrument-judges]`,
  },
  'hand-over-present': {
    ok: [{ from: 'hazards: [static, mains]', to: 'hazards: [static, mains, picture-tube]' }, tubeHazard, tubeHandOver],
    notOk: [{ from: 'hazards: [static, mains]', to: 'hazards: [static, mains, picture-tube]' }, tubeHazard, notTube],
    golden: `${sampleFile}:9:26 error Unexpected hazard \`picture-tube\` in a tree without a hand-over for it, expected <HandOver because="picture-tube" or "licensed">.
  Lead there from the check that meets it, and say what is known and how to leave the unit safe. [hand-over-present]`,
  },
  'record-first': {
    ok: [{ from: 'Seat the chip again.', to: 'Seat the chip again. Never take it out with force.' }],
    notOk: [{ from: 'Seat the chip again.', to: 'Take it out, wipe its legs, seat it again.' }],
    golden: `${sampleFile}:132:1 error Unexpected repair of \`socket-worn\` without \`<Record>\`, expected it because it says "Take it out".
  Say what to photograph and which marks to note, first thing in <Repair>. [record-first]`,
  },
  'supply-high-band': {
    ok: [{ file: targetFile, from: 'title: Five volt rail', to: 'title: Five volts' }],
    notOk: [
      { file: targetFile, from: '\nhigh: 5.25', to: '' },
      { from: '<Outcome when="high" to="other-rail" />', to: '<Outcome when="sometimes" to="other-rail" />' },
    ],
    golden: `${targetFile}:2:1 error Unexpected supply target \`rail-5v\` without an upper limit, expected \`high:\` or a band above \`in\`.
  Say above which voltage the parts on it are at risk; every check of it then leads somewhere for \`high\`. [supply-high-band]`,
  },
  'symptoms-enough': {
    ok: [{ from: '  - lamp glows dim', to: '  - lamp glows dim\n  - lamp is brown' }],
    notOk: [{ from: '  - no five volts at all\n', to: '' }],
    golden: `${sampleFile}:5:1 error Unexpected 2 symptom phrases, expected at least 3.
  Write what an owner types into a phone: no part names, no diagnosis. [symptoms-enough]`,
  },
  'new-part-tested': {
    ok: [{ from: 'Fit the same rating.', to: 'Fit the same rating. Do not fit a new one of another.' }],
    notOk: [{ from: 'Fit the same rating.', to: 'Fit a new one of the same rating.' }],
    golden: `${sampleFile}:72:1 warning Unexpected new part at \`fuse-open\` ("Fit a new"), expected a \`<Substitute>\` for it.
  Add <Substitute role="…" test="…">: what it must match, and how to test the new one before it goes in. [new-part-tested]`,
  },
  'lesser-instrument': {
    ok: [{ ...scopeOnly, to: scopeOnly.to.replace('scope"', 'scope or multimeter"') }, scopeCaution],
    notOk: [scopeOnly, scopeCaution],
    golden: `${sampleFile}:23:71 warning Unexpected \`oscilloscope\` alone at \`rail\`, expected \`multimeter\` as well: it can judge \`rail-5v\`.
  Write instrument="oscilloscope or multimeter", and say how to read it with that. [lesser-instrument]`,
  },
  'causes-separated': {
    ok: [
      {
        file: otherFile,
        from: 'title="Divider open" chance="rare"',
        to: 'title="Divider open" chance="rare" shows="glow=cool"',
      },
    ],
    notOk: [
      {
        file: otherFile,
        from: 'title="Divider open" chance="rare"',
        to: 'title="Divider open" chance="rare" shows="glow=hot"',
      },
    ],
    golden: `${otherFile}:42:1 warning Unexpected \`open-divider\` that no check tells from \`short\`, expected one that comes out otherwise.
  Add a check between the two, say in \`shows\` what they make a check read, or make them one cause. [causes-separated]
  see ${otherFile}:20:1 (the other one)`,
  },
  'check-separates': {
    ok: [
      {
        from: 'power="off" needs="case-open discharged"',
        to: 'power="off" instrument="multimeter" needs="case-open discharged"',
      },
    ],
    notOk: [
      { from: 'good="socket-worn"', to: 'good="leave-it"' },
      { from: 'when="dark" to="leave-it"', to: 'when="dark" to="socket-worn"' },
    ],
    golden: `${sampleFile}:37:1 warning Unexpected check \`inside\` that comes out alike for every end it speaks of, expected one that tells some apart.
  Let its answers lead to different causes, say in \`shows\` what causes make it read, or take it out. A hand-over for want of an instrument counts as no end. [check-separates]`,
  },
  'template-words': {
    ok: [{ from: railWords, to: 'Replace this lamp by none.' }],
    notOk: [{ from: railWords, to: 'Replace this: say how and where.' }],
    golden: `${sampleFile}:28:1 warning Unexpected words of the template ("Replace this: say how and where.…"), expected your own.
  Write what belongs here, then take the marked words out. [template-words]`,
  },
  'names-button': {
    ok: [
      { from: railWords, to: 'It answers in a second. No fitted plug: “In range”. Look for an answer somewhere else.' },
    ],
    notOk: [{ from: railWords, to: 'Read the rail. No fitted plug: answer in.' }],
    golden: `${sampleFile}:28:1 error Unexpected "answer in" in \`rail\`, expected the words of the button, in quotes.
  Write what its <Outcome> says, for example: No brick: “No change, or there is no brick”. [names-button]`,
  },
  'plain-words': {
    ok: [{ from: railWords, to: 'Read the rail at the power manager (PMIC), WAIT 24, or an LS part. PMIC again.' }],
    notOk: [{ from: railWords, to: 'Read the rail at the PMIC.' }],
    golden: `${sampleFile}:28:1 warning Unexpected abbreviation \`PMIC\`, expected one that the thesaurus knows.
  Say it in plain words, explain it once as "plain words (PMIC)", or add it to the words of a concept in content/thesaurus.yaml. [plain-words]`,
  },
  'no-makers': {
    ok: [{ from: railWords, to: 'Read it in the Demo unit: Schottky diodes and a Zener. Then read on.' }],
    notOk: [{ from: railWords, to: 'Read the rail with the Ohmotron.' }],
    golden: `${sampleFile}:28:1 warning Unexpected name \`Ohmotron\` inside a sentence, expected the kind of thing it is.
  Say "a clip-on meter", not whose. A term of the trade that is written with a capital may stay: say so in the pull request. [no-makers]`,
  },
  vocabulary: {
    ok: [{ from: railWords, to: 'Read the rail again. Pull its plug out of the unit.' }],
    notOk: [{ from: railWords, to: 'Read the rail anew.' }],
    golden: `${sampleFile}:28:1 warning Unexpected "anew", expected "again", or "re-solder".
  One word for one thing, on every page. [vocabulary]`,
  },
  'calm-words': {
    ok: [{ from: railWords, to: 'Read the rail.' }],
    notOk: [{ from: railWords, to: 'Read the rail!' }],
    golden: `${sampleFile}:28:1 warning Unexpected exclamation mark, expected a full stop.
  Say it plainly; a danger goes into <Caution use="…" />. [calm-words]`,
  },
  'address-lives': {
    ok: [{ file: addressFile, from: '/\n', to: '/trees/sample-tree/rail-old/\n/trees/old-sample/lamp/\n/log/\n' }],
    notOk: [{ file: addressFile, from: '/\n', to: '/\n/trees/sample-tree/rial/\n' }],
    golden: `${addressFile}:2:1 error Unexpected end of the published address \`/trees/sample-tree/rial/\`, expected a page that answers there.
  Give its successor in tree \`sample-tree\` was="rial"; do not take the line out. Did you mean \`/trees/sample-tree/rail/\`? [address-lives]`,
  },
  'was-chain': {
    ok: [{ from: 'was="rail-old"', to: 'was="rail-old rail-older"' }],
    notOk: [{ from: 'was="rail-old"', to: 'was="lamp"' }],
    golden: `${sampleFile}:23:95 error Unexpected earlier id \`lamp\` of \`rail\`, expected one that no other node has or had.
  Take it out here, or where it is claimed first. [was-chain]
  see ${sampleFile}:14:1 (the node that answers there)`,
  },
  'known-links': {
    ok: [{ from: railWords, to: 'See [the rail](/targets/rail-5v/#why) first.' }],
    notOk: [{ from: railWords, to: 'See [the rail](/targets/rail-5/) first.' }],
    golden: `${sampleFile}:28:5 error Unexpected link to \`/targets/rail-5/\`, expected a page of this site.
  Name one that exists; addresses end in a slash. Did you mean \`/targets/rail-5v/\`? [known-links]`,
  },
  'thesaurus-names': {
    ok: [{ file: thesaurusFile, from: 'signs: {}', to: 'signs: { any-light: {} }' }],
    notOk: [{ file: thesaurusFile, from: 'signs: {}', to: 'signs: { any-lihgt: {} }' }],
    golden: `${thesaurusFile}:4:10 error Unexpected sign \`any-lihgt\`, expected one that exists.
  Name an existing sign. Did you mean \`any-light\`? [thesaurus-names]`,
  },
  'thesaurus-used': {
    ok: [{ file: thesaurusFile, from: 'concepts: {}', to: 'concepts: { lamp: { words: [lamp] } }' }],
    notOk: [{ file: thesaurusFile, from: 'concepts: {}', to: 'concepts: { gearbox: { words: [gearbox] } }' }],
    golden: `${thesaurusFile}:1:13 warning Unexpected words of \`gearbox\` (\`gearbox\` …), expected a tree that speaks of it.
  This is about thesaurus.yaml, not about your tree. A tree speaks of it in its title, summary, symptoms, nodes or prose. Nothing to do where that tree is still to come; else add the word the trees use, or take the concept out. [thesaurus-used]`,
  },
  'known-nodes': {
    ok: [{ from: 'good="socket-worn"', to: 'good="leave-it"' }],
    notOk: [{ from: 'when="no" to="fuse-open"', to: 'when="no" to="fuse-opne"' }],
    golden: `${sampleFile}:19:20 error Unexpected \`fuse-opne\`, expected a node of this tree.
  Name one that exists, or add it. Did you mean \`fuse-open\`? [known-nodes]`,
  },
  'known-slugs': {
    ok: [{ from: '<Target use="rail-5v" point="chip-supply" />\n<Outcome', to: '<Target use="rail-5v" />\n<Outcome' }],
    notOk: [
      {
        from: '<Target use="rail-5v" point="chip-supply" />\n<Outcome',
        to: '<Target use="rail-5v" point="chip-suply" />\n<Outcome',
      },
    ],
    golden: `${sampleFile}:30:23 error Unexpected test point \`chip-suply\`, expected one that exists.
  Name an existing test point, or add it first. Did you mean \`chip-supply\`? [known-slugs]`,
  },
  'shows-known': {
    ok: [{ from: 'lamp=no rail', to: 'lamp=no|sometimes rail' }],
    notOk: [{ from: 'lamp=no rail', to: 'lamp=flickers rail' }],
    golden: `${sampleFile}:58:57 error Unexpected outcome \`flickers\` of \`lamp\`, expected yes, no, sometimes.
  Use a word that this check answers with. [shows-known]`,
  },
  'starts-with-check': {
    ok: [
      makeFirstNode(
        '<Check id="noise" title="Does it hum?" minutes="1" power="off">\n\nListen.\n\n<Outcome when="hum" to="lamp" />\n<Outcome when="still" to="fuse-open" />\n\n</Check>',
      ),
    ],
    notOk: [
      makeFirstNode(`<Path id="way-in" title="Way in" power="off" good="lamp">\n\nFollow it.\n\n${stages}\n\n</Path>`),
    ],
    golden: `${sampleFile}:14:1 error Unexpected first node \`way-in\`, expected a check.
  Put the cheapest and likeliest check first. [starts-with-check]`,
  },
  'reachable-nodes': {
    ok: [
      { from: 'to="other-rail"', to: 'to="leave-it"' },
      { from: 'when="dark" to="leave-it"', to: 'when="dark" to="other-rail"' },
    ],
    notOk: [{ from: 'to="other-rail"', to: 'to="leave-it"' }],
    golden: `${sampleFile}:142:12 error Unexpected node \`other-rail\` that no outcome leads to, expected a way from \`lamp\`.
  Let an outcome lead to it, or remove it. [reachable-nodes]`,
  },
  'no-cycle': {
    ok: [{ from: 'good="socket-worn"', to: 'good="leave-it"' }],
    notOk: [{ from: 'good="socket-worn"', to: 'good="lamp"' }],
    golden: `${sampleFile}:46:85 error Unexpected way back from \`supply-path\` to \`lamp\`, expected answers to lead onward only.
  Lead to a later check, or to a cause. A reading worth repeating is repeated on its own page. [no-cycle]`,
  },
  'outcomes-complete': {
    ok: [{ from: 'when="none low"', to: 'when="none low sometimes"' }],
    notOk: [{ from: 'when="none low"', to: 'when="low"' }],
    golden: `${sampleFile}:23:1 error Unexpected absence of \`none\` in \`rail\`, expected an outcome for every answer of target \`rail-5v\`.
  Add <Outcome when="none" to="…" />, or add the words to an outcome that fits. [outcomes-complete]`,
  },
  'path-complete': {
    ok: [{ from: 'title="Chip" minutes', to: 'title="Chip" from="input" minutes' }],
    notOk: [{ from: '<Stage id="chip" title="Chip" minutes="2" fault="socket-worn" />\n', to: '' }],
    golden: `${sampleFile}:46:1 error Unexpected path with 2 stages, expected at least three.
  With fewer, plain checks serve better. [path-complete]`,
  },
  'caution-first': {
    ok: [{ from: railStart, to: '<Caution use="static" />\n<Caution use="mains" />\n' }],
    notOk: [
      {
        from: `${railStart}\n${railWords}`,
        to: `<Caution use="mains" />\n\n${railWords}\n\n<Caution use="static" />`,
      },
    ],
    golden: `${sampleFile}:29:1 error Unexpected caution after the text of \`rail\`, expected it before.
  Move it to the top of the node: people do what they read first. [caution-first]`,
  },
  'answers-last': {
    ok: [{ from: 'Look at the board.', to: 'Look at the board.\n\nThen at its edge.' }],
    notOk: [
      {
        from: '<Outcome when="clean" to="socket-worn" />\n',
        to: '<Outcome when="clean" to="socket-worn" />\n\nTouch nothing now.\n',
      },
    ],
    golden: `${sampleFile}:44:1 error Unexpected text behind an answer of \`inside\`, expected it before the first.
  Move it above the outcomes, or into \`says\` of one. [answers-last]`,
  },
  'compelled-cautions': {
    // `rail` comes before on every road, so the path is not the first powered step.
    ok: [{ from: '<Caution use="mains" />\n\nFollow', to: 'Follow' }],
    notOk: [{ from: railStart, to: '<Caution use="static" />\n' }],
    golden: `${sampleFile}:23:1 error Unexpected absence of the caution \`mains\` in \`rail\`, expected it because it may be the first step with power on.
  Add <Caution use="mains" /> at the top of the node. [compelled-cautions]`,
  },
  'hazard-cautioned': {
    ok: [{ from: railStart, to: '<Caution use="mains" />\n' }],
    notOk: [
      { from: railStart, to: '<Caution use="mains" />\n' },
      { from: '<Caution use="hot-parts" />\n<Caution use="static" />\n', to: '<Caution use="hot-parts" />\n' },
    ],
    golden: `${sampleFile}:9:11 error Unexpected hazard \`static\` without \`static\`, expected its cautions in the tree.
  Put <Caution use="…" /> into the node where the hazard is met, or remove the hazard. [hazard-cautioned]`,
  },
  'discharge-again': {
    ok: [{ from: 'power="off" needs="case-open discharged"', to: 'power="off"' }],
    notOk: [{ from: 'power="off" needs="case-open discharged"', to: 'power="off" needs="case-open"' }],
    golden: `${sampleFile}:37:67 error Unexpected hands inside at \`inside\` after power was on at \`rail\`, expected the set-up \`discharged\`.
  Add it to needs="…": what was discharged is charged again at every power-on. [discharge-again]`,
  },
  'forbidden-advice': {
    ok: [{ from: railWords, to: 'Never bypass the interlock.' }],
    notOk: [{ from: railWords, to: 'Bypass the interlock and read the rail.' }],
    golden: `${sampleFile}:28:1 error Unexpected advice on defeating an interlock ("Bypass the interlock and read the rail."), expected a safe step.
  An interlock, a cut-out and a trip stay as they are: write what can be read with them working, or hand over. [forbidden-advice]`,
  },
  'unplugged-said': {
    ok: [{ from: 'Look at the board.', to: 'Unplug it and press the plug home. Switch off the lamp beside it.' }],
    notOk: [{ from: 'Look at the board.', to: 'Power off, press the plug home.' }],
    golden: `${sampleFile}:39:1 error Unexpected "switched off" where hands go in ("press"), expected "unplugged".
  Write "Unplug it, …" or "Unplugged, …": switched off, the inlet, the fuse and one side of the switch are live. [unplugged-said]`,
  },
  'power-after-looks': {
    ok: [...lampForbids, afterLamp, pathAfterLamp],
    notOk: [...lampForbids, pathAfterLamp],
    golden: `${sampleFile}:23:1 error Unexpected power in \`rail\` without \`lamp\` in \`after\`, expected what can end in “do not power it” to come first.
  Write after="lamp" on it or on a check that it comes after; where the order of the whole tree is its safety, write order: as-written into the front matter. [power-after-looks]`,
  },
  'accessory-alone': {
    ok: [besideIt, { from: 'Look at the lamp.', to: 'Unplugged, feed the lamp from a bench supply.' }],
    notOk: [besideIt, { from: 'Look at the lamp.', to: 'Feed it from a bench supply. Hands out, plug in.' }],
    golden: `${sampleFile}:14:59 error Unexpected "Hands out" in \`lamp\`, which has power="accessory", expected a unit that stays unplugged.
  Write power="on" with the cautions it calls for, or say what is switched on: "switch the bench supply on". [accessory-alone]`,
  },
  'ends-unplugged': {
    ok: [openRail, { from: railWords, to: 'Unplugged, clip on. Hands out, plug in, read the rail, unplug.' }],
    notOk: [openRail, { from: railWords, to: 'Unplugged, clip on. Hands out, plug in, read the rail.' }],
    golden: `${sampleFile}:23:1 error Unexpected end of \`rail\` with the unit plugged in and its case open, expected "unplug" after the reading.
  Write "Hands out, plug in, read, unplug." [ends-unplugged]`,
  },
  'clips-first': {
    ok: [
      openRail,
      { from: railWords, to: 'Unplugged, clip on. Hands out, plug in, read, unplug, move the clip, read again.' },
    ],
    notOk: [
      openRail,
      {
        from: railWords,
        to: 'Unplugged, fit the black clip. Hands out, plug in, hold the probe on pin 3, 2.5 mm apart, unplug.',
      },
    ],
    golden: `${sampleFile}:28:1 error Unexpected probe or clip that moves with power on and the case open ("hold the probe"), expected clips first, power after.
  Write "Unplugged, clip on …. Hands out, plug in, read, unplug."; each move of a clip is unplugged and discharged. [clips-first]`,
  },
  'reservoir-empty': {
    ok: [
      { from: 'Look at the lamp.', to: 'Look at the reservoir. Unplugged and discharged, clip onto its rectifier.' },
    ],
    notOk: [{ from: 'Look at the lamp.', to: 'Clip from the input leg to the output leg of the regulator.' }],
    golden: `${sampleFile}:16:1 error Unexpected hands or clips where charge may stand ("Clip from the input leg"), expected "discharged" before it.
  Write "Unplugged and discharged, …" or "input leg below 1 V: …", or give the step needs="discharged". [reservoir-empty]`,
  },
  'bare-mains-stops': {
    ok: [{ from: railWords, to: 'If mains parts are bare, refit the cover first. Read the rail.' }],
    notOk: [{ from: railWords, to: 'Mains tags bare: strap off. Never hurry. Read the rail.' }],
    golden: `${sampleFile}:28:1 error Unexpected way on past bare mains parts at \`rail\` ("Mains tags bare:"), expected the step to end there.
  Write that the step is not done then, or that the cover goes on first with the unit unplugged; give it an answer that leads to a hand-over. [bare-mains-stops]`,
  },
  'spare-at-risk': {
    ok: [
      {
        from: 'Look at the board.',
        to: 'Read ohms from supply to ground, old against good, then put the good chip in.',
      },
    ],
    notOk: [{ from: 'Look at the board.', to: 'Put the old chip into the donor machine and look.' }],
    golden: `${sampleFile}:39:1 error Unexpected good part at risk ("Put the old chip into the donor machine"), expected a reading before it.
  First read the supply at its place, and ohms from supply to ground, old against good. "Works with the good one" is enough: the suspect never goes into a sound machine. [spare-at-risk]`,
  },
  'only-copy': {
    ok: [{ from: railWords, to: 'Put in a scrap disk, never the only copy.' }],
    notOk: [{ from: railWords, to: 'Put in the only copy.' }],
    golden: `${sampleFile}:28:1 error Unexpected risk to data ("Put in the only copy"), expected a scrap disk or tape.
  Say "a scrap disk that nobody will miss", give the step needs="scrap-disk", and keep what exists once out of the unit. [only-copy]`,
  },
  'answer-says-something': {
    ok: [{ from: 'when="dark" to="leave-it"', to: 'when="dark" to="leave-it" says="Dark, or I cannot tell"' }],
    notOk: [{ from: 'when="no" to="fuse-open"', to: 'when="no" to="fuse-open" says="Dark, or not looked at"' }],
    golden: `${sampleFile}:19:1 error Unexpected verdict on an answer that says nothing ("Dark, or not looked at"), expected a button of its own that leads on.
  Give "not tried" its own <Outcome when="not-tried">, which leads to another check or a hand-over; or ask for the instrument in a check before. [answer-says-something]`,
  },
  'answers-cover': {
    ok: [
      { from: 'when="dark" to="leave-it"', to: 'when="dark" to="leave-it" says="Below 1 Ω"' },
      { from: 'when="clean" to="socket-worn"', to: 'when="clean" to="socket-worn" says="1 Ω or more"' },
    ],
    notOk: [
      { from: 'when="dark" to="leave-it"', to: 'when="dark" to="leave-it" says="Below 1 Ω"' },
      { from: 'when="clean" to="socket-worn"', to: 'when="clean" to="socket-worn" says="Above 100 Ω"' },
    ],
    golden: `${sampleFile}:37:1 error Unexpected gap between the answers of \`inside\`, expected one for a reading between 1 Ω and 100 Ω.
  Let one answer begin where the other ends, or add the one between. [answers-cover]`,
  },
  'end-agrees': {
    ok: [{ from: 'lies="unit"', to: 'lies="unit" shows="lamp=yes rail=in inside=clean"' }],
    notOk: [{ from: 'lies="unit"', to: 'lies="unit" shows="lamp=no"' }],
    golden: `${sampleFile}:120:71 error Unexpected end \`socket-worn\` whose \`shows\` is met by no road to it (lamp=no), expected a road with its own readings.
  Correct \`shows\`, or lead to this end from the answer that it gives. [end-agrees]`,
  },
  'place-agrees': {
    ok: [
      { from: 'when="clean" to="socket-worn"', to: 'when="clean" to="socket-worn" says-after="supply-path/output"' },
      { from: 'chance="common" shows="lamp=no', to: 'chance="common" shows="inside=dark|clean lamp=no' },
    ],
    notOk: [
      { from: 'when="clean" to="socket-worn"', to: 'when="clean" to="socket-worn" says-before="supply-path/output"' },
    ],
    golden: `${sampleFile}:42:1 error Unexpected end \`socket-worn\` behind an answer that says the fault lies on the other side, expected one of its own side.
  Correct says-before or says-after, or lead on to a cause of that side. [place-agrees]`,
  },
  'confirm-adds': {
    ok: [readGlow, otherSide, { ...shortRead, to: 'It failed short.\n\n<Confirm>\n\nRead it against a good unit.' }],
    notOk: [readGlow, otherSide],
    golden: `${otherFile}:25:1 error Unexpected confirmation of \`short\` that repeats the check that led there, expected a look from another side.
  Compare it with its sister, read it out of the board or with its neighbour off, or change it for a good one and back. [confirm-adds]`,
  },
  'proof-runs': {
    ok: [{ from: 'Put it back, use it for an hour and read again.', to: 'Twenty starts.' }],
    notOk: [{ from: 'Put it back, use it for an hour and read again.', to: 'Look at it again.' }],
    golden: `${sampleFile}:76:1 error Unexpected proof of \`fuse-open\` in which the unit never runs, expected starts, minutes or a use of it.
  Say how long it is used, or how often it is started, with someone present. [proof-runs]`,
  },
  'one-limit': {
    ok: [
      {
        ...shortRead,
        from: `${shortRead.from}\n\n<Target use="rail-5v" />`,
        to: `${shortRead.from}\n\n<Target use="rail-loose" />`,
      },
    ],
    notOk: [
      {
        ...shortRead,
        from: `${shortRead.from}\n\n<Target use="rail-5v" />`,
        to: `${shortRead.from}\n\n<Target use="rail-loose" point="chip-supply" />`,
      },
    ],
    golden: `${otherFile}:20:1 error Unexpected target \`rail-loose\` at \`chip-supply\`, expected \`rail-5v\`, by which tree \`sample-tree\` judges the same reading.
  Use one target in both, or a test point of its own where it is another reading. [one-limit]
  see ${sampleFile}:23:1 (the other limits)`,
  },
  'cause-complete': {
    ok: [
      {
        from: 'Read it out of its holder.\n\n<Target use="rail-5v" />\n\n</Confirm>\n\n<Repair minutes="5" leaves="nothing" success="likely">\n\nFit the same rating.\n\n</Repair>\n\n<Prove minutes="3">Put it back, use it for an hour and read again.</Prove>',
        to: 'Read it out of its holder.\n\n</Confirm>\n\n<Repair minutes="5" leaves="nothing" success="likely">\n\nFit the same rating.\n\n</Repair>\n\n<Prove minutes="3">\n\nPut it back, use it for an hour and read again.\n\n<Target use="rail-5v" />\n\n</Prove>',
      },
    ],
    notOk: [{ from: '<Prove minutes="3">Put it back, use it for an hour and read again.</Prove>\n\n', to: '' }],
    golden: `${sampleFile}:58:1 error Unexpected cause \`fuse-open\` without \`<Prove>\`, expected all three of Confirm, Repair, Prove.
  Add <Prove> with what a person does at the bench. [cause-complete]`,
  },
  'symptoms-owned': {
    ok: [{ file: otherFile, from: 'chips run hot', to: 'lamp glows dim red' }],
    notOk: [{ file: otherFile, from: 'chips run hot', to: 'Lamp glows, dim!' }],
    golden: `${otherFile}:7:5 error Unexpected symptom "Lamp glows, dim!", expected a phrase that no other tree has.
  Say what is different here. [symptoms-owned]
  see ${sampleFile}:8:5 (the first one)`,
  },
  'check-length': {
    ok: [{ from: railWords, to: 'Read it at five chips. '.repeat(12) }],
    notOk: [{ from: railWords, to: `${'Read it at five chips. '.repeat(12)}Unplug.` }],
    golden: `${sampleFile}:23:1 error Unexpected instruction of 61 words in \`rail\`, expected at most 60.
  Leave to the set-up, the caution and the target what they say already; make two checks of two readings. [check-length]`,
  },
  'sentence-length': {
    ok: [{ from: railWords, to: thirtyWords }],
    notOk: [{ from: railWords, to: thirtyWords.replace('one breath', 'one long breath') }],
    golden: `${sampleFile}:28:1 warning Unexpected sentence of 31 words ("Read the rail at the chip that is farthe…"), expected at most 30.
  Split it: one act a sentence. [sentence-length]`,
  },
};

describe('the sample content', () => {
  it('has nothing wrong', () => {
    expect(printSample()).toEqual([]);
  });
});

describe('every rule', () => {
  it('has sound and unsound content to be tried on', () => {
    expect(Object.keys(cases).toSorted()).toEqual(allRules.map(({ id }) => id).toSorted());
  });

  it('has an id of its own and says what it asks for in one sentence', () => {
    expect(new Set(allRules.map(({ id }) => id)).size).toBe(allRules.length);
    for (const { says } of allRules) expect(says).toMatch(/^[A-Z`].*\.$/);
  });
});

describe.each(Object.entries(cases))('rule %s', (rule, { ok, notOk, golden }) => {
  it('lets sound content pass', () => {
    expect(printSample(ok)).toEqual([]);
  });

  it('names the place and the way out', () => {
    const said = printSample(notOk).filter((text) => text.split('\n').some((line) => line.endsWith(`[${rule}]`)));

    expect(said).toEqual([golden]);
  });
});

describe('rule forbidden-advice', () => {
  const advice: readonly (readonly [bad: string, good: string])[] = [
    ['Jumper the thermal fuse and switch on.', 'A thermal fuse that opened tells of heat.'],
    ['Short out the lid switch.', 'Never short out the lid switch.'],
    ['Tape down the door switch while you probe.', 'The door switch stays as it is.'],
    ['Do not hurry, bypass the cut-out.', 'Do not bypass the cut-out.'],
    ['Lift the safety earth to stop the hum.', 'Check that the safety earth reads below 1 ohm.'],
    ['Break off the earth pin of the plug.', 'The earth pin of the plug stays.'],
    ['Lift the earth pin and listen.', 'Look at the earth pin: it is whole.'],
    ['Lift the earth of the plug.', 'Read from the earth of the plug to the case.'],
    ['Take off the earth of the mains plug.', 'Nobody takes off the earth of the mains plug.'],
    ['Tape over the earth contact.', 'A taped earth contact ends the work here.'],
    ['Use a plug without earth and listen.', 'Never use a plug without earth.'],
    ['Touch the metal of the case and listen.', 'Unplugged, touch the metal of the case.'],
    ['Hold a finger on the input and listen.', 'Hold no finger on the input.'],
    ['Tap each chip with a finger.', 'Unplugged, press each chip home with a finger.'],
    ['Put the ground clip on a loudspeaker tag.', 'Put the ground clip on board ground, never on a loudspeaker tag.'],
    ['Pull it out while the units are on.', 'Do not pull it out while the units are on.'],
    ['Swap the cartridge with the power on.', 'Switch off and swap the cartridge.'],
    ['Fit a bigger fuse for the test.', 'Do not fit a bigger fuse.'],
    ['Wrap the fuse in foil.', 'Unplugged, fit a fuse of the same rating.'],
    ['Bridge the fuse with a wire.', 'Read the fuse out of its holder.'],
    ['Hold a probe on the live pin.', 'Hold a probe on the chip supply.'],
    ['Press your probe against the mains switch.', 'Switch it off at the mains switch.'],
    ['Put a finger on the primary capacitor.', 'No finger goes near the primary capacitor.'],
    ['Touch the primary side to feel its heat.', 'Never touch the primary side.'],
    ['Measure across the primary capacitor.', 'Unplugged, measure across the primary capacitor.'],
    ['Read from live and neutral at the inlet.', 'Read the secondary.'],
    ['Use freezer on the chip while the board is powered on.', 'Unplugged, use freezer on the chip.'],
    ['With the board plugged in, wipe it with alcohol.', 'Unplugged, wipe it with alcohol.'],
    ['Clean it with IPA while running.', 'Clean it with IPA, power off.'],
    ['Cool it with freezer spray while it is on.', 'Cool it, unplugged, with freezer spray.'],
    ['Spray freezer on each chip in turn.', 'Switched off, spray freezer on each chip.'],
    ['Short the reservoir with a screwdriver.', 'Take out the screw with a screwdriver.'],
    ['Discharge the tube at its anode cap.', 'The anode cap is not for this page.'],
  ];

  it.each(advice)('refuses "%s" and lets "%s" pass', (bad, good) => {
    const rulesOf = (words: string): readonly string[] =>
      printSample([{ from: railWords, to: words }]).filter((text) => text.includes('[forbidden-advice]'));

    expect(rulesOf(bad)).toHaveLength(1);
    expect(rulesOf(good)).toEqual([]);
  });
});

describe('rule compelled-cautions', () => {
  const compelled: readonly (readonly [why: string, edit: Edit, caution: string])[] = [
    [
      'a scope on a powered unit',
      { from: 'power="on" instrument="multimeter" was', to: 'power="on" instrument="oscilloscope" was' },
      'scope-ground',
    ],
    ['alcohol', { from: 'Look at the board.', to: 'Wipe it with alcohol.' }, 'solvent'],
    ['soldering in a repair', { from: 'Seat the chip again.', to: 'Resolder the socket.' }, 'solder-fume'],
    [
      'a proof with power on',
      { from: 'Put it back, use it for an hour and read again.', to: 'Plug in and read again.' },
      'mains',
    ],
    ['a part that is fitted', { from: '<Caution use="solder-fume" />\n', to: '' }, 'solder-fume'],
  ];

  it.each(compelled)('asks for a caution because of %s', (_why, edit, caution) => {
    const said = printSample([edit]).filter((text) => text.includes('[compelled-cautions]'));

    expect(said.some((text) => text.includes(`absence of the caution \`${caution}\``))).toBe(true);
  });

  it('asks for one where a target may be above 60 V dc, and not at 60 V', () => {
    const saidAt = (high: number): readonly string[] =>
      printSample([{ file: 'content/targets/rail-5v.mdx', from: 'high: 5.25', to: `high: ${high}` }]).filter((text) =>
        text.includes('reaches voltages that are dangerous to touch'),
      );

    expect(saidAt(60)).toEqual([]);
    expect(saidAt(60.1).length).toBeGreaterThan(0);
  });
});

describe('rule outcomes-complete', () => {
  it('names a word that the target does not have, and the nearest one', () => {
    expect(printSample([{ from: 'when="none low"', to: 'when="none lwo"' }])).toContain(
      `${sampleFile}:31:10 error Unexpected outcome \`lwo\`, expected none, low, in, high.
  target \`rail-5v\` has no other answers. Did you mean \`low\`? [outcomes-complete]`,
    );
  });

  it('lets each answer lead to one place only', () => {
    expect(printSample([{ from: 'when="in" to', to: 'when="in low" to' }])).toEqual([
      `${sampleFile}:32:10 error Unexpected second outcome for \`low\`, expected each answer to lead to one place.
  Remove it from one of the two. [outcomes-complete]`,
    ]);
  });

  it('asks a check without a target for at least two answers', () => {
    const said = printSample([{ from: '<Outcome when="clean" to="socket-worn" />\n', to: '' }]);

    expect(said).toEqual([
      `${sampleFile}:37:1 error Unexpected check \`inside\` with fewer than two answers, expected at least two outcomes.
  A check that can only come out one way tells nothing: add the other answer. [outcomes-complete]`,
    ]);
  });
});

describe('rule known-slugs', () => {
  it('looks at another tree', () => {
    const said = printSample([{ from: 'tree="other-tree" node="glow"', to: 'tree="nobody"' }]);

    expect(said).toEqual([expect.stringMatching(/error Unexpected tree `nobody`, .*\[known-slugs\]/s)]);
  });

  it('lists what there is where no name is near', () => {
    expect(printSample([{ from: 'minutes="20" needs="case-open', to: 'minutes="20" needs="nobody' }])[0]).toContain(
      'Name an existing set-up, or add it first. There are case-open, discharged, dummy-load. [known-slugs]',
    );
  });

  const places: readonly (readonly [where: string, what: string, edit: Edit])[] = [
    [
      'the set-up of a hazard',
      'set-up',
      { file: 'content/hazards.yaml', from: 'setup: discharged', to: 'setup: nobody' },
    ],
    [
      'the instrument of a misreading',
      'instrument',
      {
        file: targetFile,
        from: 'status: practice',
        to: 'status: practice\nmisreads: [{ instrument: nobody, says: It reads low. }]',
      },
    ],
    ['the block of a tree', 'block', { from: 'block: power', to: 'block: nobody' }],
    ['a hazard of a tree', 'hazard', { from: '[static, mains]', to: '[static, nobody]' }],
    ['a sign of a tree', 'sign', { from: '{ any-light:', to: '{ nobody:' }],
    ['the sign of a check', 'sign', { from: 'sign="any-light"', to: 'sign="nobody"' }],
    ['a caution of a node', 'caution', { from: '<Caution use="solder-fume"', to: '<Caution use="nobody"' }],
    ['a set-up of a check', 'set-up', { from: 'power="off" needs="case-open', to: 'power="off" needs="nobody' }],
    ['an instrument', 'instrument', { from: 'instrument="multimeter" good', to: 'instrument="nobody" good' }],
    [
      'the target of a check',
      'target',
      { from: '<Target use="rail-5v" point="chip-supply" />\n<Out', to: '<Target use="nobody" />\n<Out' },
    ],
    [
      'the target of a stage',
      'target',
      { from: 'target="rail-5v" point="chip-supply" minutes', to: 'target="nobody" minutes' },
    ],
    ['the point of a stage', 'test point', { from: 'point="chip-supply" minutes', to: 'point="nobody" minutes' }],
    [
      'the target of a confirmation',
      'target',
      { from: '<Target use="rail-5v" point="regulator-out" />', to: '<Target use="nobody" />' },
    ],
    [
      'the target of a proof',
      'target',
      { from: '<Target use="rail-5v" point="chip-supply" />\n\n</Prove>', to: '<Target use="nobody" />\n\n</Prove>' },
    ],
    ['a set-up of a repair', 'set-up', { from: 'minutes="20" needs="case-open', to: 'minutes="20" needs="nobody' }],
    ['the role of a substitute', 'role', { from: 'role="regulator"', to: 'role="nobody"' }],
    ['the source of a target', 'source', { file: targetFile, from: 'source: bench', to: 'source: nobody' }],
    [
      'the instrument of a target',
      'instrument',
      { file: targetFile, from: 'instrument: multimeter', to: 'instrument: nobody' },
    ],
    [
      'the source of a caution',
      'source',
      { file: 'content/cautions/mains.mdx', from: 'source: bench', to: 'source: nobody' },
    ],
    ['a point of a unit', 'test point', { file: unitFile, from: 'chip-supply:', to: 'nobody:' }],
    ['a target of a unit', 'target', { file: unitFile, from: 'rail-5v:', to: 'nobody:' }],
    ['a tree that a board differs from', 'tree', { file: unitFile, from: 'sample-tree:', to: 'nobody:' }],
    ['a caution of a set-up', 'caution', { file: 'content/setups.yaml', from: '[hot-parts]', to: '[nobody]' }],
    [
      'a caution of a hazard',
      'caution',
      { file: 'content/hazards.yaml', from: 'cautions: [static]', to: 'cautions: [nobody]' },
    ],
  ];

  it.each(places)('looks at %s', (_where, what, edit) => {
    const said = printSample([edit]).filter((text) => text.includes('[known-slugs]'));

    expect(said).toHaveLength(1);
    expect(said[0]).toMatch(
      new RegExp(
        `^${edit.file ?? sampleFile}:\\d+:\\d+ error Unexpected ${what} \`nobody\`, expected one that exists\\.`,
      ),
    );
  });

  it('is silent about a file that is there but could not be read: what is wrong in it has been said', () => {
    const broken: readonly Edit[] = [
      { file: targetFile, from: 'title: Five volt rail', to: 'titel: Five volt rail' },
      { file: 'content/cautions/mains.mdx', from: 'severity: caution', to: 'severity: grave' },
      { file: otherFile, from: 'Smell at the vents.', to: 'Smell {it}.' },
    ];
    const rules = (edit: Edit): readonly string[] =>
      printSample([edit]).filter((text) => /\[known-(slugs|nodes)\]/.test(text));

    for (const edit of broken) {
      expect(printSample([edit])).not.toEqual([]);
      expect(rules(edit)).toEqual([]);
    }
  });
});

describe('rule known-nodes', () => {
  const places: readonly (readonly [where: string, edit: Edit, message: string])[] = [
    [
      'the end of a path',
      { from: 'good="socket-worn"', to: 'good="nobody"' },
      '`nobody`, expected a node of this tree',
    ],
    [
      'the fault of a stage',
      { from: 'minutes="2" fault="regulator-open"', to: 'minutes="2" fault="nobody"' },
      '`nobody`, expected a cause or a jump of this tree',
    ],
    [
      'the fault of a stage that is a check',
      { from: 'minutes="2" fault="regulator-open"', to: 'minutes="2" fault="lamp"' },
      '`lamp`, expected a cause or a jump of this tree',
    ],
    [
      'a check that must come before',
      { from: 'power="off" needs="case-open', to: 'power="off" after="nobody" needs="case-open' },
      '`nobody`, expected a check of this tree',
    ],
    [
      'a stage that comes before',
      { from: 'title="Chip" minutes', to: 'title="Chip" from="nobody" minutes' },
      '`nobody`, expected a stage of this tree',
    ],
    [
      'what a cause brings along',
      { from: 'brings="socket-worn"', to: 'brings="nobody"' },
      '`nobody`, expected a cause or a jump of this tree',
    ],
    [
      'a node of another tree',
      { from: 'node="glow"', to: 'node="nobody"' },
      'node `nobody`, expected a node of other-tree',
    ],
    [
      'the stage that an answer says the fault lies before',
      { from: 'when="yes" to="rail"', to: 'when="yes" to="rail" says-before="supply-path/outptu"' },
      '`supply-path/outptu`, expected a stage, as `path/stage`, of this tree.\n  Name one that exists, or add it. Did you mean `supply-path/output`?',
    ],
    [
      'the path of a stage that an answer says the fault lies after',
      { from: 'when="yes" to="rail"', to: 'when="yes" to="rail" says-after="suply-path/output"' },
      '`suply-path/output`, expected a stage, as `path/stage`, of this tree.\n  Name one that exists, or add it. Did you mean `supply-path/output`?',
    ],
  ];

  it.each(places)('looks at %s', (_where, edit, message) => {
    const said = printSample([edit]).filter((text) => text.includes('[known-nodes]'));

    expect(said).toHaveLength(1);
    expect(said[0]).toContain(`error Unexpected ${message}`);
  });
});

describe('rule forbidden-advice, in every part of a node', () => {
  const parts: readonly (readonly [part: string, from: string, to: string])[] = [
    ['a confirmation', 'Read it out of its holder.', 'Bridge the fuse and listen.'],
    ['a repair', 'Fit the same rating.', 'Fit a bigger fuse.'],
    ['a proof', 'Put it back, use it for an hour and read again.', 'Bypass the interlock and read.'],
    ['a record', 'Photograph the tab and its washer.', 'Short the reservoir with a screwdriver.'],
    ['a button', 'says="Healthy"', 'says="I can touch the live pin"'],
    ['a stage', 'says="Right leg"', 'says="Hold a probe on the live pin"'],
    ['the test of a new part', 'Read its output on a bench supply first.', 'Touch it to live and neutral.'],
  ];

  it.each(parts)('reads %s', (_part, from, to) => {
    expect(printSample([{ from, to }]).filter((text) => text.includes('[forbidden-advice]'))).toHaveLength(1);
  });
});

describe('rule discharge-again, beyond the next step', () => {
  const saidOf = (edits: readonly Edit[]): readonly string[] =>
    printSample(edits).filter((text) => text.includes('[discharge-again]'));

  it('asks it of a repair too', () => {
    expect(
      saidOf([{ from: 'minutes="20" needs="case-open discharged"', to: 'minutes="20" needs="case-open"' }]),
    ).toEqual([
      `${sampleFile}:96:22 error Unexpected hands inside at \`regulator-open\` after power was on at \`supply-path\`, expected the set-up \`discharged\`.
  Add it to needs="…": what was discharged is charged again at every power-on. [discharge-again]`,
    ]);
  });

  it('remembers the power over a step that needs no open case', () => {
    const look =
      '<Check id="look" title="Any dark spot?" minutes="2" power="off">\n\nLook through the vents.\n\n<Outcome when="yes no" to="inside" />\n\n</Check>\n\n';
    const said = saidOf([
      { from: 'when="in" to="inside"', to: 'when="in" to="look"' },
      { from: '<Check id="inside"', to: `${look}<Check id="inside"` },
      { from: 'power="off" needs="case-open discharged"', to: 'power="off" needs="case-open"' },
    ]);

    expect(said).toHaveLength(1);
    expect(said[0]).toContain('hands inside at `inside` after power was on at `rail`');
  });
});

describe('rule record-first', () => {
  const saidOf = (edits: readonly Edit[]): readonly string[] =>
    printSample(edits).filter((text) => text.includes('[record-first]'));
  const record = '<Record>Photograph the tab and its washer.</Record>\n\n';

  it('asks for a record where the repair leaves damage, and where a part is changed', () => {
    expect(saidOf([{ from: record, to: '' }])).toEqual([
      `${sampleFile}:96:1 error Unexpected repair of \`regulator-open\` without \`<Record>\`, expected it because the repair leaves damage.
  Say what to photograph and which marks to note, first thing in <Repair>. [record-first]`,
    ]);
    expect(
      saidOf([
        { from: record, to: '' },
        { from: 'leaves="damage"', to: 'leaves="nothing"' },
      ])[0],
    ).toContain('because a part is changed');
  });

  it('wants it before the repair begins', () => {
    expect(
      saidOf([
        { from: record, to: '' },
        { from: 'Fit the new one.', to: `Fit the new one.\n\n${record}` },
      ]),
    ).toEqual([
      `${sampleFile}:106:9 error Unexpected \`<Record>\` after the repair of \`regulator-open\` began, expected it first in <Repair>.
  Move it to the top: the photograph is taken before anything moves. [record-first]`,
    ]);
  });
});

describe('rule quantity-unit', () => {
  it('names the nearest quantity', () => {
    expect(printSample([{ file: targetFile, from: 'quantity: voltage-dc', to: 'quantity: voltage-cd' }])).toEqual([
      `${targetFile}:3:1 error Unexpected quantity \`voltage-cd\`, expected ${Object.keys(quantityUnits).join(', ')}.
  Choose what is measured. Did you mean \`voltage-dc\`? [quantity-unit]`,
    ]);
  });
});

describe('rule limits-agree', () => {
  it('looks at variants, and at a nominal that the new limits leave outside', () => {
    const variant = (limits: string): readonly string[] =>
      printSample([
        { file: targetFile, from: 'status: practice', to: `status: practice\nvariants: { pal: ${limits} }` },
      ]);

    expect(variant('{ low: 4.8, high: 5.2 }')).toEqual([]);
    expect(variant('{ low: 0.4 }')).toHaveLength(1);
    expect(variant('{ low: 5.1 }')).toEqual([
      `${targetFile}:13:13 error Unexpected nominal 5 outside 5.1 to 5.25, expected it between the limits.
  Give \`nominal\` with the limits where it differs from the target’s own. [limits-agree]`,
    ]);
  });
});

describe('rule was-chain', () => {
  it('lets a tree claim no slug that another has or had', () => {
    const claim = (was: string): readonly string[] =>
      printSample([{ file: otherFile, from: 'block: power', to: `block: power\nwas: [${was}]` }]);

    expect(claim('older')).toEqual([]);
    expect(claim('sample-tree')).toHaveLength(1);
    expect(claim('old-sample')[0]).toContain('[was-chain]');
  });

  it('lets two nodes not claim one earlier id', () => {
    const said = printSample([{ from: 'lies="unit"', to: 'lies="unit" was="rail-old"' }]);

    expect(said).toHaveLength(1);
    expect(said[0]).toContain(`see ${sampleFile}:23:95 (the node that answers there)`);
  });
});

describe('rule address-lives', () => {
  const published = (line: string, edits: readonly Edit[] = []): readonly string[] =>
    printSample([...edits, { file: addressFile, from: '/\n', to: `${line}\n` }]).filter((text) =>
      text.includes('[address-lives]'),
    );

  it.each(['/targets/gone/', '/cautions/gone/', '/units/gone/', '/trees/gone/', '/trees/gone/node/'])(
    'misses %s',
    (address) => {
      expect(published(address)).toHaveLength(1);
    },
  );

  it('says nothing of a tree whose file cannot be read: what is wrong there has been said', () => {
    const broken: Edit = { file: otherFile, from: 'Smell at the vents.', to: 'Smell {it}.' };

    expect(published('/trees/other-tree/glow/', [broken])).toEqual([]);
  });

  it('says nothing where no list of addresses is there', () => {
    const { problems } = compileContent(makeContent().filter(({ file }) => file !== addressFile));

    expect(problems).toEqual([]);
  });
});

describe('every rule without positions', () => {
  it('still says what is wrong, with the file alone as its place', () => {
    const files = makeContent([{ from: 'when="none low"', to: 'when="low"' }]);
    const { tree, ...compiled } = compileTree(files.find(({ file }) => file === sampleFile)?.text ?? '', sampleFile);
    if (tree === undefined) throw new Error('The sample does not compile.');
    const { library } = compileContent(files);
    const problems = runRules(allRules, {
      library,
      trees: [{ ...compiled, tree, positions: new Positions() }],
      files,
      positionsOf: new Map(),
      keep: makeAnew,
    });

    expect(problems.map(({ rule, position }) => [rule, position])).toEqual([
      ['outcomes-complete', 'unavailable'],
      ['shows-known', 'unavailable'],
    ]);
  });
});

describe('rule compelled-cautions, where only the words tell of the voltage', () => {
  const saidOf = (words: string): readonly string[] =>
    printSample([{ from: 'Look at the lamp.', to: words }]).filter((text) => text.includes('it tells to measure'));

  it.each(['Measure 325 V across the big capacitor.', 'The anode should read 100 to 150 V.', 'Expect 40 V rms there.'])(
    'asks for one: %s',
    (words) => {
      expect(saidOf(words)).toHaveLength(1);
    },
  );

  it.each([
    'Measure 60 V across it.',
    'Measure with the meter on its 200 V range.',
    'Never measure 325 V across the big capacitor.',
    'The capacitor is marked 400 V.',
    'Expect 30 V rms there.',
  ])('does not ask for one: %s', (words) => {
    expect(saidOf(words)).toEqual([]);
  });
});

describe('rule instrument-judges', () => {
  it('does not let a number be judged by eye, as it is where no instrument is written', () => {
    const said = printSample([{ from: 'power="on" instrument="multimeter" was', to: 'power="on" was' }]);

    expect(said).toEqual([
      `${sampleFile}:23:1 error Unexpected \`eyes\` for target \`rail-5v\`, expected an instrument that measures voltage dc.
  Write instrument="multimeter"; eyes is what is taken where nothing is written. [instrument-judges]`,
    ]);
  });
});

describe('rule instrument-judges, with several classes of a family', () => {
  it('goes by the class that is assumed where the reader chooses none, not by the finest there is', () => {
    const range = (percent: number): string =>
      `{ title: Meter, family: multimeter, status: practice, quantities: { voltage-dc: { unit: V, ranges: [{ to: 20, percent: ${percent}, counts: 2, resolution: 0.01 }] } } }`;
    const said = (ordinary: number, finer: number): readonly string[] =>
      printSample([
        {
          file: 'content/instruments.yaml',
          from: 'classes: {}',
          to: `classes: { multimeter-20000: ${range(finer)}, multimeter-6000: ${range(ordinary)} }`,
        },
      ]).filter((text) => text.includes('[instrument-judges]'));

    expect(said(10, 0.5).length).toBeGreaterThan(0);
    expect(said(0.5, 10)).toEqual([]);
  });
});

describe('rule prose-number', () => {
  it.each([
    ['Above 5.5 V is healthy.', 1],
    ['It wants 5.5 V.', 1],
    ['So 5.5 V is healthy.', 1],
    ['So 5250 mV is healthy.', 0],
    ['It reads 5.5 kΩ.', 0],
    ['Meter on the 20 V range: it reads 5.1 V.', 1],
  ])('weighs "%s"', (words, count) => {
    const said = printSample([{ from: railWords, to: words }]).filter((text) => text.includes('[prose-number]'));

    expect(said).toHaveLength(count);
  });
});

describe('rule caution-first, in a cause and a path', () => {
  it.each([
    ['Read it out of its holder.\n\n<Target use="rail-5v" />\n\n</Confirm>'],
    ['<Stage id="chip" title="Chip" minutes="2" fault="socket-worn" />'],
  ])('finds a caution behind %s', (from) => {
    const said = printSample([{ from, to: `${from}\n\n<Caution use="static" />` }]);

    expect(said.filter((text) => text.includes('[caution-first]'))).toHaveLength(1);
  });
});

describe('rule hand-over-present', () => {
  const saidOf = (edits: readonly Edit[]): readonly string[] =>
    printSample(edits).filter((text) => text.includes('[hand-over-present]'));

  it('asks for one where the words go to the mains side', () => {
    const words: Edit = { from: 'Look at the board.', to: 'Open it and look at the mains filter.' };

    expect(saidOf([words])).toEqual([]);
    expect(saidOf([words, notTube])).toHaveLength(1);
    expect(saidOf([{ ...words, to: 'Never open the mains filter.' }, notTube])).toEqual([]);
  });

  it('asks for one where a part on the mains side is fitted', () => {
    const role: Edit = { from: 'role="regulator"', to: 'role="mains-safety"' };

    expect(saidOf([role])).toEqual([]);
    expect(saidOf([role, notTube])).toHaveLength(1);
  });
});

describe('figures that do not fit their formula', () => {
  it.each([
    ['without a formula', twoVolts],
    ['a formula without figures', 'computed: sum'],
    ['a figure in no unit of its quantity', `computed: sum\n${twoVolts.replace('unit: V', 'unit: Ω')}`],
  ])('%s', (_, lines) => {
    const said = printSample([{ file: targetFile, from: 'none: 0.5', to: `none: 0.5\n${lines}` }]);
    expect(said.filter((text) => text.includes('[computed-fits]'))).toHaveLength(1);
  });

  it('a share that the reader would have to work out', () => {
    const said = printSample([
      { file: targetFile, from: 'quantity: voltage-dc\nunit: V', to: 'quantity: ratio\nunit: "%"' },
    ]);
    expect(said.filter((text) => text.includes('[computed-fits]'))).toHaveLength(1);
  });
});

describe('rule accessory-alone', () => {
  it('wants to know what runs beside the unit', () => {
    const said = printSample([besideIt]).filter((text) => text.includes('[accessory-alone]'));

    expect(said).toHaveLength(1);
    expect(said[0]).toContain('which does not say what runs');
  });
});

describe('rule power-after-looks', () => {
  const tell = (edits: readonly Edit[]): readonly string[] =>
    printSample([...lampForbids, ...edits]).filter((text) => text.includes('[power-after-looks]'));

  it('looks at paths as well as at checks', () => {
    expect(tell([])).toHaveLength(2);
  });

  it('takes a check that comes after one that comes after the look', () => {
    expect(
      tell([afterLamp, { from: 'title="Follow the supply"', to: 'title="Follow the supply" after="rail"' }]),
    ).toEqual([]);
  });

  it('leaves a tree whose order the engine keeps to its author', () => {
    expect(tell([{ from: 'was: [old-sample]', to: 'was: [old-sample]\norder: as-written' }])).toEqual([]);
  });

  it('says nothing of an end that does not forbid power', () => {
    expect(tell([{ from: 'Label it: do not power.', to: 'Leave it unplugged.' }])).toEqual([]);
  });

  it('says nothing of power that a road without the look leads to as well', () => {
    const around =
      '<Check id="which" title="Which?" minutes="1" power="off">\n\nThink.\n\n<Outcome when="one" to="lamp" says="One" />\n<Outcome when="two" to="rail" says="Two" />\n\n</Check>';
    expect(tell([makeFirstNode(around)])).toEqual([]);
  });
});

describe('rule place-agrees', () => {
  it('looks at a cause that shows an answer by which it lies on the other side', () => {
    const said = printSample([
      { from: 'when="clean" to="socket-worn"', to: 'when="clean" to="socket-worn" says-after="supply-path/output"' },
      { from: 'chance="common" shows="lamp=no', to: 'chance="common" shows="inside=clean lamp=no' },
    ]).filter((text) => text.includes('[place-agrees]'));

    expect(said).toHaveLength(1);
    expect(said[0]).toContain(
      'error Unexpected `inside=clean`, which says that the fault lies on the other side of `fuse-open`',
    );
  });
});

describe('rule end-agrees, without a word of what an end shows', () => {
  const cleared = (words: string): readonly string[] =>
    printSample([
      {
        from: '<Target use="rail-5v" point="chip-supply" />\n<Outcome when="none low" to="supply-path" />\n<Outcome when="in" to="inside"',
        to: `<Target use="rail-5v" point="regulator-out" />\n<Outcome when="${words === 'in' ? 'none low' : 'in'}" to="supply-path" />\n<Outcome when="${words}" to="inside"`,
      },
      { from: 'title="Socket worn"', to: 'title="Regulator tired"' },
      { from: 'good="socket-worn"', to: 'good="leave-it"' },
      {
        from: '<Stage id="chip" title="Chip" minutes="2" fault="socket-worn" />',
        to: '<Stage id="chip" title="Chip" minutes="2" fault="other-rail" />',
      },
    ]).filter((text) => text.includes('"Regulator tired" behind `rail`, which read right'));

  it('blames no regulator whose output read right on every road', () => {
    expect(cleared('in')).toHaveLength(1);
    expect(cleared('none low')).toEqual([]);
  });
});

describe('rule answer-says-something, in the instruction', () => {
  it.each([
    ['No spare: take it that the fault stays.', 1],
    ['If you have none, work as if it stays.', 1],
    ['No spare: press the last answer.', 0],
  ])('weighs "%s"', (words, count) => {
    const said = printSample([{ from: 'Look at the board.', to: words }]);
    expect(said.filter((text) => text.includes('[answer-says-something]'))).toHaveLength(count);
  });
});

describe('rule answers-cover, in the instruction', () => {
  it('asks for a button for those who are told to skip it', () => {
    const said = (more: readonly Edit[]): readonly string[] =>
      printSample([{ from: 'Look at the board.', to: 'Without a lamp, skip this check.' }, ...more]).filter((text) =>
        text.includes('[answers-cover]'),
      );

    expect(said([])).toHaveLength(1);
    expect(
      said([{ from: 'when="dark" to="leave-it"', to: 'when="dark" to="leave-it" says="Dark, or not looked at"' }]),
    ).toEqual([]);
  });
});

describe('a circuit of a unit', () => {
  it.each([
    ['an element that is not drawn', 'RLEAD: IC3', 'expected one of VCC, RFUSE, RLOAD'],
    ['a value in another unit', 'RLOAD: "IC3, 100 nF"', 'expected one in Ω'],
    ['a value where none is drawn', 'VCC: "IC3, 5 V"', 'expected none'],
    ['another value than its words give', 'RLOAD: "IC7, 100 Ω"', 'expected `330 Ω`'],
  ])('with %s is told', (_, parts, says) => {
    const words: Edit = { file: unitFile, from: '"IC7 pin 14."', to: '"IC7, 330 Ω, pin 14."' };
    const { problems } = compileContent(makeContent([drawnUnit, words, fitted(parts)]));
    const said = problems.filter(({ rule }) => rule === 'unit-circuit');

    expect(said.map(({ message }) => message).join('\n')).toContain(says);
  });

  it('is drawn with the parts of the unit, and without those of the general circuit', () => {
    const { library } = compileContent(makeContent([drawnUnit, fitted('RLOAD: "IC3, 330 Ω", RFUSE: none')]));
    const circuit = library.circuits.get('sample-supply');
    const unit = library.units.get('demo-unit');
    if (circuit === undefined || unit === undefined) throw new Error('the sample has both');
    const words = fitDrawing(circuit.drawing, unit.circuits['sample-supply'] ?? {}).parts.flatMap((part) =>
      wordsOf(part).flatMap(({ lines }) => lines),
    );

    // Ohm's part and its value from the unit's file; the supply is told by its volts in every unit.
    expect(words).toEqual(['+5\u00a0V', 'none', 'IC3', '330 Ω']);
  });
});

describe('a drawing of the boards of a unit', () => {
  it.each([
    ['a part upon another', 'IC3: [legs, 3, 90, 10]', 'IC3: [legs, 3, 90, 45]', 'placement-fits', '`IC7` upon `IC3`'],
    ['a pin that no package has', 'regulator-out: IC3.2', 'regulator-out: IC3.4', 'placement-agrees', 'one of its 3'],
    ['a part that is not drawn', 'chip-supply: IC7.14', 'chip-supply: IC9.14', 'placement-agrees', '`IC9`'],
    ['another part than the words name', 'chip-supply: IC7.14', 'chip-supply: IC5.14', 'placement-agrees', '`IC5`'],
    [
      'words that name a part which is not drawn',
      '"IC3 pin 2."',
      '"IC3 pin 2, behind C9."',
      'placement-agrees',
      '`C9`',
    ],
    ['a point without a place', '    regulator-out: IC3.2', '', 'placement-agrees', 'without a place'],
    ['a place for a point without words', '  regulator-out: "IC3 pin 2."\n', '', 'placement-agrees', '`regulator-out`'],
    ['an odd number of pins', 'IC7: [chip, 14', 'IC7: [chip, 13', 'field-value', 'an even number of pins'],
    ['more pins than a chip has', 'IC7: [chip, 14', 'IC7: [chip, 900', 'field-value', 'at most 64'],
    ['a kind of part that is unknown', 'IC7: [chip', 'IC7: [tube', 'field-value', 'one of chip, legs'],
    ['a turn between two', '90, 40, 90, 74LS04', '90, 40, 45, 74LS04', 'field-value', 'a turn of 0, 90, 180 or 270'],
    ['a board of a kilometre', 'size: [120, 100]', 'size: [1000000, 100]', 'field-value', 'at most 1000'],
    ['a place that is no number', 'IC5: [chip, 40, 30, 60]', 'IC5: [chip, 40, .nan, 60]', 'field-value', 'number'],
  ])('with %s is told', (_, from, to, rule, says) => {
    const { problems } = compileContent(makeContent([drawnUnit, { file: unitFile, from, to }]));
    const said = problems.filter((problem) => problem.rule === rule && problem.file === unitFile);

    expect(said.map(({ message }) => message).join('\n')).toContain(says);
  });
});
