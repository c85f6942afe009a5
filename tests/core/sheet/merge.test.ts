/** Merges: the published angle of the cut, circles and holes, and every point on its plane. */

import fc from 'fast-check';
import { expect, test } from 'vitest';
import {
  checkMerge,
  circleRoundTubesMm,
  holeBetweenTubesMm2,
  type Merge,
  mergeCutDeg,
  mergeMm,
  outletHeightMm,
} from '../../../core/sheet/strips/merge.ts';
import { mergeStrip } from '../../../core/sheet/strips/merge-strip.ts';
import { radiansOf } from '../../../core/units/angle.ts';
import { expectWithin, expectWithinDeg } from '../../tolerance.ts';

// J-1, computed two ways: asin(sin a sin(180/N)), and the angle between an axis and its plane below.
test.each([
  [2, 7.5, 7.5],
  [2, 10, 10],
  [2, 15, 15],
  [3, 7.5, 6.4905],
  [3, 10, 8.6492],
  [3, 15, 12.9525],
  [4, 7.5, 5.2957],
  [4, 10, 7.053],
  [4, 15, 10.5453],
])('J-1: %d tubes leaning %d meet at %d degrees', (tubes, lean, expected) => {
  expectWithinDeg(mergeCutDeg(tubes, lean), expected, 1e-4);
});

test('J-2: the circle round touching tubes, and the hole between them', () => {
  expectWithin(circleRoundTubesMm(2, 1), 2, 1e-12);
  expectWithin(circleRoundTubesMm(3, 1), 2.1547, 1e-5);
  expectWithin(circleRoundTubesMm(4, 1), 2.41421, 5e-6);
  expectWithin(holeBetweenTubesMm2(3, 1), 0.0403136, 5e-8);
  expectWithin(holeBetweenTubesMm2(4, 1), 0.2146018, 5e-8);
  expectWithin(holeBetweenTubesMm2(2, 1), 0, 0);
});

const merges = fc
  .record({
    tubes: fc.constantFrom(2 as const, 3 as const, 4 as const),
    odMm: fc.double({ min: 20, max: 100, noNaN: true }),
    leanDeg: fc.double({ min: 3, max: 40, noNaN: true }),
    share: fc.double({ min: 0, max: 0.99, noNaN: true }),
  })
  .map(({ share, ...merge }): Merge => {
    const widest = circleRoundTubesMm(merge.tubes, merge.odMm);
    return { ...merge, outletOdMm: merge.odMm + share * (widest - merge.odMm) };
  });

/** The collector's axis is z, its flow upwards; the tube comes from the side of x. */
function wrappedBack(merge: Merge, turnRad: number): readonly [x: number, y: number, z: number] {
  const lean = radiansOf(merge.leanDeg);
  const along = mergeMm(merge, turnRad);
  const [out, across] = [(merge.odMm / 2) * Math.cos(turnRad), (merge.odMm / 2) * Math.sin(turnRad)];
  return [along * Math.sin(lean) + out * Math.cos(lean), across, -along * Math.cos(lean) + out * Math.sin(lean)];
}

test('every point of a merge lies on the tube, and on the plane to a neighbour or on the square end', () => {
  fc.assert(
    fc.property(merges, fc.double({ min: -Math.PI, max: Math.PI, noNaN: true }), (merge, turnRad) => {
      const [x, y, z] = wrappedBack(merge, turnRad);
      const lean = radiansOf(merge.leanDeg);
      // Distance from the tube's axis, which leans by the angle.
      const along = x * Math.sin(lean) - z * Math.cos(lean);
      const off = Math.hypot(x - along * Math.sin(lean), y, z + along * Math.cos(lean));
      expectWithin(off, merge.odMm / 2, 1e-9);
      const half = Math.PI / merge.tubes;
      const toPlane = x * Math.sin(half) - Math.abs(y) * Math.cos(half);
      const toEnd = outletHeightMm(merge) - z;
      expectWithin(Math.min(toPlane, toEnd), 0, 1e-8);
    }),
    { numRuns: 2000 },
  );
});

test('at the square end the outer walls are as far apart as the outlet is wide', () => {
  fc.assert(
    fc.property(merges, (merge) => {
      const lean = radiansOf(merge.leanDeg);
      // The tube's outer wall is a straight line at x = r cos a + s sin a, z = r sin a - s cos a.
      const s = ((merge.odMm / 2) * Math.sin(lean) - outletHeightMm(merge)) / Math.cos(lean);
      const x = (merge.odMm / 2) * Math.cos(lean) + s * Math.sin(lean);
      expectWithin(2 * x, merge.outletOdMm, 1e-9);
    }),
  );
});

test('a strip is as wide as the tube is round, and starts at its edge', () => {
  const made = mergeStrip({ tubes: 4, odMm: 44.45, leanDeg: 10, outletOdMm: 76.2 }, { kind: 'fraction', per: 16 });
  if (!made.ok) throw new Error('was refused');
  expectWithin(made.value.widthMm, Math.PI * 44.45, 1e-9);
  const saw = made.value.lines.find(({ use }) => use === 'saw')?.points ?? [];
  expectWithin(Math.min(...saw.map(({ yMm }) => yMm)), 0, 1e-12);
  expectWithin(saw[0]?.yMm ?? Number.NaN, saw.at(-1)?.yMm ?? Number.NaN, 1e-9);
});

test.each([
  [{ tubes: 4, odMm: 40, leanDeg: 1, outletOdMm: 60 }, 'stripFigure'],
  [{ tubes: 4, odMm: 0, leanDeg: 10, outletOdMm: 60 }, 'stripFigure'],
  [{ tubes: 4, odMm: 40, leanDeg: 10, outletOdMm: 39 }, 'mergeOutlet'],
  [{ tubes: 2, odMm: 40, leanDeg: 10, outletOdMm: 80 }, 'mergeOutlet'],
] as const)('what cannot be is refused: %o', (merge, kind) => {
  const checked = checkMerge(merge);
  expect(checked.ok ? 'taken' : checked.problems[0]?.kind).toBe(kind);
});
