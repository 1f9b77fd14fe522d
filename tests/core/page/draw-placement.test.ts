import { describe, expect, it } from 'vitest';
import { loadLibrary } from '#build/library.ts';
import { type Board, placeBody, type PlacedPart, type Turn } from '#core/model/placement.ts';
import { drawBoard, renderLit } from '#core/page/draw-placement.ts';
import { type Markup, printHtml } from '#core/page/markup.ts';

const chip = (turn: Turn): PlacedPart => ({ name: 'IC1', kind: 'chip', size: [14], x: 50, y: 30, turn });
const board = (turn: Turn): Board => ({
  name: 'Main board',
  width: 140,
  height: 60,
  edges: ['rear', 'front'],
  parts: [chip(turn)],
});
const whole = (of: Board, pins: readonly number[]) => ({ boards: [of], points: { p: [{ part: 'IC1', pins }] } });

/** Where a pin is on the board, to a hundredth of a millimetre. */
function legOf(part: PlacedPart, number: number): readonly [number, number] {
  const leg = placeBody(part).legs.find((candidate) => candidate.number === number);
  return [Math.round((leg?.x ?? Number.NaN) * 100) / 100, Math.round((leg?.y ?? Number.NaN) * 100) / 100];
}

describe('the legs of a part', () => {
  // Of a 14-pin package the rows are 7.62 mm apart and the pins 2.54 mm (JEDEC MS-001, from memory); seen from above with the
  // notch up, pin 1 is at the upper left and the count runs anticlockwise: down the left side, up the right one.
  // By hand: 3 × 2.54 = 7.62 from the middle pin to the end of a row.
  it.each([
    [0, [46.19, 22.38], [46.19, 37.62], [53.81, 37.62], [53.81, 22.38]],
    [90, [57.62, 26.19], [42.38, 26.19], [42.38, 33.81], [57.62, 33.81]],
    [180, [53.81, 37.62], [53.81, 22.38], [46.19, 22.38], [46.19, 37.62]],
    [270, [42.38, 33.81], [57.62, 33.81], [57.62, 26.19], [42.38, 26.19]],
  ] as const)(
    'of a chip turned by %s degrees lie where a hand counts them: 1, 7, 8 and 14',
    (turn, one, seven, eight, last) => {
      expect([1, 7, 8, 14].map((number) => legOf(chip(turn), number))).toEqual([one, seven, eight, last]);
    },
  );

  it('of a regulator run from left to right with its print to the lower edge', () => {
    const part: PlacedPart = { name: 'IC3', kind: 'legs', size: [3], x: 50, y: 30, turn: 0 };

    expect([1, 2, 3].map((number) => legOf(part, number)[0])).toEqual([47.46, 50, 52.54]);
  });

  it('of a plug in two rows are odd in the one and even in the other', () => {
    const part: PlacedPart = { name: 'CN8', kind: 'plug', size: [34, 2, 2.54], x: 50, y: 30, turn: 0 };

    expect(new Set([1, 3, 33].map((number) => legOf(part, number)[1]))).toEqual(new Set([28.73]));
    expect(new Set([2, 4, 34].map((number) => legOf(part, number)[1]))).toEqual(new Set([31.27]));
    expect(legOf(part, 1)[0]).toBe(legOf(part, 2)[0]);
  });
});

/** The squares that are lit, in units of the drawing: their middles. */
function litOf(drawn: readonly Markup[]): readonly (readonly [number, number])[] {
  const found: (readonly [number, number])[] = [];
  const walk = (node: Markup | string): void => {
    if (typeof node === 'string') return;
    const { fill, width, x, y } = node.attributes;
    if (node.name === 'rect' && fill === 'var(--signal)' && width === '6') found.push([Number(x) + 3, Number(y) + 3]);
    node.children.forEach(walk);
  };
  drawn.forEach(walk);
  return found;
}

describe('a board with a point lit', () => {
  // The board is 140 mm wide and drawn 340 units wide: 340 / 140 = 2.43, held at 2.4 units a millimetre.
  it('lights the pin where it is', () => {
    const drawn = renderLit(
      whole(board(0), [1]),
      [{ among: undefined, spots: [{ part: 'IC1', pins: [1] }] }],
      'component',
    );

    // 46.19 × 2.4 = 110.9 and 22.38 × 2.4 = 53.7.
    expect(litOf(drawn)).toEqual([[110.9, 53.7]]);
  });

  it('lights it on the other side of its chip from the solder side: everything is mirrored', () => {
    const drawn = renderLit(
      whole(board(0), [1]),
      [{ among: undefined, spots: [{ part: 'IC1', pins: [1] }] }],
      'solder',
    );

    // (140 − 46.19) × 2.4 = 225.1; up and down stay. The chip's middle is at (140 − 50) × 2.4 = 216: pin 1 is right of it.
    expect(litOf(drawn)).toEqual([[225.1, 53.7]]);
  });

  it('says in words which part and pin, where on the board, what is next to it, and from where it is seen', () => {
    const spots = [{ part: 'IC26', pins: [16, 8] }];
    const { placement } = loadLibrary().units.get('tarn-8') ?? {};
    const say = (side: 'component' | 'solder'): string =>
      placement === undefined ? '' : printHtml(...renderLit(placement, [{ among: undefined, spots }], side));

    // Written by hand from content/units/tarn-8.mdx: the corner farthest from the power socket, which is at the rear left.
    expect(say('component')).toMatch(
      /Computer, main board\. From the component side; up: rear\. Lit: IC26, pins 16 and 8, front right, next to C60/u,
    );
    expect(say('solder')).toMatch(/From the solder side, mirrored; up: rear\. Lit: IC26, pins 16 and 8, front left/u);
  });

  it('names the box where a unit has two', () => {
    const { placement } = loadLibrary().units.get('tarn-8') ?? {};
    if (placement === undefined) throw new Error('The unit is drawn.');
    const boardsOf = (point: string): string =>
      printHtml(...renderLit(placement, [{ among: undefined, spots: placement.points[point] ?? [] }], 'component'));

    expect(boardsOf('regulator-out')).toContain('Computer, main board');
    expect(boardsOf('secondary-tags')).toContain('Disk unit, supply board');
    expect(boardsOf('secondary-tags')).not.toContain('Computer');
  });

  it('gives each stage of a path its flag, and a row of equal pins one', () => {
    const placement = whole(board(0), []);
    const several = renderLit(
      placement,
      [1, 2].map((number) => ({ among: { number, title: 'here' }, spots: [{ part: 'IC1', pins: [number] }] })),
      'component',
    );

    expect(printHtml(...several)).toContain('Flag 1: IC1, pin 1');
    expect(printHtml(...several)).toContain('Flag 2: IC1, pin 2');
    const { placement: bracken } = loadLibrary().units.get('bracken') ?? {};
    const row = bracken?.points['memory-vdd'] ?? [];
    expect(bracken && printHtml(...renderLit(bracken, [{ among: undefined, spots: row }], 'component'))).toContain(
      'IC31 to IC38, pin 8.',
    );
  });

  it('draws nothing for a part that is not there', () => {
    expect(
      renderLit(whole(board(0), [1]), [{ among: undefined, spots: [{ part: 'IC9', pins: [] }] }], 'component'),
    ).toEqual([]);
  });

  it('writes names as text, whatever they hold', () => {
    const name = '<img src=x>';
    const hostile = { ...board(0), name, parts: [{ ...chip(0), name }] };

    expect(printHtml(drawBoard(hostile, 'component'))).not.toContain('<img');
  });
});

describe('the boards of the shipped units', () => {
  const { units } = loadLibrary();
  const spotOf = (unit: string, part: string) => {
    const boards = units.get(unit)?.placement?.boards ?? [];
    const [found] = boards.flatMap(({ parts }) => parts.filter(({ name }) => name === part));
    if (found === undefined) throw new Error(`${unit} has no ${part}.`);
    return found;
  };
  const gap = (unit: string, one: string, other: string): number => {
    const [a, b] = [spotOf(unit, one), spotOf(unit, other)];
    return Math.hypot(a.x - b.x, a.y - b.y);
  };

  // Each line is a sentence of the unit's own file, held against the drawing.
  it('have their parts where the words say', () => {
    const tarn = units.get('tarn-8')?.placement?.boards[0];
    const distances = (tarn?.parts ?? [])
      .filter(({ kind }) => kind === 'chip')
      .map(({ name }) => [gap('tarn-8', 'J1', name), name] as const);
    // “IC26, at the corner farthest from the power socket”
    expect(distances.toSorted(([one], [other]) => other - one)[0]?.[1]).toBe('IC26');
    // “BR1, square block behind J1”: the socket is at the rear, so behind it is further to the front.
    expect(spotOf('tarn-8', 'BR1').x).toBe(spotOf('tarn-8', 'J1').x);
    expect(spotOf('tarn-8', 'BR1').y).toBeGreaterThan(spotOf('tarn-8', 'J1').y);
    // “L1, coil between R1 and the picture half”
    expect(spotOf('tarn-8', 'L1').x).toBeGreaterThan(spotOf('tarn-8', 'R1').x);
    expect(spotOf('tarn-8', 'L1').x).toBeLessThan(spotOf('tarn-8', 'IC20').x);
    // “IC3, third from the left on the heatsink bar”, “IC2, second”
    expect(
      ['IC1', 'IC2', 'IC3', 'IC4'].toSorted(
        (one, other) => spotOf('quillon-44', one).x - spotOf('quillon-44', other).x,
      ),
    ).toEqual(['IC1', 'IC2', 'IC3', 'IC4']);
    // “The main board carries, from left to right, supply (IC1 to IC4), sound (IC17 to IC21), processor (IC7 to IC14)”
    const across = (names: readonly string[]): readonly number[] => names.map((name) => spotOf('quillon-44', name).x);
    expect(Math.max(...across(['IC1', 'IC2', 'IC3', 'IC4']))).toBeLessThan(
      Math.min(...across(['IC17', 'IC18', 'IC19', 'IC20', 'IC21'])),
    );
    expect(Math.max(...across(['IC17', 'IC18', 'IC19', 'IC20', 'IC21']))).toBeLessThan(
      Math.min(...across(['IC7', 'IC8', 'IC9', 'IC10', 'IC12', 'IC13', 'IC14'])),
    );
    // “R2, between IC3 and LK3”
    expect(across(['IC3', 'R2', 'LK3']).toSorted((one, other) => one - other)).toEqual(across(['IC3', 'R2', 'LK3']));
    // “IC1, 723 with 14 pins, middle of the board”: 170 by 130 mm.
    expect([spotOf('merrow', 'IC1').x, spotOf('merrow', 'IC1').y]).toEqual([85, 65]);
    // “The bare screw at the lower left of the fins”: 200 by 80 mm.
    expect(spotOf('merrow', 'screw').x).toBeLessThan(200 / 3);
    expect(spotOf('merrow', 'screw').y).toBeGreaterThan(160 / 3);
    // “IC58, 74LS157, at the top corner of board B”: 230 mm wide.
    expect(spotOf('bracken', 'IC58').x).toBeGreaterThan(200);
    expect(spotOf('bracken', 'IC58').y).toBeLessThan(30);
    // “beside”, “behind”, “at”: within 40 mm from middle to middle.
    for (const [unit, one, other] of [
      ['tarn-8', 'S1', 'J1'],
      ['tarn-8', 'C1', 'BR1'],
      ['tarn-8', 'R1', 'IC50'],
      ['tarn-8', 'C60', 'IC26'],
      ['tarn-8', 'Q1', 'J3'],
      ['quillon-44', 'C3', 'IC3'],
      ['quillon-44', 'BR1', 'CN1'],
      ['quillon-44', 'BR2', 'C1'],
      ['quillon-44', 'BT1', 'IC13'],
      ['quillon-44', 'C31', 'IC12'],
      ['merrow', 'C1', 'BR1'],
      ['merrow', 'BR2', 'C7'],
      ['merrow', 'BR3', 'IC1'],
      ['merrow', 'IC3', 'C7'],
      ['merrow', 'VR4', 'IC1'],
      ['merrow', 'C40', 'IC11'],
      ['bracken', 'C20', 'IC31'],
      ['bracken', 'LK3', 'IC31'],
      ['bracken', 'C4', 'D2'],
      ['bracken', 'D2', 'R3'],
    ] as const)
      expect(gap(unit, one, other), `${unit}: ${one} and ${other}`).toBeLessThan(40);
  });
});
