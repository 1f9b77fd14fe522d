import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { assignTracks, isStraight, type Net, spanOf } from '#core/figure/route-gap.ts';

const arbitraryPositions = fc.uniqueArray(
  fc.integer({ min: 0, max: 60 }).map((place) => 20 * place),
  { minLength: 1, maxLength: 4 },
);
const arbitraryNets: fc.Arbitrary<readonly Net[]> = fc.array(
  fc.record({ above: arbitraryPositions, below: arbitraryPositions }),
  { maxLength: 9 },
);

describe('assignTracks', () => {
  it('takes no track for a straight line and one for a line that steps aside', () => {
    expect(
      assignTracks([
        { above: [10], below: [10] },
        { above: [50], below: [90] },
      ]),
    ).toEqual([undefined, 0]);
  });

  it('shares a track between lines that lie apart', () => {
    expect(
      assignTracks([
        { above: [0], below: [40] },
        { above: [100], below: [140] },
      ]),
    ).toEqual([0, 0]);
  });

  it('puts the net that comes down over the other net above it, so that their upright lines do not lie on each other', () => {
    const [first, second] = assignTracks([
      { above: [0], below: [100] },
      { above: [100], below: [200] },
    ]);

    expect(second).toBeLessThan(first ?? 0);
  });

  it('never lets two level lines of one track meet', () => {
    fc.assert(
      fc.property(arbitraryNets, (nets) => {
        const tracks = assignTracks(nets);
        for (const [index, net] of nets.entries()) {
          expect(tracks[index] === undefined).toBe(isStraight(net));
          for (const [place, other] of nets.entries()) {
            if (place <= index || tracks[index] === undefined || tracks[index] !== tracks[place]) continue;
            const [start, end] = spanOf(net);
            const [otherStart, otherEnd] = spanOf(other);
            expect(end < otherStart || otherEnd < start).toBe(true);
          }
        }
      }),
    );
  });
});
