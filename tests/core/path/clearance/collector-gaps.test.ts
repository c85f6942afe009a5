/** Tubes that meet at a collector: the meeting, how far back it goes, and what it must not hide. */

import { describe, expect, test } from 'vitest';
import type { Pose, Primary } from '../../../../core/header/header.ts';
import { runThrough } from '../../../../core/moves/search-in-slices.ts';
import { tubeBody } from '../../../../core/path/clearance/clearance.ts';
import {
  APPROACH_DIAMETERS,
  approachMm as approachInSteps,
  collectorGaps,
  distanceToPath,
} from '../../../../core/path/clearance/collector-gaps.ts';
import { placeOn } from '../../../../core/path/clearance/settle-nearest.ts';
import { tracePrimary } from '../../../../core/path/trace-primary.ts';
import { distance, type Vector, vector } from '../../../../core/path/vector.ts';
import { expectWithin } from '../../../tolerance.ts';
import { bend, poseAt, primaryOf, randomPrimary, seededRandom, straight, UP_Z } from '../made-primaries.ts';

const OD_MM = 40;

function bodyOf(pieces: Primary['pieces'], port: Pose) {
  const path = tracePrimary(primaryOf(pieces), port);
  if (!path.ok) throw new Error(JSON.stringify(path.problems));
  return tubeBody(path.value, OD_MM);
}

function approachMm(...asked: Parameters<typeof approachInSteps>): number {
  return runThrough(approachInSteps(...asked));
}

function alongX(y: number, pieces: Primary['pieces'], aimDeg = 0) {
  const aim = (aimDeg / 180) * Math.PI;
  return bodyOf(pieces, poseAt({ x: 0, y, z: 0 }, { x: Math.cos(aim), y: Math.sin(aim), z: 0 }, UP_Z));
}

describe('two straights of OD 40 that run together at an angle', () => {
  // Both aim at the point 1000 mm ahead on the x axis, from 100 mm either side, and stop after 980 mm.
  const halfAngle = Math.atan(100 / 1000);
  const degrees = (halfAngle / Math.PI) * 180;
  const left = alongX(100, [straight(980)], -degrees);
  const right = alongX(-100, [straight(980)], degrees);

  test('are on their approach until the line from one square to the other is as long as wanted', () => {
    // A point s back from the apex is s sin(2 half) from the other line; 20 mm into each other is 20 between centres.
    const apexBack = Math.hypot(1000, 100) - 980;
    expectWithin(approachMm(left, right, -20), 20 / Math.sin(2 * halfAngle) - apexBack, 0.01);
  });

  test('are on their approach for four diameters at most', () => {
    expect(approachMm(left, right, 8)).toBe(APPROACH_DIAMETERS * OD_MM);
  });

  test('meet there, and nowhere else, when what is wanted is reached in time', () => {
    const { meeting, elsewhere } = collectorGaps(left, right, -15);
    expect(elsewhere).toBeNull();
    const apexBack = Math.hypot(1000, 100) - 980;
    expectWithin(meeting?.gapMm ?? Number.NaN, 2 * apexBack * Math.sin(halfAngle) - OD_MM, 1e-6);
  });

  test('are told to be too near elsewhere when they are still together four diameters back', () => {
    const { elsewhere } = collectorGaps(left, right, 30);
    const apexBack = Math.hypot(1000, 100) - 980 + APPROACH_DIAMETERS * OD_MM;
    expectWithin(elsewhere?.gapMm ?? Number.NaN, apexBack * Math.sin(2 * halfAngle) - OD_MM, 0.01);
  });
});

describe('two tubes side by side', () => {
  test('that touch all the way are too near all the way, not merely at their collector', () => {
    const { elsewhere } = collectorGaps(alongX(0, [straight(500)]), alongX(41, [straight(500)]), 5);
    expectWithin(elsewhere?.gapMm ?? Number.NaN, 1, 1e-9);
  });

  test('that stay apart as wanted have the one gap of any two tubes', () => {
    const { meeting, elsewhere } = collectorGaps(alongX(0, [straight(500)]), alongX(60, [straight(500)]), 5);
    expectWithin((meeting ?? elsewhere)?.gapMm ?? Number.NaN, 20, 1e-6);
    expect([meeting, elsewhere].filter(Boolean)).toHaveLength(1);
  });

  test('of which one steps over to the other and back again before they meet are told for both', () => {
    // An S of two bends shifts the tube by 2 CLR (1 - cos angle): over to y, back, and over again by a little more.
    const shiftOf = (angleDeg: number) => 120 * (1 - Math.cos((angleDeg / 180) * Math.PI));
    const step = (angleDeg: number) => [bend(60, angleDeg, 0), bend(60, angleDeg, 180)];
    const weaving = [straight(100), ...step(30), straight(100), ...step(30), straight(200), ...step(31), straight(30)];
    const aside = bodyOf(weaving, poseAt({ x: 0, y: 0, z: 0 }, { x: 1, y: 0, z: 0 }, { x: 0, y: 1, z: 0 }));
    expectWithin(aside.path.end.point.y, shiftOf(31), 1e-9);
    const beside = alongX(OD_MM + 2 + shiftOf(30), [straight(aside.path.end.point.x)]);
    const { meeting, elsewhere } = collectorGaps(aside, beside, 10);
    expectWithin(meeting?.gapMm ?? Number.NaN, 2 + shiftOf(30) - shiftOf(31), 1e-6);
    expectWithin(elsewhere?.gapMm ?? Number.NaN, 2, 1e-6);
    expect(meeting?.pieceIndexA).toBeGreaterThan(6);
    expect([2, 3, 4]).toContain(elsewhere?.pieceIndexA);
  });

  test('of which one has no pieces have no gap', () => {
    const nothing = bodyOf([], poseAt({ x: 0, y: 0, z: 0 }, { x: 1, y: 0, z: 0 }, UP_Z));
    expect(collectorGaps(nothing, alongX(0, [straight(5)]), 5)).toEqual({ meeting: null, elsewhere: null });
  });
});

test('the distance from a point to a path is that to the nearest of 20,000 of its points, on 200 random paths', () => {
  for (let seed = 1; seed <= 200; seed += 1) {
    const path = tracePrimary(
      randomPrimary({ pieces: 6, random: seededRandom(seed) }),
      poseAt({ x: 0, y: 0, z: 0 }, { x: 1, y: 0, z: 0 }, UP_Z),
    );
    if (!path.ok) throw new Error(JSON.stringify(path.problems));
    const lengthMm = path.value.spans.reduce((sum, span) => sum + span.lengthMm, 0);
    const point: Vector = vector((seed % 7) * 50 - 150, ((seed * 31) % 11) * 40 - 200, ((seed * 17) % 13) * 30 - 180);
    const perSpan = Math.ceil(20_000 / path.value.spans.length);
    const sampled = path.value.spans.reduce(
      (least, span) =>
        Array.from({ length: perSpan + 1 }, (_, at) => placeOn(span, (span.lengthMm * at) / perSpan)).reduce(
          (nearest, on) => Math.min(nearest, distance(point, on)),
          least,
        ),
      Number.POSITIVE_INFINITY,
    );
    const exact = distanceToPath(point, path.value);
    expect(exact).toBeLessThanOrEqual(sampled + 1e-9);
    expect(exact).toBeGreaterThan(sampled - lengthMm / perSpan);
  }
});

describe('tubes that pass through each other before a collector', () => {
  const sixty = Math.PI / 3;
  const along = { x: Math.cos(sixty), y: Math.sin(sixty), z: 0 };
  const inward = { x: Math.sin(sixty), y: -Math.cos(sixty), z: 0 };

  /** 350 mm at 60 degrees to the straight, then a bend of CLR 63.5 that leaves it parallel, its end beside that of the straight. */
  function curling(besideMm: number) {
    const bendX = 63.5 * Math.sin(sixty);
    const bendY = 63.5 * (1 - Math.cos(sixty));
    const at = { x: 400 - bendX - 350 * along.x, y: besideMm - bendY - 350 * along.y, z: 0 };
    return bodyOf([straight(350), bend(63.5, 60, 0)], poseAt(at, along, inward));
  }
  const level = alongX(0, [straight(400)]);

  test('are told of, although it happens within four diameters of their ends', () => {
    const { meeting, elsewhere } = collectorGaps(level, curling(46), 6);
    expect(meeting).toBeNull();
    // The middle of one goes through the middle of the other.
    expectWithin(elsewhere?.gapMm ?? Number.NaN, -OD_MM, 1e-6);
  });

  test('are not told of where they are let into each other no deeper than at their ends', () => {
    // From the other side, so that they come together from above and end 5 mm into each other.
    const upper = { x: Math.cos(sixty), y: -Math.sin(sixty), z: 0 };
    const bendX = 63.5 * Math.sin(sixty);
    const at = { x: 400 - bendX - 350 * upper.x, y: 35 + 31.75 - 350 * upper.y, z: 0 };
    const above = bodyOf(
      [straight(350), bend(63.5, 60, 0)],
      poseAt(at, upper, { x: Math.sin(sixty), y: Math.cos(sixty), z: 0 }),
    );
    const { meeting, elsewhere } = collectorGaps(level, above, 6);
    expectWithin(meeting?.gapMm ?? Number.NaN, -5, 1e-6);
    expect(elsewhere).toBeNull();
  });
});
