/** LRA and XYZ: both directions exact, the odd cases explained, and CSV that reads back to the same numbers. */

import { describe, expect, test } from 'vitest';
import type { Piece, Primary } from '../../../core/header/header.ts';
import { poseOfFrame } from '../../../core/path/frame.ts';
import type { LraTable, XyzPoint } from '../../../core/path/tables/bending-table.ts';
import { fromXyz } from '../../../core/path/tables/from-xyz.ts';
import { fromLra, toLra } from '../../../core/path/tables/lra.ts';
import { lraCsv, readLraCsv, readXyzCsv, xyzCsv } from '../../../core/path/tables/table-csv.ts';
import { toXyz } from '../../../core/path/tables/to-xyz.ts';
import { tracePrimary } from '../../../core/path/trace-primary.ts';
import { wrapDeg } from '../../../core/path/vector.ts';
import { expectWithin, expectWithinDeg } from '../../tolerance.ts';
import {
  ALONG_X,
  bend,
  foundValue,
  pieCut,
  primaryOf,
  problemOf,
  randomPrimary,
  seededRandom,
  straight,
} from './made-primaries.ts';
import { at, PUBLISHED_PIPE } from './published-pipe.ts';
import { expectVector } from './vector-tolerance.ts';

let made = 0;
const newId = () => {
  made += 1;
  return `new-${made}`;
};

/** The primary that an XYZ table turns into, at the port that the table gives it. */
function primaryFromXyz(points: readonly XyzPoint[]): Primary {
  const { port, pieces } = foundValue(fromXyz({ points }, newId));
  return primaryOf(pieces, { port: poseOfFrame(port, 'mm') });
}

describe('LRA', () => {
  test('straights in a row add up, and a bend right after another has length 0', () => {
    const primary = primaryOf([straight(10), straight(15), bend(80, 90, 20), bend(60, 45, -30), straight(5)]);
    const { table, notes } = foundValue(toLra(primary));
    expect(table).toEqual({
      rows: [
        { lengthMm: 25, rotationDeg: 20, angleDeg: 90, clrMm: 80 },
        { lengthMm: 0, rotationDeg: -30, angleDeg: 45, clrMm: 60 },
      ],
      lastLengthMm: 5,
    });
    expect(notes).toEqual([]);
  });

  test('a bend of 180 is no trouble, and a pie-cut bend is given as a bend and said', () => {
    const { table, notes } = foundValue(toLra(primaryOf([bend(80, 180, 0), pieCut(60, 90, 10, 4)])));
    expect(table.rows.map(({ angleDeg }) => angleDeg)).toEqual([180, 90]);
    expect(notes).toEqual([{ kind: 'pieCutAsBend', pieceNumber: 2 }]);
  });

  test('without a clocking there is no table', () => {
    const unknown = primaryOf([bend(80, 90, 0), bend(80, 90, null)]);
    expect(problemOf(toLra(unknown))).toMatchObject({ kind: 'pathUnknown', pieceNumber: 2 });
  });

  test.each([
    ['length', 'zeroOrMore', { lengthMm: -1 }],
    ['rotation', 'number', { rotationDeg: Number.NaN }],
    ['rotation', 'number', { rotationDeg: 361 }],
    ['angle', 'angle', { angleDeg: 0 }],
    ['angle', 'angle', { angleDeg: 400 }],
    ['clr', 'aboveZero', { clrMm: 0 }],
    ['clr', 'aboveZero', { clrMm: Number.POSITIVE_INFINITY }],
    ['length', 'zeroOrMore', { lengthMm: 1e308 }],
    ['length', 'zeroOrMore', { lengthMm: 1_000_000.1 }],
    ['clr', 'aboveZero', { clrMm: 1e308 }],
  ])('a row with a bad %s is refused and pointed at', (column, expected, bad) => {
    const row = { lengthMm: 10, rotationDeg: 0, angleDeg: 90, clrMm: 80 };
    const refused = fromLra({ rows: [row, { ...row, ...bad }], lastLengthMm: 0 }, newId);
    expect(problemOf(refused)).toMatchObject({ kind: 'tableCell', row: 2, column, expected });
  });

  test('there and back changes no path by more than 1e-9 mm (500 random, seed 41)', () => {
    const random = seededRandom(41);
    for (let round = 0; round < 500; round += 1) {
      const primary = randomPrimary({ pieces: 1 + Math.floor(random() * 20), random });
      const { table } = foundValue(toLra(primary));
      const back = { ...primary, pieces: foundValue(fromLra(table, newId)) };
      const [before, after] = [primary, back].map((one) => foundValue(tracePrimary(one, one.port)).end);
      if (before === undefined || after === undefined) throw new Error('no end');
      expectVector(after.point, before.point, 1e-9);
      expectVector(after.tangent, before.tangent, 1e-12);
      expect(foundValue(toLra(back)).table).toEqual(table);
    }
  });
});

describe('XYZ', () => {
  test('the published pipe of four legs gives its published LRA table', () => {
    const { table } = foundValue(toLra(primaryFromXyz(PUBLISHED_PIPE)));
    // The last length prints 5158.41 and computes 5158.419.
    [935.39, 8980, 1374, 5158.419].forEach((expected, index) => {
      expectWithin(table.rows[index]?.lengthMm ?? table.lastLengthMm, expected, 0.01);
    });
    expectWithinDeg(table.rows[1]?.rotationDeg ?? Number.NaN, 180, 0.005);
    expectWithinDeg(table.rows[2]?.rotationDeg ?? Number.NaN, 90.37, 0.005);
    for (const { angleDeg } of table.rows) expectWithinDeg(angleDeg, 90, 0.005);
  });

  test('the same points come back', () => {
    const primary = primaryFromXyz(PUBLISHED_PIPE);
    const { points } = foundValue(toXyz(primary, primary.port)).table;
    expect(points).toHaveLength(5);
    for (const [index, { xMm, yMm, zMm, clrMm }] of points.entries()) {
      const expected = PUBLISHED_PIPE[index] ?? at(0, 0, 0);
      expectVector({ x: xMm, y: yMm, z: zMm }, { x: expected.xMm, y: expected.yMm, z: expected.zMm }, 1e-9);
      expect(clrMm).toBe(expected.clrMm);
    }
  });

  test('a 180 is two 90s and says so; its end stays', () => {
    const primary = primaryOf([straight(50), bend(80, 180, 0), straight(30)]);
    const { table, notes } = foundValue(toXyz(primary, ALONG_X));
    expect(notes).toEqual([{ kind: 'bendSplit', pieceNumber: 2, angleDeg: 180, parts: 2 }]);
    const points = [at(0, 0, 0), at(130, 0, 0, 80), at(130, 0, 160, 80), at(20, 0, 160)];
    for (const [index, { xMm, yMm, zMm }] of table.points.entries()) {
      const { xMm: x, yMm: y, zMm: z } = points[index] ?? at(Number.NaN, 0, 0);
      expectVector({ x: xMm, y: yMm, z: zMm }, { x, y, z }, 1e-9);
    }
    const back = foundValue(toLra(primaryFromXyz(table.points))).table;
    expect(back.rows.map(({ angleDeg, lengthMm }) => [Math.round(angleDeg), Math.round(lengthMm)])).toEqual([
      [90, 50],
      [90, 0],
    ]);
  });

  test.each([
    [135, 1],
    [135.01, 2],
    [180, 2],
    [270, 2],
    [271, 3],
    [360, 3],
  ])('a bend of %d is listed in %i', (angleDeg, parts) => {
    const { table } = foundValue(toXyz(primaryOf([bend(80, angleDeg, 0)]), ALONG_X));
    expect(table.points).toHaveLength(parts + 2);
  });

  test('a point on the straight between its neighbours is left out and said', () => {
    const { pieces, notes } = foundValue(fromXyz({ points: [at(0, 0, 0), at(40, 0, 0, 80), at(100, 0, 0)] }, newId));
    expect(notes).toEqual([{ kind: 'pointOnStraight', point: 2 }]);
    expect(pieces).toHaveLength(1);
    expect(pieces[0]).toMatchObject({ kind: 'straight', length: { value: 100, unit: 'mm' } });
  });

  test.each([
    ['one point', [at(0, 0, 0)], { kind: 'tableTooShort', rows: 1 }],
    ['no point', [], { kind: 'tableTooShort', rows: 0 }],
    ['the same point twice', [at(0, 0, 0), at(9, 0, 0, 5), at(9, 0, 0)], { kind: 'samePoint', point: 3 }],
    ['straight back', [at(0, 0, 0), at(100, 0, 0, 80), at(50, 0, 0)], { kind: 'turnsBack', point: 2 }],
    ['no CLR', [at(0, 0, 0), at(100, 0, 0), at(100, 100, 0)], { kind: 'radiusMissing', point: 2 }],
    ['a CLR of zero', [at(0, 0, 0), at(100, 0, 0, 0), at(100, 100, 0)], { kind: 'radiusMissing', point: 2 }],
    ['a leg too short', [at(0, 0, 0), at(70, 0, 0, 80), at(70, 100, 0)], { kind: 'legTooShort', leg: 1 }],
    ['not a number', [at(0, 0, 0), at(Number.NaN, 0, 0, 5), at(9, 9, 0)], { kind: 'tableCell', row: 2 }],
  ])('%s is refused', (_what, points, expected) => {
    expect(problemOf(fromXyz({ points }, newId))).toMatchObject(expected);
  });

  test('a primary without pieces has no table', () => {
    expect(problemOf(toXyz(primaryOf([]), null))).toMatchObject({ kind: 'tableTooShort' });
  });

  test('there and back changes no path by more than 1e-9 mm (500 random of bends up to 180, seed 43)', () => {
    const random = seededRandom(43);
    for (let round = 0; round < 500; round += 1) {
      const primary = randomPrimary({ pieces: 1 + Math.floor(random() * 12), random, withPies: false });
      const { table } = foundValue(toXyz(primary, primary.port));
      if (
        table.points.length === 2 &&
        primary.pieces.every((piece) => piece.kind === 'straight' && piece.length.value === 0)
      )
        continue;
      const back = primaryFromXyz(table.points);
      const [before, after] = [primary, back].map((one) => foundValue(tracePrimary(one, one.port)));
      if (before === undefined || after === undefined) throw new Error('no path');
      expectVector(after.end.point, before.end.point, 1e-9);
      expectVector(after.joints[0]?.point ?? after.end.point, before.joints[0]?.point ?? before.end.point, 1e-9);
    }
  });

  test('LRA to XYZ to LRA gives the rows back (500 random, bends 5 to 120, CLR 30 to 120, seed 45)', () => {
    const random = seededRandom(45);
    for (let round = 0; round < 500; round += 1) {
      const rows = Array.from({ length: 1 + Math.floor(random() * 6) }, () => ({
        lengthMm: 1 + random() * 300,
        rotationDeg: random() * 360 - 180,
        angleDeg: 5 + random() * 115,
        clrMm: 30 + random() * 90,
      }));
      const table: LraTable = { rows, lastLengthMm: 1 + random() * 200 };
      const primary = primaryOf(foundValue(fromLra(table, newId)));
      const { points } = foundValue(toXyz(primary, ALONG_X)).table;
      const back = foundValue(toLra(primaryFromXyz(points))).table;
      expectWithin(back.lastLengthMm, table.lastLengthMm, 1e-8);
      expect(back.rows).toHaveLength(rows.length);
      for (const [index, row] of rows.entries()) {
        const found = back.rows[index] ?? { lengthMm: Number.NaN, rotationDeg: 0, angleDeg: 0, clrMm: 0 };
        expectWithin(found.lengthMm, row.lengthMm, 1e-8);
        expectWithinDeg(found.angleDeg, row.angleDeg, 1e-8);
        // Along x, up is z for both, so that the first rotation is kept as well.
        expectWithinDeg(wrapDeg(found.rotationDeg - row.rotationDeg), 0, 1e-8);
      }
    }
  });
});

test('a table of pieces keeps each piece planned and under a new id', () => {
  const pieces: readonly Piece[] = foundValue(
    fromLra({ rows: [{ lengthMm: 10, rotationDeg: 5, angleDeg: 90, clrMm: 80 }], lastLengthMm: 0 }, newId),
  );
  expect(pieces.map(({ kind, state }) => [kind, state])).toEqual([
    ['straight', 'planned'],
    ['bend', 'planned'],
  ]);
  expect(new Set(pieces.map(({ id }) => id)).size).toBe(2);
});

describe('the limits of the document', () => {
  test.each([
    ['x', { xMm: 1e308 }],
    ['y', { yMm: -1e308 }],
    ['z', { zMm: Number.NaN }],
    ['z', { zMm: Number.NEGATIVE_INFINITY }],
    ['clr', { clrMm: 1e308 }],
  ])('a point whose %s no header can hold is refused and pointed at', (column, bad) => {
    const points = [at(0, 0, 0), { ...at(500, 0, 0, 80), ...bad }, at(500, 500, 0)];
    expect(problemOf(fromXyz({ points }, newId))).toMatchObject({ kind: 'tableCell', row: 2, column });
  });

  test('500 bends are written as points and read back as 500 bends', () => {
    const bends = Array.from({ length: 500 }, (_, index) => bend(50, 10, index % 2 === 0 ? 0 : 180));
    const points = foundValue(toXyz(primaryOf(bends), null)).table.points;
    expect(points.length).toBe(502);
    const read = foundValue(fromXyz(foundValue(readXyzCsv(xyzCsv({ points }))), newId));
    expect(read.pieces.length).toBe(500);
    const lra = foundValue(toLra(primaryOf(bends))).table;
    expect(foundValue(fromLra(foundValue(readLraCsv(lraCsv(lra))), newId)).length).toBe(500);
  });

  test('what could not be read back is not written', () => {
    // 251 bends of 180 are listed as 502; each straight between two is one more piece.
    const turns = Array.from({ length: 251 }, () => bend(50, 180, 90));
    expect(problemOf(toXyz(primaryOf(turns), null))).toMatchObject({ kind: 'tableTooLong', limit: 502 });
    const spaced = Array.from({ length: 249 }, () => [bend(50, 180, 90), straight(10)]).flat();
    expect(problemOf(toXyz(primaryOf(spaced), null))).toMatchObject({ kind: 'tableTooLong', limit: 500 });
    // Two straights in a row are one in a table, here of two kilometres.
    const far = primaryOf([straight(1e6), straight(1e6), bend(50, 90, 0)]);
    expect(problemOf(toLra(far))).toMatchObject({ kind: 'tableCell', table: 'lra', column: 'length' });
    expect(problemOf(toXyz(far, null))).toMatchObject({ kind: 'tableCell', table: 'xyz', column: 'y' });
  });
});
