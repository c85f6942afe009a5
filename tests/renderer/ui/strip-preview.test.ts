/** The small drawing of a header: boxes in the proportion of the pieces. */

import fc from 'fast-check';
import { expect, test } from 'vitest';
import { layOutStrips } from '../../../renderer/ui/strip-preview.tsx';

const piece = fc.record({
  kind: fc.constantFrom('straight' as const, 'bend' as const, 'pieCut' as const),
  lengthMm: fc.double({ min: 0.1, max: 2000, noNaN: true }),
});
const primaries = fc.array(fc.record({ name: fc.string(), pieces: fc.array(piece, { maxLength: 30 }) }), {
  maxLength: 16,
});

test('boxes follow one another without gap, and the longest primary fills the width', () => {
  fc.assert(
    fc.property(primaries, fc.integer({ min: 50, max: 2000 }), (given, width) => {
      const rows = layOutStrips(given, width);
      const ends = rows.map((row) => {
        let end = 0;
        for (const box of row) {
          expect(box.x).toBeCloseTo(end, 6);
          end = box.x + box.width;
        }
        return end;
      });
      if (given.some(({ pieces }) => pieces.length > 0)) expect(Math.max(...ends)).toBeCloseTo(width, 6);
    }),
  );
});

test('a box is as wide as its piece is long, by one scale for all primaries', () => {
  const rows = layOutStrips(
    [
      { name: '1', pieces: [{ kind: 'straight', lengthMm: 100 }] },
      {
        name: '2',
        pieces: [
          { kind: 'bend', lengthMm: 150 },
          { kind: 'straight', lengthMm: 50 },
        ],
      },
    ],
    400,
  );
  expect(rows).toEqual([
    [{ kind: 'straight', x: 0, width: 200 }],
    [
      { kind: 'bend', x: 0, width: 300 },
      { kind: 'straight', x: 300, width: 100 },
    ],
  ]);
});

test('nothing to draw gives empty rows', () => {
  expect(layOutStrips([], 100)).toEqual([]);
  expect(layOutStrips([{ name: '1', pieces: [] }], 100)).toEqual([[]]);
  expect(layOutStrips([{ name: '1', pieces: [{ kind: 'straight', lengthMm: 0 }] }], 100)).toEqual([
    [{ kind: 'straight', x: 0, width: 0 }],
  ]);
});
