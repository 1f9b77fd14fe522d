import { describe, expect, it } from 'vitest';
import { compileContent } from '#compiler/compile-content.ts';
import { dotsOf, joinsOf, sayLead, sayPart } from '#core/circuit/drawing.ts';
import type { Circuit } from '#core/model/circuit.ts';
import { circuitFile, type Edit, makeContent } from './make-content.ts';

/** The sample circuit: a supply, a fuse, a chip. Its pins and wires stand in make-content.ts. */
function compile(...edits: readonly (readonly [from: string, to: string])[]): {
  readonly circuit: Circuit | undefined;
  readonly says: readonly string[];
} {
  const { library, problems } = compileContent(
    makeContent(edits.map(([from, to]): Edit => ({ file: circuitFile, from, to }))),
  );
  const ofDrawing = problems.filter(({ rule }) => rule === 'drawing');
  return {
    circuit: library.circuits.get('sample-supply'),
    says: ofDrawing.map(({ position, message }) => `${position === 'unavailable' ? '' : position.line} ${message}`),
  };
}

describe('the drawing of a circuit', () => {
  it('is read, and tells what meets where: by the netlist VCC and the fuse, the fuse and the chip', () => {
    const { circuit, says } = compile();
    expect(says).toEqual([]);
    const joins = joinsOf(circuit?.drawing ?? { parts: [], wires: [], grounds: [], flags: [] });
    expect(Object.fromEntries(joins)).toEqual({
      rail: ['VCC', 'fuse (RFUSE)'],
      chip: ['fuse (RFUSE)', 'chip (RLOAD)'],
      '0': ['chip (RLOAD)'],
    });
    expect(sayLead('chip', joins)).toBe('where fuse (RFUSE) and chip (RLOAD) meet');
    expect(sayLead('0', joins)).toBe('on ground');
    // What the fuse has for ohms serves the simulator, and is no value of a fuse.
    expect(circuit?.drawing.parts.map(sayPart)).toEqual([
      'VCC: supply, +5\u00a0V',
      'fuse (RFUSE): fuse',
      'chip (RLOAD): resistor, 100\u00a0Ω',
    ]);
  });

  it('has a dot where three lines of a node meet, and none where two do', () => {
    const { circuit, says } = compile(['chip: 7,2 12,2', 'chip: 7,2 14,2']);
    expect(says).toEqual([]);
    expect(dotsOf(circuit?.drawing ?? { parts: [], wires: [], grounds: [], flags: [] })).toEqual([[12, 2]]);
  });

  it.each([
    [
      'an element that is forgotten',
      ['    RLOAD: 12,2 down, chip\n', ''],
      '9 Unexpected absence of `RLOAD`, expected every element of the netlist drawn.',
    ],
    [
      'one that is drawn and said not to be',
      ['  ground: 12,6', '  not-drawn: [RFUSE]\n  ground: 12,6'],
      '9 Unexpected 2 mentions of `RFUSE`, expected one.',
    ],
    [
      'one that the netlist does not have',
      ['    RLOAD: 12,2', '    RLAOD: 12,2'],
      '12 Unexpected part `RLAOD`, expected elements of the netlist.',
    ],
    [
      'a wire that stops short',
      ['chip: 7,2 12,2', 'chip: 7,2 11,2'],
      '12 Unexpected gap of `chip` before chip (RLOAD) at 12,2, expected it joined to fuse (RFUSE) at 7,2.',
    ],
    [
      'a wire that touches another node',
      ['rail: 2,2 3,2', 'rail: 2,2 3,2 / 3,2 3,5 12,5 12,6'],
      'Unexpected touch of `rail`',
    ],
    [
      'a wire through a part',
      ['rail: 2,2 3,2', 'rail: 2,2 3,2 3,1 5,1 5,4'],
      'Unexpected wire of `rail` through fuse (RFUSE), expected it to pass by.',
    ],
    [
      'parts that overlap',
      ['RLOAD: 12,2 down', 'RLOAD: 5,2 down'],
      'Unexpected overlap of chip (RLOAD) and fuse (RFUSE), expected room between them.',
    ],
    [
      'words on other words',
      ['RFUSE: fuse 3,2, fuse', 'RFUSE: fuse 3,2, the fuse of the supply'],
      'Unexpected overlap of words `the fuse of the supply` and words `+5\u00a0V`, expected room between them.',
    ],
    ['a ground in the air', ['ground: 12,6', 'ground: 12,9'], 'Unexpected gap of `0` before ground at 12,9'],
    ['a flag beside its wire', ['chip-supply: 10,2 up', 'chip-supply: 10,4 up'], 'Unexpected gap of `chip`'],
    ['a flag that is missing', ['    chip-supply: 10,2 up', '    {}'], 'Unexpected flags of `chip-supply`'],
    ['a symbol that nobody knows', ['fuse 3,2', 'fusee 3,2'], '11 Unexpected symbol `fusee`'],
    ['a slanting wire', ['chip: 7,2 12,2', 'chip: 7,2 12,3'], '15 Unexpected wire `7,2 12,3`'],
    ['a node that the netlist does not have', ['    rail:', '    tail:'], 'Unexpected node `tail`'],
    ['a drawing wider than a telephone', ['RLOAD: 12,2', 'RLOAD: 37,2'], '12 Unexpected place `37,2`'],
    ['a part on its head', ['RFUSE: fuse 3,2,', 'RFUSE: diode 3,2 (chip rail),'], '11 Unexpected node `chip` at pin 1'],
  ] as const)('refuses %s', (_, edit, message) => {
    const { says, circuit } = compile(edit);
    expect(says.join('\n')).toContain(message);
    expect(circuit?.drawing.parts).toEqual([]);
  });

  it('says at most twelve things about one drawing', () => {
    const names = Array.from({ length: 40 }, (_, index) => `R${index} rail chip 1k`).join('\n');
    expect(compile(['RLOAD chip 0 100', `RLOAD chip 0 100\n${names}`]).says).toHaveLength(12);
  });
});
