import {
  extentOf,
  fits,
  flagOf,
  groundBox,
  type Box,
  liesOn,
  nameOf,
  pinsOf,
  printValue,
  roomOf,
  stretchesOf,
  symbolOf,
  wordsOf,
} from '#core/circuit/drawing.ts';
import { listChangeable } from '#core/circuit/netlist.ts';
import { partSymbols, step, usualSymbols, widest } from '#core/circuit/symbols.ts';
import {
  type Direction,
  directions,
  type Drawing,
  type DrawnElement,
  type Netlist,
  type Place,
  type PointFlag,
  textSides,
  type Wire,
} from '#core/model/circuit.ts';
import type { ReadContext } from './problem.ts';

/** The `drawing` of a circuit's front matter, as it is written. */
export interface WrittenDrawing {
  readonly parts: Readonly<Record<string, string>>;
  readonly wires: Readonly<Record<string, string>>;
  readonly ground?: string | undefined;
  readonly points: Readonly<Record<string, string>>;
  readonly 'not-drawn': readonly string[];
}

/** Steps across and down, corners of all wires, and messages about one drawing. */
const most = { across: widest, down: 60, corners: 240, reports: 12 };

export const emptyDrawing: Drawing = { parts: [], wires: [], grounds: [], flags: [] };

/** An element of the netlist as a drawing knows it. */
interface Element {
  readonly name: string;
  readonly line: string;
  /** Nodes of its legs, in the order of the netlist; of a formula those that it reads as well. */
  readonly nodes: readonly string[];
}

type Say = (key: string, found: string, expected: string, help: string) => undefined;

/** Reads a drawing and holds it against its netlist. Whatever is wrong is reported; the drawing is empty then. */
export function readDrawing(
  written: WrittenDrawing | undefined,
  netlist: Netlist,
  { positions, report }: ReadContext,
): Drawing {
  let count = 0;
  const say: Say = (key, found, expected, help) => {
    count += 1;
    if (count > most.reports) return;
    const position = positions.find(key === '' ? 'front/drawing' : `front/drawing/${key}`);
    report({ rule: 'drawing', position, message: `Unexpected ${found}, expected ${expected}.`, help });
  };
  if (written === undefined) {
    say(
      '',
      'absence of `drawing`',
      'the places of the parts and wires',
      'Add `drawing:` with parts, wires, ground and points; the guide shows one.',
    );
    return emptyDrawing;
  }
  const elements = listElements(netlist.lines);
  const drawing = {
    parts: readParts(written, elements, netlist, say),
    wires: Object.entries(written.wires).flatMap(([node, text]) => readWires(node.toLowerCase(), text, say)),
    grounds: readPlaces(written.ground ?? '', 'ground', say),
    flags: readFlags(written, netlist, say),
  };
  const corners = drawing.wires.reduce((sum, wire) => sum + wire.corners.length, 0);
  if (corners > most.corners)
    say('wires', `${corners} corners of wires`, `at most ${most.corners}`, 'Draw a smaller circuit.');
  if (count > 0) return emptyDrawing;
  checkAllDrawn(written, elements, say);
  checkJoined(drawing, elements, say);
  checkRoom(drawing, say);
  return count > 0 ? emptyDrawing : drawing;
}

function listElements(lines: readonly string[]): ReadonlyMap<string, Element> {
  const found = [...listChangeable(lines).values()].flatMap(({ name, line: index, nodes }): readonly Element[] => {
    const line = lines[index] ?? '';
    if (line.startsWith('.')) return [];
    // The model or sub-circuit is the last word that is no setting.
    const words = line.split(/\s+/).filter((word) => !word.includes('='));
    const legs = /^x/i.test(name) ? words.slice(1, -1) : nodes;
    const read = /^b/i.test(name)
      ? [...line.matchAll(/v\(([^()]+)\)/gi)].flatMap(([, node = '']) => node.split(','))
      : [];
    return [{ name, line, nodes: [...legs, ...read].map((node) => node.trim().toLowerCase()) }];
  });
  return new Map(found.map((element) => [element.name.toUpperCase(), element]));
}

function readPlace(word: string, key: string, say: Say): Place | undefined {
  const [, across, down] = /^(\d{1,2}),(\d{1,2})$/.exec(word) ?? [];
  const [x, y] = [Number(across), Number(down)];
  if (across !== undefined && x <= most.across && y <= most.down) return [x, y];
  return say(
    key,
    `place \`${word.slice(0, 20)}\``,
    `steps across and down such as \`12,4\`, at most ${most.across},${most.down}`,
    'Fold a long circuit into two rows.',
  );
}

function readPlaces(text: string, key: string, say: Say): readonly Place[] {
  return text
    .split(/\s+/)
    .filter((word) => word !== '')
    .flatMap((word) => {
      const place = readPlace(word, key, say);
      return place === undefined ? [] : [place];
    });
}

function readParts(
  written: WrittenDrawing,
  elements: ReadonlyMap<string, Element>,
  netlist: Netlist,
  say: Say,
): readonly DrawnElement[] {
  const parameters = new Map(
    [...listChangeable(netlist.lines)].flatMap(([name, { nodes, value }]) =>
      nodes.length === 0 && !Number.isNaN(value) ? [[name, value] as const] : [],
    ),
  );
  return Object.entries(written.parts).flatMap(([names, text]): readonly DrawnElement[] => {
    const key = `parts/${names}`;
    const own = names.split(/\s+/).flatMap((name) => elements.get(name.toUpperCase()) ?? []);
    const [first] = own;
    if (first === undefined || own.length !== names.split(/\s+/).length) {
      say(
        key,
        `part \`${names.slice(0, 40)}\``,
        'elements of the netlist',
        `It has ${[...elements.values()].map(({ name }) => name).join(', ')}.`,
      );
      return [];
    }
    const look = readLook(text, own, key, say);
    if (look === undefined) return [];
    const { of } = symbolOf(look.symbol);
    const [value] = own.flatMap(({ name, line }) =>
      of === undefined || name.toUpperCase().startsWith(of) ? (printValue(line, parameters) ?? []) : [],
    );
    return [{ ...look, elements: own.map(({ name }) => name), value }];
  });
}

/** `resistor 12,4 down mirrored leftward (in out), words`: all but the place may be left out. */
function readLook(
  text: string,
  own: readonly Element[],
  key: string,
  say: Say,
): Omit<DrawnElement, 'elements' | 'value'> | undefined {
  const cut = text.indexOf(', ');
  const head = cut < 0 ? text : text.slice(0, cut);
  const [, listed] = /\(([^()]*)\)/.exec(head) ?? [];
  const tokens = head
    .replace(/\([^()]*\)/, ' ')
    .split(/\s+/)
    .filter((word) => word !== '');
  const isPlace = (word: string): boolean => /^\d/.test(word);
  const [first = ''] = tokens;
  const letter = own.length === 1 ? (own[0]?.name[0] ?? '').toUpperCase() : '';
  const symbol = isPlace(first) ? usualSymbols[letter] : first;
  if (symbol === undefined || !Object.hasOwn(partSymbols, symbol))
    return say(
      key,
      symbol === undefined ? 'part without a symbol' : `symbol \`${symbol.slice(0, 20)}\``,
      `one of ${Object.keys(partSymbols).join(', ')}`,
      'Write the symbol before the place.',
    );
  const rest = isPlace(first) ? tokens : tokens.slice(1);
  const at = readPlace(rest[0] ?? '', key, say);
  if (at === undefined) return undefined;
  const options = rest.slice(1);
  const known: readonly string[] = [...directions, ...textSides, 'mirrored'];
  const unknown = options.find((word) => !known.includes(word));
  if (unknown !== undefined)
    return say(key, `word \`${unknown.slice(0, 20)}\``, `one of ${known.join(', ')}`, 'Other words go behind a comma.');
  const nodes = readPins(listed, symbol, own, key, say);
  return (
    nodes && {
      symbol,
      at,
      direction: directions.find((word) => options.includes(word)) ?? 'right',
      isMirrored: options.includes('mirrored'),
      side: textSides.find((word) => options.includes(word)),
      words:
        cut < 0
          ? undefined
          : text
              .slice(cut + 2)
              .trim()
              .slice(0, 40),
      nodes,
    }
  );
}

/** The node of each pin: as listed, or in the order of the netlist. */
function readPins(
  listed: string | undefined,
  symbol: string,
  own: readonly Element[],
  key: string,
  say: Say,
): readonly (string | undefined)[] | undefined {
  const { pins, isPolar = false } = symbolOf(symbol);
  const legs = new Set(own.flatMap(({ nodes }) => nodes));
  if (listed === undefined) {
    const [only] = own;
    const nodes = only?.nodes.slice(0, pins.length) ?? [];
    const left = only?.nodes.slice(pins.length).filter((node) => node !== '0') ?? [];
    if (own.length === 1 && nodes.length === pins.length && left.length === 0) return nodes;
    return say(
      key,
      'part without its nodes',
      `the node of each of the ${pins.length} pins of \`${symbol}\` in brackets`,
      `It lies on ${[...legs].join(', ')}; write - for a pin that is not joined.`,
    );
  }
  const nodes = listed.split(/\s+/).filter((word) => word !== '');
  const wrong = nodes.find((node) => node !== '-' && !legs.has(node.toLowerCase()));
  if (wrong !== undefined || nodes.length === 0 || nodes.length > pins.length)
    return say(
      key,
      wrong === undefined ? `${nodes.length} nodes` : `node \`${wrong.slice(0, 20)}\``,
      `at most ${pins.length} of ${[...legs].join(', ')}`,
      'In brackets stands the node of each pin of the symbol, in the order of its pins; - for one that is not joined.',
    );
  const read = nodes.map((node) => (node === '-' ? undefined : node.toLowerCase()));
  const [only, ...more] = own;
  const turned =
    more.length === 0 && isPolar && read.findIndex((node, pin) => node !== undefined && node !== only?.nodes[pin]);
  if (typeof turned !== 'number' || turned < 0) return read;
  return say(
    key,
    `node \`${read[turned] ?? ''}\` at pin ${turned + 1} of \`${symbol}\``,
    `\`${only?.nodes[turned] ?? ''}\` as in the netlist`,
    'Turn the symbol, not its pins.',
  );
}

function readWires(node: string, text: string, say: Say): readonly Wire[] {
  const key = `wires/${node}`;
  return text.split(' / ').flatMap((stretch): readonly Wire[] => {
    const corners = readPlaces(stretch, key, say);
    const isSquare = corners.slice(1).every(([x, y], index) => {
      const [beforeX, beforeY] = corners[index] ?? [x, y];
      return (x === beforeX) !== (y === beforeY);
    });
    if (isSquare && corners.length > 1) return [{ node, corners }];
    say(
      key,
      `wire \`${stretch.slice(0, 40)}\``,
      'at least two corners, each straight across or down from the last',
      'A slash between blanks begins another wire of the node.',
    );
    return [];
  });
}

/** `12,4 up`, behind a slash the black lead's. */
function readFlags(written: WrittenDrawing, { points }: Netlist, say: Say): readonly PointFlag[] {
  const unknown = Object.keys(written.points).find((point) => !Object.hasOwn(points, point));
  if (unknown !== undefined)
    say(`points/${unknown}`, `point \`${unknown}\``, `one of ${Object.keys(points).join(', ')}`, 'Correct the name.');
  return Object.entries(points).flatMap(([point, { red, black }], index) => {
    const key = `points/${point}`;
    const places = (Object.hasOwn(written.points, point) ? (written.points[point] ?? '') : '').split(' / ');
    const leads = black === '0' ? (['red'] as const) : (['red', 'black'] as const);
    if (places.length !== leads.length || places[0] === '') {
      say(
        key,
        `flags of \`${point}\``,
        black === '0' ? 'the place of its red lead' : 'the places of its red and its black lead, a slash between them',
        'Write them as `12,4 up`.',
      );
      return [];
    }
    return leads.flatMap((lead, place): readonly PointFlag[] => {
      const [word = '', direction = 'up', ...more] = (places[place] ?? '').split(/\s+/);
      const at = readPlace(word, key, say);
      if (!directions.includes(direction as Direction) || more.length > 0)
        say(
          key,
          `word \`${[direction, ...more].join(' ').slice(0, 20)}\``,
          `one of ${directions.join(', ')}`,
          'It says to which side the flag flies.',
        );
      return at === undefined
        ? []
        : [
            {
              point,
              number: index + 1,
              lead,
              node: lead === 'red' ? red : black,
              at,
              direction: direction as Direction,
            },
          ];
    });
  });
}

/** Every element is drawn once or said not to be; a symbol leaves out no node that leads on, but ground. */
function checkAllDrawn(written: WrittenDrawing, elements: ReadonlyMap<string, Element>, say: Say): void {
  const drawn = Object.keys(written.parts).flatMap((names) => names.toUpperCase().split(/\s+/));
  const left = written['not-drawn'].map((name) => name.toUpperCase());
  for (const name of left) {
    if (!elements.has(name))
      say('not-drawn', `name \`${name}\``, 'an element of the netlist', 'Take it out, or correct it.');
  }
  for (const [id, { name }] of elements) {
    const times = [...drawn, ...left].filter((each) => each === id).length;
    if (times === 1) continue;
    const help = 'What serves the simulator alone goes to `not-drawn`.';
    if (times === 0) say('parts', `absence of \`${name}\``, 'every element of the netlist drawn', help);
    else say('parts', `${times} mentions of \`${name}\``, 'one', help);
  }
}

type Joint = { readonly node: string; readonly key: string; readonly says: string; readonly at: readonly Place[] };

/** Pins, wires, grounds and flags of one node hang together, and touch no other node. */
function checkJoined(drawing: Drawing, elements: ReadonlyMap<string, Element>, say: Say): void {
  const { parts, grounds, flags } = drawing;
  for (const part of parts) {
    const own = new Set(part.elements.map((name) => name.toUpperCase()));
    const outside = new Set([...elements].flatMap(([id, { nodes }]) => (own.has(id) ? [] : nodes)));
    for (const { node } of flags) outside.add(node);
    const legs = part.elements.flatMap((name) => elements.get(name.toUpperCase())?.nodes ?? []);
    const missing = legs.find((node) => node !== '0' && outside.has(node) && !part.nodes.includes(node));
    if (missing !== undefined)
      say(
        `parts/${part.elements.join(' ')}`,
        `\`${part.symbol}\` without a pin at \`${missing}\``,
        'a pin for every node that leads on',
        'Name it among the nodes in brackets.',
      );
  }
  const stretches = stretchesOf(drawing).map(({ node, from, to }): Joint => ({
    node,
    key: `wires/${node}`,
    says: `wire ${from.join()} ${to.join()}`,
    at: [from, to],
  }));
  const spots: readonly Joint[] = [
    ...parts.flatMap((part) =>
      pinsOf(part).map(({ node, at, says }) => ({
        node,
        key: `parts/${part.elements.join(' ')}`,
        says: `${says} at ${at.join()}`,
        at: [at],
      })),
    ),
    ...grounds.map((at) => ({ node: '0', key: 'ground', says: `ground at ${at.join()}`, at: [at] })),
    ...flags.map(({ node, point, at }) => ({ node, key: `points/${point}`, says: `flag at ${at.join()}`, at: [at] })),
  ];
  const joints = [...spots, ...stretches];
  const nodes = new Set([...elements.values()].flatMap((element) => element.nodes));
  for (const one of joints) {
    if (!nodes.has(one.node)) {
      say(one.key, `node \`${one.node}\``, `one of ${[...nodes].join(', ')}`, 'A wire is filed under its node.');
      return;
    }
    const foreign = joints.find((other) => other.node !== one.node && touches(one, other));
    if (foreign !== undefined)
      say(
        one.key,
        `touch of \`${one.node}\` (${one.says}) and \`${foreign.node}\` (${foreign.says})`,
        'two nodes apart',
        'Move one of them.',
      );
  }
  for (const [node, own] of Map.groupBy(joints, (joint) => joint.node)) {
    const reached = new Set(own.slice(0, 1));
    for (const one of reached) {
      for (const other of own) {
        const isGround = one.key === 'ground' && other.key === 'ground';
        if (isGround || touches(one, other) || touches(other, one)) reached.add(other);
      }
    }
    const apart = own.find((joint) => !reached.has(joint));
    if (apart !== undefined)
      say(
        apart.key,
        `gap of \`${node}\` before ${apart.says}`,
        `it joined to ${own[0]?.says ?? ''}`,
        'Draw the wire between them.',
      );
  }
}

/** Whether an end of one lies on the other. */
function touches(one: Joint, other: Joint): boolean {
  const [from, to = from] = other.at;
  return from !== undefined && to !== undefined && one.at.some((place) => liesOn(place, from, to));
}

interface Solid {
  readonly key: string;
  readonly says: string;
  readonly owner: string;
  readonly box: Box;
}

/** No part, word, flag or ground lies on another one or on a wire. */
function checkRoom(drawing: Drawing, say: Say): void {
  for (const part of drawing.parts.filter((each) => !fits(each)))
    say(
      `parts/${part.elements.join(' ')}`,
      `words \`${wordsOf(part)[0]?.lines.join(' / ') ?? ''}\` in a ${part.symbol}`,
      'three lines of ten letters, its value among them',
      'Write shorter words.',
    );
  const solids = drawing.parts.flatMap((part): readonly Solid[] => {
    const about = { key: `parts/${part.elements.join(' ')}`, owner: nameOf(part) };
    return [
      { ...about, says: nameOf(part), box: inset(extentOf(part), 1) },
      ...wordsOf(part).map((words) => ({
        ...about,
        says: `words \`${words.lines.join(' ')}\``,
        box: roomOf(words),
      })),
    ];
  });
  const others = [
    ...drawing.grounds.map((at) => ({
      key: 'ground',
      owner: `ground ${at.join()}`,
      says: `ground at ${at.join()}`,
      box: inset(groundBox(at), 1),
    })),
    ...drawing.flags.map((flag) => {
      const { box } = flagOf(flag);
      return { key: `points/${flag.point}`, owner: `flag ${flag.at.join()}`, says: `flag of \`${flag.point}\``, box };
    }),
  ];
  const all = [...solids, ...others];
  all.forEach((one, index) => {
    const hit = all.slice(index + 1).find((other) => other.owner !== one.owner && overlap(one.box, other.box));
    if (hit !== undefined)
      say(
        hit.key,
        `overlap of ${hit.says} and ${one.says}`,
        'room between them',
        'Move one of them, or its words to another side.',
      );
  });
  const wires = stretchesOf(drawing).map(({ node, from: [x, y], to: [toX, toY] }) => ({
    node,
    box: {
      left: Math.min(x, toX) * step,
      top: Math.min(y, toY) * step,
      right: Math.max(x, toX) * step,
      bottom: Math.max(y, toY) * step,
    },
  }));
  for (const { node, box } of wires) {
    const hit = all.find((solid) => overlap(solid.box, box));
    if (hit !== undefined)
      say(
        `wires/${node}`,
        `wire of \`${node}\` through ${hit.says}`,
        'it to pass by',
        'Lead it round, or move the other.',
      );
  }
  const [left, right] = [Math.min(...all.map(({ box }) => box.left)), Math.max(...all.map(({ box }) => box.right))];
  if (right - left > most.across * step)
    say(
      '',
      `width of ${Math.ceil((right - left) / step)} steps, words included`,
      `at most ${most.across}`,
      'Fold a long circuit into two rows.',
    );
}

function inset({ left, top, right, bottom }: Box, by: number): Box {
  return { left: left + by, top: top + by, right: right - by, bottom: bottom - by };
}

function overlap(one: Box, other: Box): boolean {
  return one.left < other.right && other.left < one.right && one.top < other.bottom && other.top < one.bottom;
}
