/** Least distances against dense sampling and against the OpenCascade kernel. */

import { beforeAll, describe, expect, test } from 'vitest';
import { clearanceBetween } from '../../core/path/clearance/clearance.ts';
import type { Frame } from '../../core/path/frame.ts';
import {
  pathLengthMm,
  pointAt,
  type Span,
  type TubePath,
  traceFrom,
  tracePrimary,
} from '../../core/path/trace-primary.ts';
import type { Vector } from '../../core/path/vector.ts';
import { bend, foundValue, primaryOf, randomPrimary, seededRandom, straight } from '../core/path/made-primaries.ts';
import { expectVector } from '../core/path/vector-tolerance.ts';
import { expectWithin } from '../tolerance.ts';
import { kernelDistanceMm, loadKernel, wireOf } from './geometry-kernel.ts';

const isLong = process.env['EVENRUN_LONG'] === '1';

/** Distance from a point to a line or an arc in closed form, written apart from the program's own search. */
function pointToSpanMm(point: Vector, span: Span): number {
  if (span.kind === 'line') {
    const along =
      (point.x - span.start.x) * span.tangent.x +
      (point.y - span.start.y) * span.tangent.y +
      (point.z - span.start.z) * span.tangent.z;
    const held = Math.min(span.lengthMm, Math.max(0, along));
    const { start, tangent } = span;
    return Math.hypot(
      point.x - start.x - tangent.x * held,
      point.y - start.y - tangent.y * held,
      point.z - start.z - tangent.z * held,
    );
  }
  const { centre, normal, tangent, clrMm } = span;
  const from = { x: point.x - centre.x, y: point.y - centre.y, z: point.z - centre.z };
  const across = -(from.x * normal.x + from.y * normal.y + from.z * normal.z);
  const along = from.x * tangent.x + from.y * tangent.y + from.z * tangent.z;
  const above = Math.sqrt(Math.max(0, from.x ** 2 + from.y ** 2 + from.z ** 2 - across ** 2 - along ** 2));
  const turn = (Math.atan2(along, across) + 2 * Math.PI) % (2 * Math.PI);
  if (turn <= (span.angleDeg * Math.PI) / 180) return Math.hypot(Math.hypot(across, along) - clrMm, above);
  const toEnd = ({ x, y, z }: Vector) => Math.hypot(point.x - x, point.y - y, point.z - z);
  return Math.min(toEnd(span.start), toEnd(span.end));
}

/** The least of many samples along `a`, each measured exactly to `b`: at most half a step too long, never too short. */
function sampledMm(a: TubePath, b: TubePath, samples: number): { readonly leastMm: number; readonly stepMm: number } {
  const lengthMm = pathLengthMm(a);
  let leastMm = Number.POSITIVE_INFINITY;
  let stepMm = 0;
  for (const span of a.spans) {
    const count = span.lengthMm > 0 ? Math.ceil((samples * span.lengthMm) / lengthMm) : 1;
    stepMm = Math.max(stepMm, span.lengthMm / count);
    for (let i = 0; i <= count; i += 1) {
      const point = pointAt(span, i / count);
      for (const other of b.spans) leastMm = Math.min(leastMm, pointToSpanMm(point, other));
    }
  }
  return { leastMm, stepMm };
}

function randomPair(random: () => number): readonly [TubePath, TubePath] {
  const one = () => {
    const primary = randomPrimary({ pieces: 1 + Math.floor(random() * 6), random });
    return foundValue(tracePrimary(primary, primary.port));
  };
  return [one(), one()];
}

const [PAIRS, SAMPLES] = isLong ? [1000, 100_000] : [150, 5000];

test(`${PAIRS} random pairs: never above ${SAMPLES} samples, and below by no more than their step (seed 201)`, {
  timeout: 900_000,
}, () => {
  const random = seededRandom(201);
  for (let round = 0; round < PAIRS; round += 1) {
    const [a, b] = randomPair(random);
    const found = clearanceBetween(a, 0, b, 0);
    const { leastMm, stepMm } = sampledMm(a, b, SAMPLES);
    if (found === null) throw new Error('nothing to compare');
    // Rounding of the closed form: about 1e-16 of the coordinates squared, under the root.
    expect(found.gapMm).toBeLessThanOrEqual(leastMm + 1e-6);
    expect(found.gapMm).toBeGreaterThanOrEqual(leastMm - stepMm / 2 - 1e-6);
  }
});

describe('a pair with bends in every plane', () => {
  const start = (point: Vector, normal: Vector): Frame => ({ point, tangent: { x: 0, y: 0, z: 1 }, normal });
  const a = traceFrom(
    primaryOf([straight(60), bend(76.2, 90, 0), straight(40), bend(76.2, 60, 35), straight(80)]),
    start({ x: 0, y: 0, z: 0 }, { x: 0, y: 1, z: 0 }),
  ).path;
  const b = traceFrom(
    primaryOf([straight(25), bend(63.5, 75, 0), straight(110), bend(76.2, 90, -50), straight(40)]),
    start({ x: 70, y: -20, z: 10 }, { x: -0.6, y: 0.8, z: 0 }),
  ).path;
  beforeAll(loadKernel);

  // Computed with OpenCascade (BRepExtrema through replicad 1.1.0) and by sampling with refinement.
  test('lengths, end and least distance are the computed ones', () => {
    expectWithin(pathLengthMm(a), 379.491133503, 1e-9);
    expectWithin(pathLengthMm(b), 377.815985728, 1e-9);
    expectVector(a.end.point, { x: -61.591803, y: 222.191136, z: 48.237789 }, 1e-6);
    expectVector(a.end.tangent, { x: -0.496731765, y: 0.5, z: -0.70940648 }, 1e-8);
    const found = clearanceBetween(a, 0, b, 0);
    expectWithin(found?.gapMm ?? Number.NaN, 13.994423099, 1e-9);
    expectVector(found?.centreA ?? a.end.point, { x: -28.9566, y: 189.3413, z: 94.8456 }, 1e-4);
    expectVector(found?.centreB ?? a.end.point, { x: -32.5188, y: 199.1025, z: 104.2197 }, 1e-4);
  });

  test('the kernel measures the same here and now', () => {
    expectWithin(kernelDistanceMm(wireOf(a), wireOf(b)), 13.994423099, 1e-9);
  });

  test('and on 25 random pairs (seed 203)', () => {
    const random = seededRandom(203);
    for (let round = 0; round < 25; round += 1) {
      const [one, two] = randomPair(random);
      if (pathLengthMm(one) < 1 || pathLengthMm(two) < 1) continue;
      const found = clearanceBetween(one, 0, two, 0)?.gapMm ?? Number.NaN;
      // The kernel's own least is found by iteration; it may miss a hollow, but never goes below the truth.
      const kernelMm = kernelDistanceMm(wireOf(one), wireOf(two));
      expect(found).toBeLessThanOrEqual(kernelMm + 1e-6);
      expectWithin(found, kernelMm, 1e-4);
    }
  });
});
