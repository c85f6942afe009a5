/** The rows of a build sheet: running lengths, outside arcs and marks, by hand and against the path. */

import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Tube } from '../../../core/header/header.ts';
import { pieceLength } from '../../../core/length/piece-length.ts';
import { DEFAULT_PORT } from '../../../core/path/frame.ts';
import { traceFrom } from '../../../core/path/trace-primary.ts';
import { cross, dot, magnitude, scale, turnAbout, turnBetweenRad, type Vector } from '../../../core/path/vector.ts';
import { sheetRows } from '../../../core/sheet/sheet-rows.ts';
import { degreesOf } from '../../../core/units/angle.ts';
import { inches, millimetres } from '../../../core/units/length.ts';
import { expectWithin, expectWithinDeg } from '../../tolerance.ts';
import { bend, pieCut, primaryOf, straight } from '../path/made-primaries.ts';

const TUBE: Tube = { material: 'made up', od: millimetres(40), wall: millimetres(1.5) };
const ROUND = Math.PI * 40;

function rowsOf(...pieces: Parameters<typeof primaryOf>[0]) {
  const primary = primaryOf(pieces);
  return sheetRows(primary, TUBE, primary.pieces.map(pieceLength));
}

test('by hand: 100, a 90 on 80 clocked 60, 50, a 45 on 80 clocked 90', () => {
  const rows = rowsOf(straight(100), bend(80, 90, 60), straight(50), bend(80, 45, 90));
  // 80 pi/2 = 125.6637 along the middle, 100 pi/2 = 157.0796 along the outside; 80 pi/4 = 62.8319, 100 pi/4 = 78.5398.
  expectWithin(rows[0]?.totalMm ?? 0, 100, 1e-9);
  expectWithin(rows[1]?.totalMm ?? 0, 225.6637, 1e-4);
  expectWithin(rows[3]?.totalMm ?? 0, 100 + 125.6637 + 50 + 62.8319, 1e-4);
  expectWithin(rows[1]?.outsideMm ?? 0, 157.0796, 1e-4);
  expectWithin(rows[3]?.outsideMm ?? 0, 78.5398, 1e-4);
  expect(rows[0]?.outsideMm).toBeNull();
  // 60 of 360, then 60 + 90 = 150 of 360 of 125.6637.
  expectWithin(rows[1]?.markMm ?? 0, ROUND / 6, 1e-9);
  expectWithin(rows[3]?.markMm ?? 0, (ROUND * 150) / 360, 1e-9);
});

test('marks run from 0 to under the circumference, and a turn the other way is the rest of it', () => {
  const rows = rowsOf(bend(80, 30, -90), bend(80, 30, 90), bend(80, 30, 360), bend(80, 30, -0.25));
  expectWithin(rows[0]?.markMm ?? 0, 0.75 * ROUND, 1e-9);
  expectWithin(rows[1]?.markMm ?? 1, 0, 1e-9);
  expectWithin(rows[2]?.markMm ?? 1, 0, 1e-9);
  expectWithin(rows[3]?.markMm ?? 1, ROUND * (1 - 0.25 / 360), 1e-9);
});

test('after a clocking that is not recorded no mark is known, and the bends before keep theirs', () => {
  const marks = rowsOf(bend(80, 30, 10), straight(5), bend(80, 30, null), bend(80, 30, 10)).map(({ markMm }) => markMm);
  expect(marks[0]).not.toBeNull();
  expect(marks.slice(1)).toEqual([null, null, null]);
});

test('the outside of a pie-cut bend is its heels', () => {
  // 90 in 3 on CLR 80: half of a cut is 15 degrees, a heel is 2 (80 + 20) tan 15.
  const [row] = rowsOf(pieCut(80, 90, 0, 3));
  expectWithin(row?.outsideMm ?? 0, 3 * 2 * 100 * Math.tan(Math.PI / 12), 1e-9);
});

test('a joint is as far as the lesser of its two sides', () => {
  const states = ['welded', 'welded', 'tacked', 'tacked', 'cut', 'planned'] as const;
  const pieces = states.map((state) => ({ ...straight(10), state }));
  expect(rowsOf(...pieces).map(({ joint }) => joint)).toEqual(['welded', 'tacked', 'tacked', 'open', 'open', null]);
});

/** A line scribed along the tube: carried from direction to direction by the least turn between them, in small steps. */
function carried(line: Vector, from: Vector, to: Vector): Vector {
  const axis = cross(from, to);
  const sine = magnitude(axis);
  return sine < 1e-15 ? line : turnAbout(scale(axis, 1 / sine), line, Math.atan2(sine, dot(from, to)));
}

const bends = fc.record({
  clrMm: fc.double({ min: 50, max: 200, noNaN: true }),
  angleDeg: fc.double({ min: 1, max: 170, noNaN: true }),
  clockingDeg: fc.double({ min: -180, max: 180, noNaN: true }),
});

test('the mark is where the inside of the bend lies from a line scribed along the tube', () => {
  fc.assert(
    fc.property(fc.array(bends, { minLength: 1, maxLength: 6 }), (list) => {
      const pieces = list.map(({ clrMm, angleDeg, clockingDeg }) => bend(clrMm, angleDeg, clockingDeg));
      const { path } = traceFrom(primaryOf(pieces), DEFAULT_PORT);
      const rows = rowsOf(...pieces);
      let line = DEFAULT_PORT.normal;
      path.spans.forEach((span, at) => {
        if (span.kind !== 'arc') throw new Error('only bends were made');
        const insideDeg = degreesOf(turnBetweenRad(span.tangent, line, span.normal));
        const markDeg = (360 * (rows[at]?.markMm ?? Number.NaN)) / ROUND;
        const apart = ((((markDeg - insideDeg) % 360) + 540) % 360) - 180;
        expectWithinDeg(apart, 0, 1e-6);
        line = carried(line, span.tangent, path.joints[at + 1]?.tangent ?? span.tangent);
      });
    }),
  );
});

test('rows do not depend on the unit in which a tube was typed', () => {
  const primary = primaryOf([bend(76.2, 90, 45)]);
  const lengths = primary.pieces.map(pieceLength);
  const typed = sheetRows(primary, { ...TUBE, od: inches(1.75) }, lengths)[0]?.markMm ?? 0;
  expectWithin(typed, sheetRows(primary, { ...TUBE, od: millimetres(44.45) }, lengths)[0]?.markMm ?? 1, 1e-9);
});
