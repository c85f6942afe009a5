/** Paths against three's matrices, the OpenCascade kernel, and published tables of bends and dihedral angles. */

import { Vector3 } from 'three';
import { beforeAll, describe, expect, test } from 'vitest';
import { fromXyz } from '../../core/path/tables/from-xyz.ts';
import { pathLengthMm, tracePrimary } from '../../core/path/trace-primary.ts';
import {
  ALONG_X,
  bend,
  foundValue,
  primaryOf,
  randomPrimary,
  seededRandom,
  straight,
} from '../core/path/made-primaries.ts';
import { expectVector } from '../core/path/vector-tolerance.ts';
import { expectWithin, expectWithinDeg } from '../tolerance.ts';
import { kernelLengthMm, loadKernel, wireOf } from './geometry-kernel.ts';
import { endByMatrices } from './path-matrices.ts';

const radians = (deg: number) => (deg * Math.PI) / 180;

test('the end of 10,000 random primaries of up to 20 pieces is where matrices put it: 1e-9 mm, 1e-12 (seed 101)', () => {
  const random = seededRandom(101);
  for (let round = 0; round < 10_000; round += 1) {
    const primary = randomPrimary({ pieces: 1 + Math.floor(random() * 20), random, largestDeg: 360 });
    const end = foundValue(tracePrimary(primary, primary.port)).end;
    const expected = endByMatrices(primary.pieces, primary.port ?? ALONG_X);
    expectVector(end.point, expected.point, 1e-9);
    expectVector(end.tangent, expected.tangent, 1e-12);
    expectVector(end.normal, expected.normal, 1e-12);
  }
});

describe('the OpenCascade kernel', () => {
  beforeAll(loadKernel);

  test('a 60 straight and a 90 of CLR 76.2 are 179.694680 long', () => {
    const path = foundValue(tracePrimary(primaryOf([straight(60), bend(76.2, 90, 0)]), ALONG_X));
    expectWithin(kernelLengthMm(wireOf(path)), 60 + (76.2 * Math.PI) / 2, 1e-9);
    expectWithin(pathLengthMm(path), 60 + (76.2 * Math.PI) / 2, 1e-9);
  });

  test('measures 50 random paths as long as they are here (seed 103)', () => {
    const random = seededRandom(103);
    for (let round = 0; round < 50; round += 1) {
      const primary = randomPrimary({ pieces: 12, random });
      const path = foundValue(tracePrimary(primary, primary.port));
      expectWithin(kernelLengthMm(wireOf(path)), pathLengthMm(path), 1e-7);
    }
  });
});

/**
 * The rotation of a middle leg from four points: the dihedral angle of chemistry (IUPAC: 0 curls the same way, 180 is
 * reversed), so its published values check clocking and its sign. CLRs are small enough for any leg.
 */
function rotationOf(points: readonly (readonly [number, number, number])[]): number {
  const table = points.map(([xMm, yMm, zMm], index) => ({
    xMm,
    yMm,
    zMm,
    clrMm: index === 0 || index === points.length - 1 ? null : 1e-3,
  }));
  let made = 0;
  const newId = () => {
    made += 1;
    return `piece-${made}`;
  };
  const bends = foundValue(fromXyz({ points: table }, newId)).pieces.filter(({ kind }) => kind === 'bend');
  const second = bends[1];
  if (second === undefined || second.kind === 'straight') throw new Error('no second bend');
  return second.clockingDeg ?? Number.NaN;
}

describe('published dihedral angles', () => {
  // Eight points and four angles of the test suites of QCElemental, gemmi, tmol and the crate `dihedral` (docs.rs).
  const P = [
    [24.969, 13.428, 30.692],
    [24.044, 12.661, 29.808],
    [22.785, 13.482, 29.543],
    [21.951, 13.67, 30.431],
    [23.672, 11.328, 30.466],
    [22.881, 10.326, 29.62],
    [23.691, 9.935, 28.389],
    [22.557, 9.096, 30.459],
  ] as const;

  test.each([
    [[0, 1, 2, 3], -71.21515114671394],
    [[0, 1, 4, 5], -171.94319947953642],
    [[1, 4, 5, 6], 60.82226735264638],
    [[1, 4, 5, 7], -177.63641151521261],
  ])('points %j: %d, the same from the other end', (indices, expectedDeg) => {
    const points = indices.map((index) => P[index] ?? P[0]);
    expectWithinDeg(rotationOf(points), expectedDeg, 1e-9);
    expectWithinDeg(rotationOf([...points].reverse()), expectedDeg, 1e-9);
  });

  // gemmi's test after scitbx tst_math.
  test.each([
    [[1, 1, 0], 0],
    [[-1, 1, 0], 180],
    [[0, 1, -1], 90],
    [[0, 1, 1], -90],
  ] as const)('from (1,0,0) by the origin and (0,1,0) to %j: %d', (last, expectedDeg) => {
    const found = rotationOf([[1, 0, 0], [0, 0, 0], [0, 1, 0], last]);
    expectWithinDeg(Math.abs(expectedDeg) === 180 ? Math.abs(found) : found, expectedDeg, 1e-12);
  });

  // A public test of dihedral angles, with two of its coordinates changed in turn.
  test.each([
    [[3.2, -5.3, 2.5], [1.2, 4.3, 3.5], 135],
    [[3.2, 5.3, 2.5], [1.2, 4.3, 3.5], -45],
    [[3.2, 5.3, 2.5], [1.2, 4.3, 1.5], 45],
  ] as const)('from %j by (3.2,3.3,2.5) and (1.2,3.3,2.5) to %j: %d', (first, last, expectedDeg) => {
    expectWithinDeg(rotationOf([first, [3.2, 3.3, 2.5], [1.2, 3.3, 2.5], last]), expectedDeg, 1e-12);
  });

  test('the formula atan2(u2 . (n1 x n2), n1 . n2) over 2,000 random quadruples (seed 107)', () => {
    const random = seededRandom(107);
    const someplace = () => [random() * 100, random() * 100, random() * 100] as const;
    for (let round = 0; round < 2000; round += 1) {
      const points = [someplace(), someplace(), someplace(), someplace()];
      const [a, b, c] = points
        .slice(1)
        .map((point, index) => new Vector3(...point).sub(new Vector3(...(points[index] ?? point))).normalize());
      if (a === undefined || b === undefined || c === undefined) throw new Error('no legs');
      const [n1, n2] = [a.clone().cross(b), b.clone().cross(c)];
      // Legs that are nearly in one line have no plane to speak of.
      if (n1.length() < 0.05 || n2.length() < 0.05) continue;
      const expectedRad = Math.atan2(b.dot(n1.clone().cross(n2)), n1.dot(n2));
      const offRad = radians(rotationOf(points)) - expectedRad;
      expect(Math.abs(Math.atan2(Math.sin(offRad), Math.cos(offRad)))).toBeLessThan(1e-11);
    }
  });
});
