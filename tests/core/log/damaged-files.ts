/** One file that is no bench log of today, and a word that its message must hold. */
export interface DamagedFile {
  readonly name: string;
  readonly content: string | Uint8Array<ArrayBuffer>;
  readonly says: RegExp;
}

const head = { id: 'x1', job: 'foreign', at: '2026-01-31T12:00:00.000Z', device: 'tab' };
const note = { ...head, kind: 'note', text: 'a note' };
const sound = { format: 'bench-log', version: 3, made: '2026-01-31T12:00:00.000Z', events: [note], photos: [] };
const part = { name: 'IC5', kind: 'chip', size: [14], x: 40, y: 30, turn: 0 };
const withBoard = (board: object, points: object = {}): string => {
  const boards = [{ name: 'Main board', width: 200, height: 150, edges: ['rear', 'front'], parts: [part], ...board }];
  return JSON.stringify({ ...sound, events: [{ ...head, kind: 'placement', placement: { boards, points } }] });
};
const whole = JSON.stringify(sound);
const withEvents = (...events: readonly unknown[]): string => JSON.stringify({ ...sound, events });
const withFile = (change: object): string => JSON.stringify({ ...sound, ...change });

/** Damaged, foreign, older, newer and hostile files. Each was a sound file before one thing was done to it. */
export const damagedFiles: readonly DamagedFile[] = [
  { name: 'empty', content: '', says: /empty/ },
  { name: 'white space and a byte order mark', content: '\uFEFF \n', says: /empty/ },
  { name: 'cut off in the middle', content: whole.slice(0, whole.length / 2), says: /cut off/ },
  { name: 'one byte short', content: whole.slice(0, -1), says: /cut off/ },
  { name: 'the beginning missing', content: whole.slice(10), says: /not JSON/ },
  { name: 'zeros, as a full disk leaves them', content: new Uint8Array(4096), says: /not JSON/ },
  {
    name: 'a picture',
    content: Uint8Array.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 0xff]),
    says: /not JSON/,
  },
  {
    name: 'in UTF-16',
    content: Uint8Array.from([0xff, 0xfe, ...[...whole].flatMap((letter) => [letter.charCodeAt(0), 0])]),
    says: /not JSON/,
  },
  { name: 'a page instead of a file', content: `<!doctype html><script>alert(1)</script>${whole}`, says: /not JSON/ },
  { name: 'two files one after the other', content: whole + whole, says: /not JSON/ },
  { name: 'other JSON', content: '{"name":"something","version":1}', says: /not a bench-log file/ },
  { name: 'null', content: 'null', says: /not a bench-log file/ },
  { name: 'a list', content: `[${whole}]`, says: /not a bench-log file/ },
  {
    name: 'nested ten thousand deep',
    content: '['.repeat(10_000) + ']'.repeat(10_000),
    says: /not? (?:a bench-log file|JSON)/,
  },
  { name: 'without its version', content: withFile({ version: undefined }), says: /does not say its version/ },
  { name: 'a version in words', content: withFile({ version: '3' }), says: /does not say its version/ },
  { name: 'of a newer version', content: withFile({ version: 4 }), says: /newer than this page knows/ },
  { name: 'of an older version that never was', content: withFile({ version: 0 }), says: /no such version/ },
  { name: 'a version far below zero', content: withFile({ version: -1e9 }), says: /no such version/ },
  { name: 'without events', content: withFile({ events: [] }), says: /holds no events/ },
  { name: 'events as an object', content: withFile({ events: { 0: note, length: 1 } }), says: /no list of events/ },
  {
    name: 'more events than are read',
    content: withEvents(...Array.from({ length: 50_001 }, () => 0)),
    says: /at most 50000/,
  },
  {
    name: 'an unknown kind',
    content: withEvents(note, { ...head, id: 'x2', kind: 'erase-all' }),
    says: /Number 2 of the events/,
  },
  { name: 'a field of the wrong type', content: withEvents({ ...note, text: 5 }), says: /“text”/ },
  {
    name: 'a number that became null',
    content: withEvents({ ...head, kind: 'photo', photo: 'p', bytes: null }),
    says: /“bytes”/,
  },
  { name: 'a day that does not exist', content: withEvents({ ...note, at: '2026-02-30T12:00:00.000Z' }), says: /“at”/ },
  {
    name: 'a text of five million characters',
    content: withEvents({ ...note, text: 'x'.repeat(5_000_000) }),
    says: /at most 4000 characters/,
  },
  {
    name: 'a key of every object',
    content: whole.replace('"text"', '"__proto__":{"isAdmin":true},"text"'),
    says: /“__proto__”/,
  },
  {
    name: 'the constructor as a key',
    content: withEvents({ ...note, constructor: { prototype: { kept: true } } }),
    says: /“constructor”/,
  },
  { name: 'one event twice', content: withEvents(note, note), says: /twice/ },
  { name: 'script in an id', content: withEvents({ ...note, id: '"><img src=x onerror=alert(1)>' }), says: /“id”/ },
  {
    name: 'a drawing with script as a photo',
    content: withFile({ photos: [{ id: 'p', job: 'foreign', data: btoa('<svg onload="alert(1)"/>') }] }),
    says: /Number 1 of the photos/,
  },
  {
    name: 'a photo of five million characters',
    content: withFile({ photos: [{ id: 'p', job: 'foreign', data: `/9j/${'A'.repeat(5_000_000)}` }] }),
    says: /Number 1 of the photos does not fit at “data”: expected at most 4,000,000 characters/,
  },
  {
    name: 'without a field',
    content: withEvents({ ...head, kind: 'note' }),
    says: /Number 1 of the events lacks “text”\./,
  },
  {
    name: 'with a field that does not belong there',
    content: withEvents({ ...note, colour: 'red' }),
    says: /Number 1 of the events has “colour”, which does not belong there\./,
  },
  { name: 'a key that no log has', content: withFile({ settings: { theme: 'x' } }), says: /“settings”/ },
  { name: 'without its date', content: withFile({ made: 'yesterday or so' }), says: /when it was made/ },
  {
    name: 'a board of a thousand kilometres',
    content: withBoard({ width: 1e9 }),
    says: /“placement\.boards\.0\.width”: expected millimetres, at most 1000/,
  },
  {
    name: 'a board with ten thousand parts',
    content: withBoard({ parts: Array.from({ length: 10_000 }, () => part) }),
    says: /expected at most 160 parts/,
  },
  {
    name: 'a chip of a million pins',
    content: withBoard({ parts: [{ ...part, size: [1e6] }] }),
    says: /expected pins, at most 64/,
  },
  {
    name: 'a chip of half a pin',
    content: withBoard({ parts: [{ ...part, size: [14.5] }] }),
    says: /expected pins, a whole number/,
  },
  {
    name: 'a part at no place',
    content: withBoard({ parts: [{ ...part, x: null }] }),
    says: /parts\.0\.x/,
  },
  {
    name: 'a part with a name of a page',
    content: withBoard({ parts: [{ ...part, name: '<img src=x onerror=alert(1)>'.repeat(1000) }] }),
    says: /expected at most 16 characters/,
  },
  {
    name: 'a part of no kind',
    content: withBoard({ parts: [{ ...part, kind: 'valve' }] }),
    says: /Number 1 of the events/,
  },
  {
    name: 'a point with script for its name',
    content: withBoard({}, { '"><script>': [{ part: 'IC5', pins: [1] }] }),
    says: /small letters, digits and single hyphens/,
  },
  {
    name: 'more points than there are',
    content: withBoard(
      {},
      Object.fromEntries(Array.from({ length: 5000 }, (_, index) => [`p${index}`, [{ part: 'IC5', pins: [1] }]])),
    ),
    says: /at most 200 points/,
  },
  {
    name: 'a point with a hundred places',
    content: withBoard({}, { rail: Array.from({ length: 100 }, () => ({ part: 'IC5', pins: [1] })) }),
    says: /at most 12 places/,
  },
];
