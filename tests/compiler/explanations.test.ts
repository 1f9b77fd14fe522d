import { describe, expect, it } from 'vitest';
import { compileContent } from '#compiler/compile-content.ts';
import { explainedMessages, findExplanation } from '#compiler/rules/all.ts';
import { allRules } from '#compiler/rules/all.ts';
import { ruleGroups } from '#compiler/rules/rule.ts';
import {
  lampForbids,
  openRail,
  otherSide,
  readGlow,
  addressFile,
  unitFile,
  drawnUnit,
  type Edit,
  makeContent,
  circuitFile,
  circuitNumbers,
  otherFile,
  partFile,
  pictureFile,
  targetFile,
} from './make-content.ts';

/** Where an explanation's examples go: the words of the sample that give way to them, and what else the sample then needs. */
interface Place {
  readonly file?: string;
  /** Left out where the right example stands in the sample as it is. */
  readonly from?: string;
  readonly more?: readonly Edit[];
  /** Words around the example, where it is part of a line. */
  readonly wrap?: (example: string) => string;
}

const words = 'Read the rail at the farthest chip.';
const cautionFile = 'content/cautions/mains.mdx';
const instrumentsFile = 'content/instruments.yaml';
const railCheck =
  '<Check id="rail" title="Is the rail in range?" minutes="3" power="on" instrument="multimeter" was="rail-old">';

/** One meter that judges 5 V within 0.25 V, and one of 10 % that cannot. */
const meters: Edit = {
  file: instrumentsFile,
  from: 'classes: {}',
  to: `classes:
${['multimeter 0.5', 'wide-meter 10']
  .map((pair) => pair.split(' '))
  .map(
    ([family, percent]) =>
      `  a-${family}: { title: Meter, family: ${family}, status: practice, quantities: { voltage-dc: { unit: V, ranges: [{ to: 20, percent: ${percent}, counts: 2, resolution: 0.01 }] } } }`,
  )
  .join('\n')}`,
};
const wideMeter: Edit = {
  file: instrumentsFile,
  from: '  eyes:',
  to: '  wide-meter: { title: Wide meter, reliability: 0.9 }\n  eyes:',
};
const scopeCaution: Edit = {
  from: `<Caution use="static" />\n\n${words}`,
  to: `<Caution use="static" />\n<Caution use="scope-ground" />\n\n${words}`,
};
const switchMode: Edit = {
  file: 'content/hazards.yaml',
  from: 'static: {',
  to: 'switch-mode: { title: Switch-mode supply, cautions: [mains] }\nstatic: {',
};
const chemical: Edit = {
  file: 'content/hazards.yaml',
  from: 'static: {',
  to: 'chemical: { title: Solvents, cautions: [solvent] }\nstatic: {',
};
const notAFault: Edit = { from: 'because="licensed"', to: 'because="not-a-fault"' };

const withCircuit: Edit = { from: 'was: [old-sample]', to: 'was: [old-sample]\ncircuits: [sample-supply]' };

const inWords: Place = { from: words };
const places: Readonly<Record<string, Place>> = {
  syntax: inWords,
  'hidden-character': inWords,
  'other-script': inWords,
  'no-code': inWords,
  'too-large': inWords,
  'unknown-element': {
    from: '<Caution use="mains" />\n<Caution use="static" />',
    wrap: (example) => `<Caution use="mains" />\n<Caution use="static" />\n${example}`,
  },
  'element-place': {},
  'element-twice': {},
  'element-inside-text': inWords,
  'prose-only': inWords,
  'prose-outside-node': {},
  'prose-place': {},
  'prose-missing': {},
  'link-address': inWords,
  'missing-attribute': {},
  'unknown-attribute': {},
  'attribute-value': {},
  'attribute-twice': {},
  'attribute-choice': {},
  'number-shape': {},
  'text-length': {},
  'id-shape': {},
  'id-reserved': {},
  'word-shape': {},
  'shows-shape': {},
  'duplicate-id': {},
  'front-matter': { file: cautionFile },
  'yaml-syntax': {},
  'missing-field': {},
  'unknown-field': {},
  'field-value': {},
  'limit-order': { file: targetFile },
  'caution-length': { file: cautionFile },
  'instrument-class': { file: instrumentsFile, more: [wideMeter, meters], from: 'family: multimeter' },
  'known-nodes': {},
  'shows-known': {},
  'starts-with-check': {
    from: '<Check id="lamp" title="Does the lamp light?" minutes="1" power="off" sign="any-light">',
  },
  'since-told': { file: otherFile },
  'contrast-enough': {
    file: 'content/site.yaml',
    from: 'summary: Trees made for a test.',
    wrap: (example) => `summary: Trees made for a test.\n${example}`,
  },
  'block-folder': { file: otherFile },
  'reachable-nodes': {},
  'no-cycle': {},
  'outcomes-complete': {},
  'path-complete': {},
  'known-slugs': {},
  'part-numbers': { file: partFile },
  'point-pins': { file: unitFile },
  'placement-fits': { file: unitFile, more: [drawnUnit] },
  'placement-agrees': { file: unitFile, more: [drawnUnit] },
  'picture-leads': { file: pictureFile },
  'unit-circuit': {
    file: unitFile,
    more: [drawnUnit],
    from: '\ntargets:',
    wrap: (example) => `\n${example}\ntargets:`,
  },
  'quantity-unit': { file: targetFile },
  'computed-fits': { file: targetFile, from: 'none: 0.5', wrap: (example) => `none: 0.5\n${example}` },
  'limits-agree': { file: unitFile },
  'prose-number': inWords,
  'honest-source': { file: targetFile },
  'instrument-judges': { more: [wideMeter, meters] },
  'caution-first': { from: `<Caution use="static" />\n\n${words}` },
  'answers-last': {
    from: 'Look at the board.\n\n<Outcome when="dark" to="leave-it" />\n<Outcome when="clean" to="socket-worn" />',
    wrap: (example) => `${example}\n\n<Outcome when="dark" to="leave-it" />`,
  },
  'compelled-cautions': {},
  'hazard-cautioned': { more: [chemical] },
  'discharge-again': {},
  'forbidden-advice': inWords,
  'unplugged-said': { from: 'Look at the board.' },
  'power-after-looks': {
    from: railCheck,
    more: [...lampForbids, { from: 'title="Follow the supply"', to: 'title="Follow the supply" after="lamp"' }],
  },
  'accessory-alone': {
    from: 'Look at the lamp.',
    more: [{ from: 'power="off" sign', to: 'power="accessory" sign' }],
  },
  'ends-unplugged': { from: words, more: [openRail] },
  'clips-first': { from: words, more: [openRail] },
  'reservoir-empty': { from: 'Look at the lamp.' },
  'bare-mains-stops': inWords,
  'spare-at-risk': inWords,
  'only-copy': inWords,
  'hand-over-present': { more: [switchMode, notAFault] },
  'record-first': {
    from: '<Record>Photograph the tab and its washer.</Record>',
    wrap: (example) => example.replace('\n\nFit the new one.', '\n\nMind the washer.'),
  },
  'supply-high-band': { file: targetFile },
  'symptoms-enough': {},
  'symptoms-owned': { file: otherFile },
  'cause-complete': {},
  'new-part-tested': {},
  'lesser-instrument': { more: [scopeCaution] },
  'answer-says-something': { from: '<Outcome when="clean" to="socket-worn" />' },
  'answers-cover': {
    from: '<Outcome when="dark" to="leave-it" />\n<Outcome when="clean" to="socket-worn" />',
  },
  'end-agrees': { from: '<Cause id="socket-worn" title="Socket worn" chance="rare" lies="unit">' },
  'place-agrees': { from: '<Outcome when="clean" to="socket-worn" />' },
  'confirm-adds': {
    file: otherFile,
    more: [
      readGlow,
      otherSide,
      {
        file: otherFile,
        from: '<Target use="rail-5v" />\n<Outcome when="high"',
        to: '<Target use="rail-5v" point="chip-supply" />\n<Outcome when="high"',
      },
    ],
    from: 'It failed short.\n\n<Confirm>\n\nRead it.\n\n<Target use="rail-5v" />',
    wrap: (example) => `It failed short.\n\n<Confirm>\n\n${example}`,
  },
  'proof-runs': { from: '<Prove minutes="3">Put it back, use it for an hour and read again.</Prove>' },
  'one-limit': {
    file: otherFile,
    from: 'It failed short.\n\n<Confirm>\n\nRead it.\n\n<Target use="rail-5v" />',
    wrap: (example) => `It failed short.\n\n<Confirm>\n\nRead it.\n\n${example}`,
  },
  netlist: { file: circuitFile },
  drawing: { file: circuitFile },
  'circuit-numbers': { file: circuitNumbers },
  'circuit-agrees': { more: [withCircuit] },
  'circuit-used': {
    file: otherFile,
    from: 'summary: The five volt rail reads high.',
    wrap: (example) => `summary: The five volt rail reads high.\n${example}`,
  },
  'causes-separated': { file: otherFile, from: '<Cause id="open-divider" title="Divider open" chance="rare">' },
  'check-separates': { more: [{ from: 'good="socket-worn"', to: 'good="leave-it"' }] },
  'template-words': inWords,
  'sentence-length': inWords,
  'check-length': inWords,
  'names-button': inWords,
  'plain-words': inWords,
  'no-makers': inWords,
  vocabulary: inWords,
  'calm-words': inWords,
  'thesaurus-names': { file: 'content/thesaurus.yaml', from: 'signs: {}' },
  'thesaurus-used': { file: 'content/thesaurus.yaml', from: 'concepts: {}' },
  'address-lives': {
    from: railCheck,
    more: [{ file: addressFile, from: '/\n', to: '/\n/trees/sample-tree/rail-old/\n' }],
  },
  'was-chain': {},
  'known-links': inWords,
};

function idsAfter(example: string, place: Place, right: string): readonly string[] {
  const wrap = place.wrap ?? ((text: string) => text);
  const edit: Edit = {
    from: place.from ?? right,
    to: wrap(example),
    ...(place.file === undefined ? {} : { file: place.file }),
  };
  return compileContent(makeContent([...(place.more ?? []), edit])).problems.map(({ rule }) => rule);
}

describe('every message', () => {
  it('has an explanation, and its examples have a place to be tried at', () => {
    const withoutPlace = ['missing-file', 'tree-empty', 'file-place'];

    expect([...Object.keys(places), ...withoutPlace].toSorted()).toEqual(
      explainedMessages.map(({ id }) => id).toSorted(),
    );
  });

  it('has an id of its own, and full sentences', () => {
    expect(new Set(explainedMessages.map(({ id }) => id)).size).toBe(explainedMessages.length);
    for (const { says, why, wrong, right } of explainedMessages) {
      expect(says).toMatch(/^[A-Z`].*\.$/);
      expect(why).toMatch(/^[A-Z`].*[.?]$/);
      expect(wrong).not.toBe(right);
      expect(right).not.toBe('');
    }
  });

  it('belongs to a group that has members', () => {
    for (const group of ruleGroups) expect(allRules.some((rule) => rule.group === group)).toBe(true);
  });

  it('is found by its id, and another id is not', () => {
    expect(findExplanation('no-cycle')?.says).toBe(allRules.find(({ id }) => id === 'no-cycle')?.says);
    expect(findExplanation('toString')).toBeUndefined();
  });

  it('tells of a file that is too large', () => {
    const { problems } = compileContent([
      ...makeContent(),
      { file: 'content/trees/power/third-tree.mdx', text: `${'word '.repeat(50_000)}\n` },
    ]);

    expect(problems.map(({ rule }) => rule)).toEqual(['too-large']);
  });

  it('tells of a tree without a node', () => {
    const wrong = findExplanation('tree-empty')?.wrong ?? '';
    const { problems } = compileContent([
      ...makeContent(),
      { file: 'content/trees/power/third-tree.mdx', text: `${wrong}\n` },
    ]);

    expect(problems.map(({ rule }) => rule)).toEqual(['tree-empty']);
  });

  it.each([
    ['content/trees/power/Rail High.mdx', 'Unexpected name `Rail High`'],
    ['content/trees/power/rail-high.md', 'expected one that ends in .mdx'],
    ['content/trees/rail-high.mdx', 'expected it in content/trees/<block>/'],
    ['content/trees/power/more/rail-high.mdx', 'expected it in content/trees/<block>/'],
    ['content/targets/power/rail-high.mdx', 'expected it in content/targets/'],
    ['content/tree/power/rail-high.mdx', 'Unexpected folder `tree`'],
    ['content/symptoms.yaml', 'Unexpected file `symptoms.yaml` in content/'],
    ['content/points.yml', 'Unexpected file `points.yml` in content/'],
    ['content/astro.config.mjs', 'Unexpected file `astro.config.mjs` in content/'],
    ['content/.gitattributes', 'Unexpected file `.gitattributes` in content/'],
    ['content/trees/power/index.astro', 'expected one that ends in .mdx'],
    ['content/trees/power/rail-high.mdx.js', 'expected one that ends in .mdx'],
    ['content/targets/.prettierrc', 'expected one that ends in .mdx'],
    ['content/node_modules/vite/index.js', 'Unexpected folder `node_modules`'],
  ])('tells of a file that nobody would read: %s', (file, message) => {
    const { problems } = compileContent([...makeContent(), { file, text: '' }]);
    const said = problems.filter(({ rule }) => rule === 'file-place');

    expect(said).toHaveLength(1);
    expect(said[0]).toMatchObject({ file, severity: 'error', message: expect.stringContaining(message) });
  });

  it('says nothing of the place of any sound file', () => {
    expect(compileContent(makeContent()).problems).toEqual([]);
  });

  it('tells of a table that is missing', () => {
    const { problems } = compileContent(makeContent().filter(({ file }) => file !== 'content/signs.yaml'));

    expect(problems.map(({ rule }) => rule)).toContain('missing-file');
  });
});

describe.each(explainedMessages.filter(({ id }) => places[id] !== undefined))(
  'the examples of $id',
  ({ id, wrong, right }) => {
    const place = places[id] ?? {};

    it('are told apart: the wrong one is said to be wrong', () => {
      expect(idsAfter(wrong, place, right)).toContain(id);
    });

    it('are told apart: nothing is said of the right one', () => {
      expect(idsAfter(right, place, right)).toEqual([]);
    });
  },
);
