/** Laws of paths: closed figures close, pie cuts end where bends do, and nothing is known without clockings. */

import { describe, expect, test } from 'vitest';
import type { Piece } from '../../../core/header/header.ts';
import { pathLengthMm, pointAt, traceAsFarAsKnown, tracePrimary } from '../../../core/path/trace-primary.ts';
import { cross, distance } from '../../../core/path/vector.ts';
import { expectWithin } from '../../tolerance.ts';
import {
  ALONG_X,
  bend,
  foundValue,
  pathOf,
  pieCut,
  poseAt,
  primaryOf,
  problemOf,
  straight,
  UP_Z,
} from './made-primaries.ts';
import { expectVector } from './vector-tolerance.ts';

const ORIGIN = { x: 0, y: 0, z: 0 };
const X = { x: 1, y: 0, z: 0 };

function repeated(count: number, pieces: (index: number) => readonly Piece[]): readonly Piece[] {
  return Array.from({ length: count }, (_, index) => pieces(index)).flat();
}

describe('the convention', () => {
  test('a first bend clocked 0 curls towards up, 90 to the right, 180 down', () => {
    expectVector(pathOf([bend(100, 90, 0)]).end.point, { x: 100, y: 0, z: 100 }, 1e-9);
    // Right-hand rule along +x takes up (z) towards -y, the right-hand side.
    expectVector(pathOf([bend(100, 90, 90)]).end.point, { x: 100, y: -100, z: 0 }, 1e-9);
    expectVector(pathOf([bend(100, 90, 180)]).end.point, { x: 100, y: 0, z: -100 }, 1e-9);
  });

  test('a bend clocked 0 from the one before curls the same way, 180 reverses it', () => {
    expectVector(pathOf([bend(100, 90, 0), bend(100, 90, 0)]).end.tangent, { x: -1, y: 0, z: 0 }, 1e-12);
    expectVector(pathOf([bend(100, 90, 0), bend(100, 90, 180)]).end.tangent, X, 1e-12);
  });

  test('without a port the tube starts at the origin, outboard, with up upwards', () => {
    expectVector(pathOf([straight(50), bend(100, 90, 0)], null).end.point, { x: 0, y: 150, z: 100 }, 1e-9);
  });

  test('a leaning up is made square to the direction', () => {
    const leaning = poseAt(ORIGIN, { x: 3, y: 0, z: 0 }, { x: 5, y: 0, z: 2 });
    expectVector(pathOf([bend(100, 90, 0)], leaning).end.point, { x: 100, y: 0, z: 100 }, 1e-9);
  });

  test('there is a joint at the port and after every piece, also after a straight of zero', () => {
    const { joints, end, spans } = pathOf([straight(0), bend(80, 45, 10), straight(30)]);
    expect(joints).toHaveLength(4);
    expect(spans).toHaveLength(3);
    expectVector(joints[1]?.point ?? X, ORIGIN, 0);
    expect(joints[3]).toEqual(end);
  });
});

describe('figures that must close on themselves within 1e-9 mm', () => {
  test('a rounded rectangle', () => {
    const { end } = pathOf([
      straight(100),
      bend(50, 90, 0),
      straight(30),
      bend(50, 90, 0),
      straight(100),
      bend(50, 90, 0),
      straight(30),
      bend(50, 90, 0),
    ]);
    expectVector(end.point, ORIGIN, 1e-9);
    expectVector(end.tangent, X, 1e-12);
    expectVector(end.normal, UP_Z, 1e-12);
  });

  test.each([3, 5, 6, 8, 12, 36])('a regular rounded polygon of %i corners', (corners) => {
    const { end } = pathOf(repeated(corners, () => [straight(70), bend(40, 360 / corners, 0)]));
    expectVector(end.point, ORIGIN, 1e-9);
    expectVector(end.tangent, X, 1e-12);
  });

  test.each([2, 4, 9, 16])('a full circle from four bends pie-cut in %i', (pies) => {
    const { end } = pathOf(repeated(4, () => [pieCut(76.2, 90, 0, pies)]));
    expectVector(end.point, ORIGIN, 1e-9);
    expectVector(end.tangent, X, 1e-12);
  });

  test('a full circle as one bend, and as one pie-cut bend', () => {
    expectVector(pathOf([bend(76.2, 360, 25)]).end.point, ORIGIN, 1e-9);
    expectVector(pathOf([pieCut(76.2, 360, 25, 12)]).end.point, ORIGIN, 1e-9);
  });

  test('an S and its way back', () => {
    const pieces = [straight(40), bend(60, 50, 0), straight(20), bend(60, 50, 180), straight(40)];
    const turn = [bend(90, 180, 0)];
    const offset = pathOf(pieces).end;
    expectVector(offset.tangent, X, 1e-12);
    const back = [...pieces, ...turn, ...pieces, ...turn];
    expectVector(
      pathOf(back.map((piece, index) => clockedForReturn(piece, index, pieces.length))).end.point,
      ORIGIN,
      1e-9,
    );
  });
});

/** The last bend of each S curls down, so the U-turns and second S are clocked from there to stay in one plane. */
function clockedForReturn(piece: Piece, index: number, length: number): Piece {
  if (piece.kind === 'straight') return piece;
  const isTurn = index === length || index === 2 * length + 1;
  const isFirstOfReturn = index === length + 2;
  if (isTurn) return { ...piece, clockingDeg: 0 };
  return isFirstOfReturn ? { ...piece, clockingDeg: 180 } : piece;
}

describe('known bends', () => {
  test('45 + 45 and 30 + 30 + 30 with nothing between are a 90 (identity B-26)', () => {
    const whole = pathOf([bend(76.2, 90, 35)]);
    for (const parts of [2, 3]) {
      const split = pathOf(repeated(parts, (index) => [bend(76.2, 90 / parts, index === 0 ? 35 : 0)]));
      expectVector(split.end.point, whole.end.point, 1e-9);
      expectWithin(pathLengthMm(split), pathLengthMm(whole), 1e-9);
    }
  });

  // ASME B16.9 long-radius 180 returns, NPS 1 to 8: centre to centre O, back to face K (wermac.org/fittings/dim_elbows_c.html).
  test.each([
    // The back-to-face of NPS 1 prints 56 where CLR + OD/2 is 54.8: not geometry, so it is left out.
    [1, 33.4, 76, null],
    [2, 60.3, 152, 106],
    [3, 88.9, 229, 159],
    [4, 114.3, 305, 210],
    [6, 168.3, 457, 313],
    [8, 219.1, 610, 414],
  ])('a 180 return of NPS %i moves the axis by twice its CLR', (nps, odMm, centreMm, backMm) => {
    const clrMm = 1.5 * nps * 25.4;
    const path = pathOf([bend(clrMm, 180, 0)]);
    expectWithin(distance(path.end.point, ORIGIN), centreMm, 0.6);
    const [arc] = path.spans;
    if (arc === undefined) throw new Error('no span');
    if (backMm !== null) expectWithin(pointAt(arc, 0.5).x + odMm / 2, backMm, 0.6);
  });

  // Cosecant multipliers of conduit tables (azsage.com): travel between the corners of an offset for each unit aside.
  test.each([
    [10, 5.76],
    [15, 3.86],
    [22.5, 2.61],
    [25, 2.37],
    [30, 2],
    // biome-ignore lint/suspicious/noApproximativeNumericConstant: as the table prints it
    [45, 1.414],
    [60, 1.15],
  ])('an offset of two bends of %d degrees travels %d times as far as it goes aside', (angleDeg, multiplier) => {
    const [clrMm, straightMm] = [76.2, 400];
    const { end } = pathOf([bend(clrMm, angleDeg, 0), straight(straightMm), bend(clrMm, angleDeg, 180)]);
    const cornerToCornerMm = straightMm + 2 * clrMm * Math.tan((angleDeg * Math.PI) / 360);
    expectVector(end.tangent, X, 1e-12);
    expectWithin(cornerToCornerMm / end.point.z, multiplier, 0.005);
  });

  test('a rolling offset of two 45s: true offset and travel (602apprentice.blogspot.com, rise 30 5/8, roll 17 5/8)', () => {
    const [riseMm, rollMm] = [30.625 * 25.4, 17.625 * 25.4];
    const offsetMm = Math.hypot(riseMm, rollMm);
    expectWithin(offsetMm / 25.4, 35.334561692485, 1e-9);
    const clrMm = 150;
    const travelMm = offsetMm * Math.SQRT2;
    expectWithin(travelMm / 25.4, 49.97062, 5e-6);
    // Roll angle: tan = roll / rise (machinecalcs.com), computed.
    const rollDeg = (Math.atan2(rollMm, riseMm) * 180) / Math.PI;
    expectWithin(rollDeg, 29.92087, 1e-4);
    const setbackMm = clrMm * Math.tan(Math.PI / 8);
    const { end } = pathOf([bend(clrMm, 45, rollDeg), straight(travelMm - 2 * setbackMm), bend(clrMm, 45, 180)]);
    expectWithin(end.point.z, riseMm, 1e-9);
    expectWithin(end.point.y, -rollMm, 1e-9);
    expectVector(end.tangent, X, 1e-12);
  });

  test('a pie-cut bend ends as the smooth one does and is longer, by 1.0131 for a 90 of 4 (computed: 8 tan(11.25) / (pi/2))', () => {
    const smooth = pathOf([bend(76.2, 90, 20)]);
    const pies = pathOf([pieCut(76.2, 90, 20, 4)]);
    expectVector(pies.end.point, smooth.end.point, 1e-9);
    expectVector(pies.end.normal, smooth.end.normal, 1e-12);
    expect(pies.spans).toHaveLength(5);
    expectWithin(pathLengthMm(pies) / pathLengthMm(smooth), 1.013052, 1e-6);
  });
});

describe('what is not known or cannot be', () => {
  test('a bend without clocking stops the path and is named', () => {
    const primary = primaryOf([straight(10), bend(80, 90, 0), bend(80, 45, null), straight(5)], { name: '3' });
    const problem = problemOf(tracePrimary(primary, ALONG_X));
    expect(problem).toMatchObject({
      kind: 'pathUnknown',
      primaryName: '3',
      pieceNumber: 3,
      pieceId: primary.pieces[2]?.id,
    });
    const { path } = foundValue(traceAsFarAsKnown(primary, ALONG_X));
    expect(path.spans).toHaveLength(2);
    expectVector(path.end.point, { x: 90, y: 0, z: 80 }, 1e-9);
  });

  test('a first bend needs its clocking with a port, and none without', () => {
    const primary = primaryOf([bend(80, 90, null), bend(80, 45, 30)]);
    expect(problemOf(tracePrimary(primary, ALONG_X))).toMatchObject({ kind: 'pathUnknown', pieceNumber: 1 });
    const free = foundValue(tracePrimary(primary, null)).end;
    expectVector(free.point, pathOf([bend(80, 90, 0), bend(80, 45, 30)], null).end.point, 1e-12);
  });

  test('a primary without pieces ends at its port', () => {
    expectVector(pathOf([]).end.point, ORIGIN, 0);
  });

  test.each([
    [1, 180],
    [1, 270],
    [2, 360],
  ])('%i pies cannot make a bend of %i degrees', (pies, angleDeg) => {
    const problem = problemOf(tracePrimary(primaryOf([pieCut(80, angleDeg, 0, pies)]), null));
    expect(problem).toMatchObject({ kind: 'tooFewPies', pies, angleDeg });
  });

  test.each([
    ['length', straight(Number.NaN)],
    ['length', straight(-1)],
    ['clr', bend(0, 90, 0)],
    ['clr', bend(Number.POSITIVE_INFINITY, 90, 0)],
    ['angleDeg', bend(80, 0, 0)],
    ['angleDeg', bend(80, 361, 0)],
    ['angleDeg', bend(80, Number.NaN, 0)],
    ['clockingDeg', bend(80, 90, Number.NaN)],
    ['pies', pieCut(80, 90, 0, 2.5)],
  ])('an impossible %s is refused and named', (field, piece) => {
    expect(problemOf(tracePrimary(primaryOf([piece]), null))).toMatchObject({
      kind: 'impossiblePiece',
      field,
      pieceNumber: 1,
    });
  });

  test.each([
    ['poseZeroDirection', 'direction', ORIGIN, UP_Z],
    ['poseZeroDirection', 'up', X, ORIGIN],
    ['poseNotFinite', 'direction', { x: Number.NaN, y: 0, z: 0 }, UP_Z],
    ['poseNotFinite', 'up', X, { x: 0, y: Number.POSITIVE_INFINITY, z: 0 }],
    ['poseUpParallel', 'up', X, { x: -2, y: 0, z: 0 }],
    ['poseUpParallel', 'up', X, { x: 1, y: 1e-6, z: 0 }],
  ])('a port pose refused as %s points at its %s', (kind, field, direction, up) => {
    const problem = problemOf(tracePrimary(primaryOf([straight(10)]), poseAt(ORIGIN, direction, up)));
    expect(problem).toMatchObject({ kind, path: ['primaries', 'primary', 'port', field] });
  });

  test('a place that is not finite is refused', () => {
    const pose = poseAt({ x: Number.NaN, y: 0, z: 0 }, X, UP_Z);
    expect(problemOf(tracePrimary(primaryOf([]), pose))).toMatchObject({ kind: 'poseNotFinite' });
  });

  test('directions of any length are taken, and an up a hair off parallel too', () => {
    for (const size of [1e-12, 1e-3, 1e6]) {
      const pose = poseAt(ORIGIN, { x: size, y: 0, z: 0 }, { x: size, y: 0, z: size * 1e-4 });
      expectVector(cross(pathOf([], pose).end.tangent, pathOf([], pose).end.normal), { x: 0, y: -1, z: 0 }, 1e-9);
    }
  });
});
