import type { ContentFile } from '#compiler/compile-content.ts';
import { compileContent } from '#compiler/compile-content.ts';
import { printProblem } from '#compiler/reporters.ts';
import { hashNetlist } from '#core/model/circuit.ts';

/** Path of the sample's main tree; every golden message about it counts lines in `sampleTree`. */
export const sampleFile = 'content/trees/power/sample-tree.mdx';
export const otherFile = 'content/trees/power/other-tree.mdx';
export const targetFile = 'content/targets/rail-5v.mdx';
export const partFile = 'content/parts/regulator.yaml';
export const pictureFile = 'content/figures/waves.yaml';
export const unitFile = 'content/units/demo-unit.mdx';
export const circuitFile = 'content/circuits/sample-supply.cir';
export const circuitNumbers = 'content/circuits/sample-supply.json';
export const addressFile = 'content/addresses.txt';

/** One replacement in one file. It throws where `from` does not stand exactly once, so that no fixture is a no-op. */
export interface Edit {
  readonly file?: string;
  readonly from: string;
  readonly to: string;
}

/** The powered check of the sample, done with the case open. */
export const openRail: Edit = {
  from: 'power="on" instrument="multimeter" was',
  to: 'power="on" needs="case-open discharged" instrument="multimeter" was',
};

/** The lamp decides whether the sample unit may have power. */
export const lampForbids: readonly Edit[] = [
  { from: '<Outcome when="no" to="fuse-open" />', to: '<Outcome when="no" to="leave-it" />' },
  { from: 'shows="lamp=no rail', to: 'shows="rail' },
  { from: 'Leave it unplugged.', to: 'Label it: do not power.' },
];

/** The other tree, its first check read by meter. */
export const readGlow: Edit = {
  file: otherFile,
  from: 'power="off">\n\nSmell at the vents.\n\n<Outcome when="hot" to="short" />\n<Outcome when="cool" to="open-divider" />',
  to: 'power="off" instrument="multimeter">\n\nRead it.\n\n<Target use="rail-5v" />\n<Outcome when="high" to="short" />\n<Outcome when="none low in" to="open-divider" />',
};
/** A confirmation there that looks from another side. */
export const otherSide: Edit = {
  file: otherFile,
  from: 'It failed open.\n\n<Confirm>\n\nRead it.',
  to: 'It failed open.\n\n<Confirm>\n\nRead it, then its sister.',
};

/** The sample unit with its board drawn. */
export const drawnUnit: Edit = {
  file: unitFile,
  from: '  sample-tree: "The lamp is behind the panel."',
  to: `  sample-tree: "The lamp is behind the panel."
placement:
  boards:
    - name: Main board
      size: [120, 100]
      parts:
        IC5: [chip, 40, 30, 60]
        IC3: [legs, 3, 90, 10]
        IC7: [chip, 14, 90, 40, 90, 74LS04]
  points:
    chip-supply: IC7.14
    regulator-out: IC3.2`,
};

const samplePart = `title: A regulator
family: regulator
aliases: [LM317]
package: to-220
source: bench
pins:
  1: [adjust, input]
  2: [output supply, power]
  3: [input supply, power]
`;

const picture = `title: Small waves
says: Shallow waves.
seen: supply
leads: [sample-tree/rail]
trace:
  volts: 2
  time: 0.005
  coupling: dc
  zero: 0
  shapes:
    - ripple: { top: 10.7, trough: 9.3, hertz: 100, mains: 50 }
`;

const sampleCircuit = `---
title: A rail behind a fuse
summary: Five volts through a fuse to a chip.
source: bench
status: practice
points:
  chip-supply: [chip, 0]
drawing:
  parts:
    VCC: supply 2,2 up
    RFUSE: fuse 3,2, fuse
    RLOAD: 12,2 down, chip
  wires:
    rail: 2,2 3,2
    chip: 7,2 12,2
  ground: 12,6
  points:
    chip-supply: 10,2 up
faults:
  fuse-open: { title: Fuse open, changes: { RFUSE: open } }
---
VCC rail 0 5
RFUSE rail chip 0.1
RLOAD chip 0 100
.op
`;

/** By Ohm's law: 5 V times 100 Ω of 100.1 Ω, and next to nothing through 1 GΩ. */
function makeNumbers(): string {
  const still = { ac: eight(0), rate: eight(0), trace: [] };
  const at = (volts: number): unknown => ({
    'chip-supply': { mean: eight(volts), low: eight(volts), high: eight(volts), ...still },
  });
  return JSON.stringify({
    engine: 'by hand',
    netlist: hashNetlist({
      slug: 'sample-supply',
      title: '',
      summary: '',
      source: '',
      status: 'practice',
      evidence: [],
      lines: ['VCC rail 0 5', 'RFUSE rail chip 0.1', 'RLOAD chip 0 100', '.op'],
      points: { 'chip-supply': { red: 'chip', black: '0' } },
      tolerances: {},
      faults: { 'fuse-open': { title: '', also: [], ways: [{ RFUSE: { kind: 'open' } }] } },
    }),
    seconds: 0,
    states: { healthy: at(4.995), 'fuse-open': at(0) },
  });
}

function eight(value: number): readonly number[] {
  return new Array<number>(8).fill(value);
}

/** A tree of every kind of node that no rule objects to. Lines are counted from 1 in the margin of rules.test.ts. */
const sampleTree = `---
title: Dead five volt rail
block: power
summary: The five volt rail reads low or nothing.
symptoms:
  - five volt rail is low
  - no five volts at all
  - lamp glows dim
hazards: [static, mains]
signs: { any-light: 'no' }
was: [old-sample]
since: 2026-01-05
---
<Check id="lamp" title="Does the lamp light?" minutes="1" power="off" sign="any-light">

Look at the lamp.

<Outcome when="yes" to="rail" />
<Outcome when="no" to="fuse-open" />

</Check>

<Check id="rail" title="Is the rail in range?" minutes="3" power="on" instrument="multimeter" was="rail-old">

<Caution use="mains" />
<Caution use="static" />

Read the rail at the farthest chip.

<Target use="rail-5v" point="chip-supply" />
<Outcome when="none low" to="supply-path" />
<Outcome when="in" to="inside" says="Healthy" />
<Outcome when="high" to="other-rail" />

</Check>

<Check id="inside" title="Any dark spot?" minutes="2" power="off" needs="case-open discharged">

Look at the board.

<Outcome when="dark" to="leave-it" />
<Outcome when="clean" to="socket-worn" />

</Check>

<Path id="supply-path" title="Follow the supply" power="on" instrument="multimeter" good="socket-worn">

<Caution use="mains" />

Follow the supply from stage to stage.

<Stage id="input" title="Input leg" target="rail-5v" point="chip-supply" minutes="2" fault="fuse-open" />
<Stage id="output" title="Output leg" minutes="2" fault="regulator-open" says="Right leg" />
<Stage id="chip" title="Chip" minutes="2" fault="socket-worn" />

</Path>

<Cause id="fuse-open" title="Fuse open" chance="common" shows="lamp=no rail=none|low">

It opens with age.

<Confirm>

Read it out of its holder.

<Target use="rail-5v" />

</Confirm>

<Repair minutes="5" leaves="nothing" success="likely">

Fit the same rating.

</Repair>

<Prove minutes="3">Put it back, use it for an hour and read again.</Prove>

</Cause>

<Cause id="regulator-open" title="Regulator open" chance="occasional" brings="socket-worn">

<Caution use="solder-fume" />
<Caution use="hot-parts" />
<Caution use="static" />

It overheated.

<Confirm>

Read its output.

<Target use="rail-5v" point="regulator-out" />

</Confirm>

<Repair minutes="20" needs="case-open discharged" leaves="damage" success="usual">

<Record>Photograph the tab and its washer.</Record>

<Substitute role="regulator" part="7805" test="Read its output on a bench supply first.">

Same pinout.

</Substitute>

Fit the new one.

</Repair>

<Prove minutes="3">

Read the rail again.

<Target use="rail-5v" point="chip-supply" />

</Prove>

</Cause>

<Cause id="socket-worn" title="Socket worn" chance="rare" lies="unit">

Its contacts are tired.

<Confirm>

Press on the chip while the unit is unplugged, then read again.

<Target use="rail-5v" />

</Confirm>

<Repair minutes="5" leaves="mark" success="doubtful">

Seat the chip again.

</Repair>

<Prove minutes="3">Use it for an hour and read again.</Prove>

</Cause>

<Elsewhere id="other-rail" title="The rail is too high" tree="other-tree" node="glow" chance="rare">

Another tree goes on.

</Elsewhere>

<HandOver id="leave-it" title="Leave it to someone trained" because="licensed">

Leave it unplugged.

</HandOver>
`;

const otherTree = `---
title: Rail too high
block: power
since: 2026-01-06
summary: The five volt rail reads high.
symptoms:
  - chips run hot
  - rail is above five volts
  - supply whistles
---
<Check id="glow" title="Is it hot?" minutes="1" power="off">

Smell at the vents.

<Outcome when="hot" to="short" />
<Outcome when="cool" to="open-divider" />

</Check>

<Cause id="short" title="Regulator shorted" chance="common">

It failed short.

<Confirm>

Read it.

<Target use="rail-5v" />

</Confirm>

<Repair minutes="5" leaves="nothing" success="likely">

Change it.

</Repair>

<Prove minutes="3">Use it for an hour and read again.</Prove>

</Cause>

<Cause id="open-divider" title="Divider open" chance="rare">

It failed open.

<Confirm>

Read it.

<Target use="rail-5v" />

</Confirm>

<Repair minutes="5" leaves="nothing" success="likely">

Change it.

</Repair>

<Prove minutes="3">Use it for an hour and read again.</Prove>

</Cause>
`;

const target = `---
title: Five volt rail
quantity: voltage-dc
unit: V
none: 0.5
low: 4.75
nominal: 5
high: 5.25
conditions: At the chip with the load on.
instrument: multimeter
source: bench
status: practice
---

Read it at the farthest chip.
`;

const unit = `---
title: Demo unit
summary: A unit made for a test.
mains: outside
tube: 'no'
stores-charge: 'no'
chips: { regulator: regulator }
points:
  chip-supply: "IC7 pin 14."
  regulator-out: "IC3 pin 2."
targets:
  rail-5v: { low: 4.9 }
differs:
  sample-tree: "The lamp is behind the panel."
---

An invented unit.
`;

const tables: Readonly<Record<string, string>> = {
  chips: 'regulator: { title: regulator, ask: Which regulator?, tell: Three legs., parts: [regulator] }\n',
  blocks: 'power: { title: Power, summary: From the wall to the chip. }\n',
  points:
    'chip-supply: { title: Supply pin, find: The last pin of all. }\nregulator-out: { title: Output leg, find: The right leg., pins: { chip: regulator, read: [output supply] } }\n',
  setups: [
    'case-open: { title: Case open, minutes: 5, cautions: [mains], text: Lift the lid. }',
    'discharged: { title: Discharged, minutes: 2, cautions: [mains], ends: power-on, text: Prove it. }',
    'dummy-load: { title: Dummy load, minutes: 4, cautions: [hot-parts], text: Fit it. }',
    '',
  ].join('\n'),
  hazards:
    'static: { title: Static, cautions: [static] }\nmains: { title: Mains, cautions: [mains], setup: discharged }\n',
  instruments:
    'families:\n  multimeter: { title: Multimeter, reliability: 0.98 }\n  oscilloscope: { title: Oscilloscope, reliability: 0.95 }\n  eyes: { title: Eyes, reliability: 0.9 }\nclasses: {}\n',
  site: 'name: Sample\nsummary: Trees made for a test.\n',
  signs: 'any-light: { question: Does any lamp light?, yes: It lights, no: All dark }\n',
  'next-door': '{}\n',
  thesaurus: 'concepts: {}\nabsence: {}\namounts: []\nsigns: {}\n',
  sources: 'bench: { title: Bench practice, detail: What people do., status: practice }\n',
};

function makeCaution(slug: string): ContentFile {
  const text = `---\ntitle: About ${slug}\nseverity: caution\nline: Do as it says.\ntext: Mind it.\nsource: bench\nstatus: practice\n---\n\nMore of it.\n`;
  return { file: `content/cautions/${slug}.mdx`, text };
}

const sample: readonly ContentFile[] = [
  ...Object.entries(tables).map(([name, text]) => ({ file: `content/${name}.yaml`, text })),
  ...['mains', 'static', 'hot-parts', 'solder-fume', 'solvent', 'scope-ground'].map(makeCaution),
  { file: targetFile, text: target },
  { file: 'content/targets/rail-loose.mdx', text: target.replace('low: 4.75', 'low: 4.5') },
  { file: unitFile, text: unit },
  { file: partFile, text: samplePart },
  { file: pictureFile, text: picture },
  { file: circuitFile, text: sampleCircuit },
  { file: circuitNumbers, text: makeNumbers() },
  { file: addressFile, text: '/\n' },
  { file: sampleFile, text: sampleTree },
  { file: otherFile, text: otherTree },
];

/** A small set of content without a fault: every table, six cautions, two targets of one rail, a board and two trees, after `edits`. */
export function makeContent(edits: readonly Edit[] = []): readonly ContentFile[] {
  return edits.reduce(applyEdit, sample);
}

function applyEdit(files: readonly ContentFile[], { file = sampleFile, from, to }: Edit): readonly ContentFile[] {
  const found = files.find((candidate) => candidate.file === file);
  const count = found === undefined ? 0 : found.text.split(from).length - 1;
  if (count !== 1) throw new Error(`"${from}" stands ${count} times in ${file}, not once`);
  return files.map((candidate) =>
    candidate.file === file ? { file, text: candidate.text.split(from).join(to) } : candidate,
  );
}

/** What the terminal says of the sample after `edits`, one text a problem. */
export function printSample(edits: readonly Edit[] = []): readonly string[] {
  return compileContent(makeContent(edits)).problems.map(printProblem);
}
