import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { makePack } from '#core/offline/make-pack.ts';
import { readPackedFile } from '#core/offline/read-packed-file.ts';

/** Texts that repeat one another as pages do: rows of a few tags and words, and anything else a file may hold. */
const page = fc.array(fc.constantFrom('<p>', '</p>', '<main id="a">', 'word ', '<', '\r\n', '"', '💡', 'é'), {
  maxLength: 40,
});
const text = fc.oneof(
  page.map((parts) => parts.join('')),
  fc.string({ unit: 'binary' }),
);
const files = fc.uniqueArray(fc.tuple(fc.string({ minLength: 1 }), text), {
  selector: ([path]) => path,
  maxLength: 12,
});

describe('a pack', () => {
  it('gives every file back as it was', () => {
    fc.assert(
      fc.property(files, (packed) => {
        const pack = makePack(packed);
        for (const [path, written] of packed) expect(readPackedFile(pack, path)).toBe(written);
      }),
    );
  });

  it('survives being written down as JSON', () => {
    fc.assert(
      fc.property(files, (packed) => {
        const pack = JSON.parse(JSON.stringify(makePack(packed)));
        for (const [path, written] of packed) expect(readPackedFile(pack, path)).toBe(written);
      }),
    );
  });

  it('holds each piece once', () => {
    fc.assert(
      fc.property(files, (packed) => {
        const { pieces } = makePack(packed);
        expect(new Set(pieces).size).toBe(pieces.length);
      }),
    );
  });

  it('holds what is the same in two files once', () => {
    const shared = `<header>${'the same on every page '.repeat(50)}</header>`;
    const { pieces } = makePack([
      ['a.html', `${shared}<main>one</main>`],
      ['b.html', `${shared}<main>two</main>`],
    ]);
    expect(pieces.filter((piece) => piece.includes('the same on every page'))).toHaveLength(1);
  });

  it('says undefined of a file that it does not hold, whatever its name', () => {
    const pack = makePack([['a.html', 'one']]);
    for (const path of ['b.html', '', '__proto__', 'constructor', 'toString']) {
      expect(readPackedFile(pack, path)).toBeUndefined();
    }
  });
});
