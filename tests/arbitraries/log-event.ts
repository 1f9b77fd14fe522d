import fc from 'fast-check';
import type { LogEvent } from '#core/log/event.ts';

const id = fc.stringMatching(/^[A-Za-z0-9~._-]{1,12}$/);
const slug = fc.stringMatching(/^[a-z0-9]{1,6}(-[a-z0-9]{1,6})?$/);
const text = fc.string({ minLength: 1, maxLength: 40, unit: 'binary' });
const field = fc.string({ maxLength: 40, unit: 'grapheme' });
const time = fc
  .integer({ min: 0, max: Date.parse('2100-01-01T00:00:00.000Z') })
  .map((milliseconds) => new Date(milliseconds).toISOString());
const amount = fc.double({ min: 0, max: 1e4, noNaN: true, noDefaultInfinity: true }).map((value) => value + 0);
const exposure = fc.constantFrom('outside', 'inside-covered', 'inside-bare', 'unknown' as const);
const showing = fc.oneof(
  fc.record({ how: fc.constant('always' as const) }),
  fc.record({ how: fc.constant('hours' as const), meanHours: amount.map((value) => value + 0.1) }),
  fc.record({
    how: fc.constant('starts' as const),
    seen: fc.integer({ min: 1, max: 50 }),
    starts: fc.integer({ min: 1, max: 50 }),
  }),
);

const millimetres = fc.integer({ min: 10, max: 1000 });
const name = fc.string({ minLength: 1, maxLength: 16 });
const size = fc.oneof(
  fc.record({ kind: fc.constant('chip'), size: fc.integer({ min: 2, max: 32 }).map((half) => [half * 2]) }),
  fc.record({
    kind: fc.constant('plug'),
    size: fc.tuple(fc.integer({ min: 1, max: 64 }), fc.constantFrom(1, 2), fc.constant(2.54)),
  }),
  fc.record({ kind: fc.constant('legs'), size: fc.tuple(fc.integer({ min: 2, max: 64 })) }),
  fc.record({ kind: fc.constantFrom('can', 'two'), size: fc.tuple(fc.integer({ min: 2, max: 100 })) }),
  fc.record({ kind: fc.constant('box'), size: fc.tuple(millimetres, millimetres) }),
);
const part = fc
  .tuple(size, fc.record({ name, x: millimetres, y: millimetres, turn: fc.constantFrom(0, 90, 180, 270) }))
  .map(([kind, rest]) => ({ ...rest, ...kind }));
const placement = fc.record({
  boards: fc.array(
    fc.record({
      name,
      width: millimetres,
      height: millimetres,
      edges: fc.tuple(name, name),
      parts: fc.array(part, { maxLength: 4 }),
    }),
    { minLength: 1, maxLength: 2 },
  ),
  points: fc.dictionary(
    slug,
    fc.array(
      fc.oneof(
        fc.record({ part: name, pins: fc.array(fc.integer({ min: 1, max: 64 }), { maxLength: 4 }) }),
        fc.record({ board: name, x: millimetres, y: millimetres }),
      ),
      { minLength: 1, maxLength: 3 },
    ),
    { maxKeys: 3, noNullPrototype: true },
  ),
});

type Fields = Readonly<Record<string, fc.Arbitrary<unknown>>>;

function body(kind: LogEvent['kind'], required: Fields, optional: Fields): fc.Arbitrary<object> {
  return fc
    .tuple(fc.record(required), fc.record(optional, { requiredKeys: [] }))
    .map(([must, may]) => ({ kind, ...must, ...may }));
}

/** Any event of a job named `a`, `b` or `c`, of every kind; ids from a pool small enough that an undo often names one. */
export function arbitraryEvent(ids: fc.Arbitrary<string> = id): fc.Arbitrary<LogEvent> {
  const bodies = fc.oneof(
    body('opened', {}, { symptom: text }),
    body('unit', {}, { maker: field, model: field, serial: field, revision: field, slug, description: field }),
    body(
      'intake',
      {},
      {
        symptom: field,
        said: field,
        changed: field,
        before: field,
        keep: field,
        mains: exposure,
        limitHours: amount,
        limitMoney: field,
      },
    ),
    body('point', { point: slug }, { name: text }),
    body('chip', { chip: slug }, { part: slug }),
    body('placement', {}, { placement }),
    body(
      'meter',
      { check: fc.constantFrom('leads-shorted', 'fresh-cell', 'known-part' as const), isGood: fc.boolean() },
      { reading: text },
    ),
    body(
      'answer',
      { tree: slug, node: slug, value: fc.constantFrom('low', 'in', '4.71V', 'OL', '-12V', 'low,4.7V', '3-of-8') },
      { stage: slug, treeTitle: text, question: text, instrument: slug, said: text, verdict: text },
    ),
    body(
      'repair',
      { tree: slug, cause: slug, tested: fc.constantFrom('yes', 'no', 'no-part' as const) },
      { title: text, part: text },
    ),
    body(
      'result',
      { repair: ids, result: fc.constantFrom('cured', 'cured-by-disturbance', 'same', 'worse' as const) },
      {
        acts: fc.uniqueArray(fc.constantFrom('reseated', 'cleaned', 'warmed', 'cooled', 'flexed' as const)),
        touched: text,
      },
    ),
    body('rework', { fault: slug, isFound: fc.boolean() }, {}),
    body(
      'part',
      {
        status: fc.constantFrom('wanted', 'ordered', 'arrived', 'tested-good', 'tested-bad', 'not-to-be-had' as const),
      },
      { part: ids, name: text },
    ),
    body('proof', { showing, done: amount, isClean: fc.boolean() }, {}),
    body('note', { text }, {}),
    body('photo', { photo: ids, bytes: fc.nat(1_000_000) }, { caption: text }),
    body('waiting', { what: text }, {}),
    body('resumed', {}, {}),
    body(
      'closed',
      { how: fc.constantFrom('cured', 'cured-by-disturbance', 'handed-over', 'stopped' as const) },
      { summary: text },
    ),
    body('undo', { of: ids }, {}),
  );
  return fc
    .tuple(fc.record({ id: ids, job: fc.constantFrom('a', 'b', 'c'), at: time, device: id }), bodies)
    .map(([head, rest]) => ({ ...head, ...rest }) as LogEvent);
}

/** A history: events whose ids differ. */
export const arbitraryHistory: fc.Arbitrary<readonly LogEvent[]> = fc.uniqueArray(
  arbitraryEvent(fc.integer({ min: 0, max: 60 }).map((number) => `e${number}`)),
  { selector: ({ id: name }) => name, maxLength: 25 },
);
