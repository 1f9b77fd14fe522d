import { readFileSync } from 'node:fs';
import { Ajv2020 } from 'ajv/dist/2020.js';
import formats from 'ajv-formats';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { makeSchemas } from '../../../src/cli/generated-schemas.ts';
import { printJobFile, readJobFile } from '#core/log/job-file.ts';
import { readStoredEvents } from '#core/log/event.ts';
import { arbitraryEvent, arbitraryHistory } from '../../arbitraries/log-event.ts';
import { damagedFiles } from './damaged-files.ts';
import { makeEvent } from './make-event.ts';

const made = '2026-01-31T12:00:00.000Z';
const schema: object = JSON.parse(readFileSync('public/data/schema/bench-log.json', 'utf8'));
const ajv = new Ajv2020({ allErrors: false, strict: true });
formats.default(ajv);
const fitsSchema = ajv.compile(schema);
// The four bytes that a JPEG begins with (ITU-T T.81, JFIF), and its end mark.
const photo = { id: 'p', job: 'j', data: btoa('\u00ff\u00d8\u00ff\u00e0\u00ff\u00d9') };

describe('the published schema', () => {
  it('is the one that is made from the schema by which files are read', async () => {
    for (const [path, text] of await makeSchemas())
      expect(readFileSync(path, 'utf8'), `npm run docs: ${path}`).toBe(text);
  });
});

describe('a file of the bench log', () => {
  it('reads back as what was printed', () => {
    fc.assert(
      fc.property(
        arbitraryHistory.filter(({ length }) => length > 0),
        (events) => {
          expect(readJobFile(printJobFile({ events, photos: [photo] }, made))).toEqual({
            kind: 'file',
            file: { events, photos: [photo] },
          });
        },
      ),
    );
  });

  it('fits the published schema, by a validator that is not ours', () => {
    fc.assert(
      fc.property(
        arbitraryHistory.filter(({ length }) => length > 0),
        (events) => {
          const isFitting = fitsSchema(JSON.parse(printJobFile({ events, photos: [photo] }, made)));
          expect(fitsSchema.errors ?? []).toEqual([]);
          expect(isFitting).toBe(true);
        },
      ),
    );
  });

  it('is refused where one field of one event was exchanged, exactly when the published schema refuses it', () => {
    const strange = fc.constantFrom<unknown>(null, 0, -1, 1.5, 1e9, '', ' ', 'x', 'x'.repeat(4001), [], {}, true);
    fc.assert(
      fc.property(arbitraryEvent(), fc.nat(20), strange, (event, which, value) => {
        const keys = Object.keys(event);
        const changed = { ...event, [keys[which % keys.length] ?? 'id']: value };
        const file = { format: 'bench-log', version: 3, made, events: [changed], photos: [] };
        expect(readJobFile(JSON.stringify(file)).kind === 'file').toBe(fitsSchema(file));
      }),
      { numRuns: 1000 },
    );
  });

  it('may begin with a byte order mark', () => {
    const text = printJobFile({ events: [makeEvent(1, { kind: 'note', text: 'n' })], photos: [] }, made);
    expect(readJobFile(`\uFEFF${text}`).kind).toBe('file');
  });
});

describe('a file of version 1, as it was written', () => {
  const old = readFileSync('tests/core/log/version-1.json', 'utf8');

  it('is read: the known unit is `slug`, and the words of the button come out of the verdict', () => {
    const read = readJobFile(old);
    if (read.kind !== 'file') throw new Error(read.message);
    expect(read.file.events.map(({ kind }) => kind)).toEqual(['opened', 'unit', 'answer', 'answer', 'answer', 'note']);
    const [, unit, words, reading, both] = read.file.events;
    expect(unit).toMatchObject({ maker: 'Quillon', slug: 'quillon-44' });
    expect(unit).not.toHaveProperty('board');
    expect(words).toMatchObject({ value: 'iron', said: 'A heavy transformer inside the case' });
    expect(words).not.toHaveProperty('verdict');
    expect(reading).toMatchObject({ value: '4.71V', verdict: 'low' });
    expect(reading).not.toHaveProperty('said');
    expect(both).toMatchObject({ said: 'No more than expected', verdict: 'read earlier in this job' });
  });

  it('gives the same events as a browser that has stored them', () => {
    const read = readJobFile(old);
    expect(readStoredEvents(JSON.parse(old).events)).toEqual({
      events: read.kind === 'file' ? read.file.events : [],
      unread: 0,
    });
  });

  it('is written as version 3, which fits the published schema', () => {
    const read = readJobFile(old);
    const text = printJobFile(read.kind === 'file' ? read.file : { events: [], photos: [] }, made);
    expect(fitsSchema(JSON.parse(text))).toBe(true);
    expect(readJobFile(text)).toEqual(read);
  });
});

describe('a file of version 2, as it was written', () => {
  const old = readFileSync('tests/core/log/version-2.json', 'utf8');

  it('is read as it stands, and is written as version 3', () => {
    const read = readJobFile(old);
    if (read.kind !== 'file') throw new Error(read.message);
    expect(read.file.events).toEqual(JSON.parse(old).events);
    const text = printJobFile(read.file, made);
    expect(JSON.parse(text)).toMatchObject({ version: 3 });
    expect(fitsSchema(JSON.parse(text))).toBe(true);
  });
});

describe('a file that is damaged, foreign, older, newer or hostile', () => {
  it('there are at least thirty of them', () => {
    expect(damagedFiles.length).toBeGreaterThanOrEqual(30);
    expect(new Set(damagedFiles.map(({ content }) => content)).size).toBe(damagedFiles.length);
  });

  it.each(damagedFiles)('is refused with a clear message: $name', ({ content, says }) => {
    const text = typeof content === 'string' ? content : new TextDecoder().decode(content);
    const read = readJobFile(text);
    if (read.kind !== 'refused') throw new Error('this was taken');
    expect(read.message).toMatch(says);
    expect(read.message).toContain('Nothing was imported, and your log is as it was.');
    expect(read.message.length).toBeLessThan(300);
    expect(Object.hasOwn(Object.prototype, 'isAdmin')).toBe(false);
  });

  it('never throws, whatever the text', () => {
    fc.assert(
      fc.property(fc.oneof(fc.string({ unit: 'binary' }), fc.json()), (text) => {
        expect(readJobFile(text).kind).toBe('refused');
      }),
    );
  });
});

describe('events from the browser’s store', () => {
  it('that do not fit are counted and left out, the rest is read', () => {
    const event = makeEvent(1, { kind: 'note', text: 'n' });
    expect(readStoredEvents([event, null, { ...event, kind: 'of-the-future' }, 'x'])).toEqual({
      events: [event],
      unread: 3,
    });
  });
});
