import { gzipSync } from 'node:zlib';
import { describe, expect, it } from 'vitest';
import { loadLibrary } from '#build/library.ts';
import { partsAt } from '#core/model/part.ts';
import { type Markup, printHtml } from '#core/page/markup.ts';
import { makePartData, renderFigure } from '#core/page/render-figure.ts';

const library = loadLibrary();
const sheets = new Map(makePartData(library).parts.map((part) => [part.slug, part] as const));

function figureOf(point: string, slug: string, side?: 'component' | 'solder'): readonly Markup[] {
  const part = sheets.get(slug);
  const pins = library.points.get(point)?.pins;
  if (part === undefined || pins === undefined) throw new Error(`No ${point} or ${slug}`);
  return renderFigure(part, pins, 'multimeter', side);
}

function textsIn(node: Markup | string, test: (node: Markup) => boolean): readonly string[] {
  if (typeof node === 'string') return [];
  const inside = node.children.flatMap((child) => textsIn(child, test));
  return test(node) ? [node.children.filter((child) => typeof child === 'string').join(''), ...inside] : inside;
}

const withClass =
  (name: string) =>
  ({ attributes }: Markup): boolean =>
    typeof attributes['class'] === 'string' && attributes['class'].split(' ').includes(name);

describe('the figure of a test point', () => {
  it('marks both pins by number, by line and by word, and says the same to who does not see it', () => {
    const [drawing] = figureOf('processor-supply', 'z80');
    const all = [drawing ?? ''];

    expect(all.flatMap((node) => textsIn(node, withClass('probed')))).toEqual(['11', '29']);
    expect(all.flatMap((node) => textsIn(node, withClass('lead-name')))).toEqual(['Red lead', 'Black lead']);
    expect(all.flatMap((node) => textsIn(node, withClass('lead')))).toHaveLength(2);
    expect(drawing?.attributes['aria-label']).toContain('Red lead: pin 11, +5 V. Black lead: pin 29, ground.');
  });

  it('draws the stretch around them and the ends to count from, and breaks the body where rows are left out', () => {
    const numbers = figureOf('processor-supply', 'z80').flatMap((node) => textsIn(node, withClass('number')));

    // 40 pins in two rows: 1 and 40 at the notch, 20 and 21 at the foot; around 11 and 29, which face 30 and 12.
    expect(numbers.map(Number)).toEqual([1, 40, 10, 31, 11, 30, 12, 29, 13, 28, 20, 21]);
    expect(figureOf('processor-supply', 'z80').flatMap((node) => textsIn(node, withClass('gap')))).toHaveLength(4);
  });

  it('is mirrored from the solder side, and says so', () => {
    const [drawing, words] = figureOf('memory-vbb', '4116', 'solder');
    const numbers = textsIn(drawing ?? '', withClass('number'));

    // The notch stays up: what was left is right.
    expect(numbers.slice(0, 2)).toEqual(['16', '1']);
    expect(printHtml(drawing, words)).toMatch(/mirrored.*From the solder side/su);
  });

  it('sends no probe to a pin that the part does not have', () => {
    // A 4164 has one supply: no −5 V and no +12 V.
    for (const point of ['memory-vbb', 'memory-vdd'])
      expect(printHtml(...figureOf(point, '4164'))).toMatch(/has no such pin\. This step is not for it/u);
  });

  it('sends the black lead to the board where the part has no ground', () => {
    // An LM317 has adjust, output and input.
    expect(printHtml(...figureOf('regulator-out', 'lm317'))).toContain('Black lead: to the ground of the board.');
  });

  it('shows contacts that bear no number by sign, shape and word', () => {
    const [drawing] = figureOf('reservoir', 'electrolytic');
    const key = textsIn(drawing ?? '', withClass('lead-name'));

    expect(drawing?.attributes['aria-label']).toContain('Red lead: plus leg. Black lead: minus leg.');
    expect(key).toEqual(['Red lead: ', 'Black lead: ']);
  });

  it('draws the wires of a loop, and says which pins they join', () => {
    // A loop of a 9-way serial socket: transmit to receive data, request to clear to send, the three of the ready lines.
    const [drawing] = figureOf('serial-loop', 'd-sub-9-serial');

    expect(textsIn(drawing ?? '', withClass('wire'))).toHaveLength(4);
    expect(drawing?.attributes['aria-label']).toContain('Join pin 3, transmit data with pin 2, receive data; pin 7');
  });

  it('says the same in words', () => {
    expect(printHtml(...figureOf('serial-txd', 'd-sub-9-serial'))).toContain(
      'Red lead, on one after the other: pin 2, receive data; pin 3, transmit data. Black lead: pin 5, ground.',
    );
  });

  it('has at most 3 kB gzip for every point on every part it can lie on, and no name of a pin as code', () => {
    const figures = [...library.points.values()].flatMap(({ slug, pins }) => {
      return pins === undefined ? [] : partsAt(pins, library).map((part) => printHtml(...figureOf(slug, part.slug)));
    });

    expect(figures.length).toBeGreaterThan(250);
    expect(Math.max(...figures.map((html) => gzipSync(html).length))).toBeLessThanOrEqual(3000);
    const hostile = {
      ...(sheets.get('z80') ?? { slug: '', aliases: [], status: 'read', package: 'dip-40', pins: [] }),
    };
    const typed = '"><img src=x onerror=alert(1)>';
    const pins = hostile.pins.map((pin) => ({ ...pin, name: pin.name === 'clock in' ? typed : pin.name }));
    const at = {
      chip: undefined,
      part: 'z80',
      read: [typed],
      all: [],
      joins: [],
      never: undefined,
      ground: [],
      side: 'component',
    } as const;
    expect(printHtml(...renderFigure({ ...hostile, title: typed, pins }, at, 'multimeter'))).not.toContain('<img');
  });
});
