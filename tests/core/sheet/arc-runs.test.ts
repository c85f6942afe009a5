/** Points as arcs: few of them, and never far from the points. */

import fc from 'fast-check';
import { expect, test } from 'vitest';
import { ARC_MM, arcRuns, type BulgePoint } from '../../../core/sheet/strips/arc-runs.ts';
import { sampleCurve } from '../../../core/sheet/strips/sample-curve.ts';
import { at, type StripPoint } from '../../../core/sheet/strips/strip.ts';
import { expectWithin } from '../../tolerance.ts';

/** Points along the arc of a bulge, as DXF has it: a quarter of the angle's tangent, positive to the left. */
function alongBulge(a: BulgePoint, b: StripPoint, count: number): readonly StripPoint[] {
  const angle = 4 * Math.atan(a.bulge);
  const [dx, dy] = [b.xMm - a.xMm, b.yMm - a.yMm];
  if (Math.abs(angle) < 1e-12) {
    return Array.from({ length: count + 1 }, (_, part) => at(a.xMm + (dx * part) / count, a.yMm + (dy * part) / count));
  }
  const away = Math.hypot(dx, dy) / (2 * Math.tan(angle / 2));
  const length = Math.hypot(dx, dy);
  const centre = { x: (a.xMm + b.xMm) / 2 - (dy / length) * away, y: (a.yMm + b.yMm) / 2 + (dx / length) * away };
  const radius = Math.hypot(a.xMm - centre.x, a.yMm - centre.y);
  const start = Math.atan2(a.yMm - centre.y, a.xMm - centre.x);
  return Array.from({ length: count + 1 }, (_, part) => {
    const turn = start + (angle * part) / count;
    return at(centre.x + radius * Math.cos(turn), centre.y + radius * Math.sin(turn));
  });
}

test('a quarter of a circle, either way round, is one arc', () => {
  for (const way of [1, -1]) {
    const points = sampleCurve((turn) => at(50 * Math.cos(way * turn), 50 * Math.sin(way * turn)), [0, Math.PI / 2]);
    const runs = arcRuns(points);
    expect(runs).toHaveLength(2);
    expectWithin(runs[0]?.bulge ?? 0, way * Math.tan(Math.PI / 8), 1e-4);
  }
});

test('a straight run is one straight', () => {
  const runs = arcRuns([at(0, 0), at(1, 1), at(2, 2), at(5, 5)]);
  expect(runs).toHaveLength(2);
  expectWithin(runs[0]?.bulge ?? 1, 0, 1e-12);
});

test('arcs stay with a wavy curve, begin and end where it does, and are far fewer than its points', () => {
  fc.assert(
    fc.property(
      fc.double({ min: 1, max: 40, noNaN: true }),
      fc.double({ min: 10, max: 60, noNaN: true }),
      (highMm, radiusMm) => {
        const curve = (turn: number) => at(radiusMm * turn, highMm * Math.abs(Math.cos(turn)));
        const points = sampleCurve(curve, [0, 2 * Math.PI]);
        const runs = arcRuns(points);
        expect(runs[0]).toMatchObject(points[0] ?? {});
        expect(runs.at(-1)).toMatchObject(points.at(-1) ?? {});
        expect(runs.length).toBeLessThan(points.length / 2);
        runs.slice(0, -1).forEach((run, index) => {
          for (const { xMm, yMm } of alongBulge(run, runs[index + 1] ?? run, 8)) {
            const nearest = Math.min(
              ...Array.from({ length: 201 }, (_, step) => {
                const { xMm: x, yMm: y } = curve(xMm / radiusMm + ((step - 100) / 100) * 0.02);
                return Math.hypot(x - xMm, y - yMm);
              }),
            );
            // The search for the nearest point of the curve is itself this coarse.
            expect(nearest).toBeLessThan(ARC_MM + 0.002 + 2e-4 * (radiusMm + highMm));
          }
        });
      },
    ),
    { numRuns: 10 },
  );
});
