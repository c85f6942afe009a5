/** Lengths of pieces and primaries, worked by hand and as laws. */

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Piece } from '../../../core/header/header.ts';
import { insideArcMm, outsideArcMm } from '../../../core/length/bend-arcs.ts';
import { pieceLength, primaryLength } from '../../../core/length/piece-length.ts';
import { inches, millimetres } from '../../../core/units/length.ts';
import { expectWithin, expectWithinRelative } from '../../tolerance.ts';
import { bend, pieCut, primary, straight } from './header-of-pieces.ts';

const RUNS = { numRuns: 2000 };
const NONE = { shrinkageMm: 0 };

const size = fc.double({ min: 0.1, max: 2000, noNaN: true });
const angle = fc.double({ min: 0.1, max: 360, noNaN: true });
const anyPiece: fc.Arbitrary<Piece> = fc.oneof(
  size.map((mm) => straight(millimetres(mm))),
  fc.tuple(size, angle).map(([clr, deg]) => bend(millimetres(clr), deg)),
  fc.tuple(size, angle, fc.integer({ min: 3, max: 30 })).map(([clr, deg, pies]) => pieCut(millimetres(clr), deg, pies)),
);

function scaled(piece: Piece, factor: number): Piece {
  return piece.kind === 'straight'
    ? { ...piece, length: millimetres(piece.length.value * factor) }
    : { ...piece, clr: millimetres(piece.clr.value * factor) };
}

describe('the length of a piece', () => {
  test('of a straight is what was typed, in millimetres', () => {
    expect(pieceLength(straight(inches(2.75)))).toBe(69.85);
    expect(pieceLength(straight(millimetres(70)))).toBe(70);
    expect(pieceLength(straight(millimetres(0)))).toBe(0);
  });

  test('of a quarter turn of CLR 3 in is 3 in times pi / 2: 4.712389 in, 119.694680 mm', () => {
    expectWithin(pieceLength(bend(inches(3), 90)), 119.6946801, 1e-8);
  });

  test.each([
    [1e-9, 76.2 * 1.7453292519943295e-11],
    [45, 59.84734005],
    [90, 119.6946801],
    [180, 239.3893602],
    [360, 478.77872041],
  ])('of a bend of %d degrees at CLR 76.2 mm is %d mm', (angleDeg, lengthMm) => {
    expectWithin(pieceLength(bend(millimetres(76.2), angleDeg)), lengthMm, 1e-8);
  });

  test('of a pie-cut 90 of 3 pies at CLR 100 mm is six times 100 tan 15: 160.769515 mm', () => {
    expectWithin(pieceLength(pieCut(millimetres(100), 90, 3)), 160.76951546, 1e-8);
  });

  test('of a pie-cut bend is longer than the arc and comes down to it as pies are added', () => {
    fc.assert(
      fc.property(size, fc.double({ min: 0.1, max: 170, noNaN: true }), (clr, deg) => {
        const arcMm = pieceLength(bend(millimetres(clr), deg));
        const lengths = [1, 2, 3, 5, 9, 30, 90].map((pies) => pieceLength(pieCut(millimetres(clr), deg, pies)));
        for (const [index, lengthMm] of lengths.entries()) {
          expect(lengthMm).toBeGreaterThan(arcMm * (1 - 1e-12));
          expect(lengthMm).toBeLessThanOrEqual((lengths[index - 1] ?? Number.POSITIVE_INFINITY) * (1 + 1e-12));
        }
        expectWithinRelative(lengths.at(-1) ?? Number.NaN, arcMm, 1e-4);
      }),
      RUNS,
    );
  });

  test('of a pie-cut bend that would turn back on itself at one cut is infinite, not some number', () => {
    expect(pieceLength(pieCut(millimetres(100), 180, 1))).toBe(Number.POSITIVE_INFINITY);
    expect(pieceLength(pieCut(millimetres(100), 360, 2))).toBe(Number.POSITIVE_INFINITY);
    expect(pieceLength(pieCut(millimetres(100), 360, 3))).toBeLessThan(1100);
  });
});

describe('the length of a primary', () => {
  test('is the sum of its pieces', () => {
    fc.assert(
      fc.property(fc.array(anyPiece, { maxLength: 30 }), (pieces) => {
        const sumMm = pieces.map(pieceLength).reduce((sum, lengthMm) => sum + lengthMm, 0);
        expect(primaryLength(primary('1', pieces), NONE)).toBe(sumMm);
      }),
      RUNS,
    );
  });

  test('does not depend on the order of its pieces', () => {
    fc.assert(
      fc.property(fc.array(anyPiece, { minLength: 1, maxLength: 20 }), (pieces) => {
        const forwards = primaryLength(primary('1', pieces), { shrinkageMm: 0.4 });
        const backwards = primaryLength(primary('1', pieces.toReversed()), { shrinkageMm: 0.4 });
        // What is added is compared, not what is left: short pieces and their joints can cancel to next to nothing.
        const addedMm = forwards + 2 * 0.4 * pieces.length;
        expectWithin(backwards, forwards, 1e-12 * addedMm);
      }),
      RUNS,
    );
  });

  test('grows with its pieces, from a millionth to a million times the size', () => {
    const factor = fc.constantFrom(1e-6, 1e-3, 1e3, 1e6);
    fc.assert(
      fc.property(fc.array(anyPiece, { minLength: 1, maxLength: 20 }), factor, (pieces, times) => {
        const lengthMm = primaryLength(primary('1', pieces), NONE);
        const scaledMm = primaryLength(
          primary(
            '1',
            pieces.map((piece) => scaled(piece, times)),
          ),
          NONE,
        );
        expectWithinRelative(scaledMm, lengthMm * times, 1e-12);
      }),
      RUNS,
    );
  });

  test('cutting a straight or a bend in two changes nothing but by the weld', () => {
    fc.assert(
      fc.property(size, size, angle, fc.double({ min: 0.01, max: 0.99, noNaN: true }), (mm, clr, deg, part) => {
        const whole = primary('1', [straight(millimetres(mm)), bend(millimetres(clr), deg)]);
        const cut = primary('1', [
          straight(millimetres(mm * part)),
          straight(millimetres(mm * (1 - part))),
          bend(millimetres(clr), deg * part),
          bend(millimetres(clr), deg * (1 - part)),
        ]);
        expectWithinRelative(primaryLength(cut, NONE), primaryLength(whole, NONE), 1e-12);
        const shrinkageMm = 0.5;
        const lostMm = primaryLength(cut, NONE) - primaryLength(cut, { shrinkageMm });
        expectWithin(lostMm, 3 * shrinkageMm, 1e-9);
      }),
      RUNS,
    );
  });

  test('as welded is shorter by the shrinkage at each joint between pieces', () => {
    // 100 + 119.69468 + 50 with 2 joints of 0.4 each
    const pieces = [straight(millimetres(100)), bend(millimetres(76.2), 90), straight(millimetres(50))];
    expectWithin(primaryLength(primary('1', pieces), { shrinkageMm: 0.4 }), 268.8946801, 1e-8);
    expect(primaryLength(primary('1', pieces.slice(0, 1)), { shrinkageMm: 0.4 })).toBe(100);
    expect(primaryLength(primary('1', []), { shrinkageMm: 0.4 })).toBe(0);
  });

  test('a straight of zero length makes no joint', () => {
    const [first, last] = [straight(millimetres(100)), straight(millimetres(50))];
    const pieces = [first, straight(millimetres(0)), last, straight(millimetres(0))];
    expectWithin(primaryLength(primary('1', pieces), { shrinkageMm: 1 }), 149, 1e-12);
  });
});

describe('the arcs of a bend', () => {
  test('outside minus inside is OD times the angle, whatever the CLR; their mean is the centreline', () => {
    fc.assert(
      fc.property(size, size, angle, (clr, od, deg) => {
        const [outside, inside] = [outsideArcMm(clr, od, deg), insideArcMm(clr, od, deg)];
        const roundingMm = 1e-14 * (clr + od) * deg;
        expectWithin(outside - inside, (od * deg * Math.PI) / 180, roundingMm);
        expectWithin((outside + inside) / 2, pieceLength(bend(millimetres(clr), deg)), roundingMm);
      }),
      RUNS,
    );
  });
});
