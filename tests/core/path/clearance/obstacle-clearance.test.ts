/** Least gaps between a tube and a box, a cylinder or a plane. */

import { describe, expect, test } from 'vitest';
import type { Obstacle } from '../../../../core/header/header.ts';
import { tubeBody } from '../../../../core/path/clearance/clearance.ts';
import { obstacleClearance } from '../../../../core/path/clearance/obstacle-clearance.ts';
import { pointAt, type TubePath, tracePrimary } from '../../../../core/path/trace-primary.ts';
import { millimetres } from '../../../../core/units/length.ts';
import { expectWithin } from '../../../tolerance.ts';
import { bend, foundValue, pathOf, randomPrimary, seededRandom, straight } from '../made-primaries.ts';

const place = (x: number, y: number, z: number) => ({ x: millimetres(x), y: millimetres(y), z: millimetres(z) });
const named = { id: 'o', name: 'rail' };

function box(from: readonly [number, number, number], to: readonly [number, number, number]): Obstacle {
  return { kind: 'box', ...named, corner: place(...from), opposite: place(...to) };
}

function cylinder(
  from: readonly [number, number, number],
  to: readonly [number, number, number],
  diameterMm: number,
): Obstacle {
  return { kind: 'cylinder', ...named, from: place(...from), to: place(...to), diameter: millimetres(diameterMm) };
}

function plane(at: readonly [number, number, number], normal: readonly [number, number, number]): Obstacle {
  return { kind: 'plane', ...named, at: place(...at), normal: { x: normal[0], y: normal[1], z: normal[2] } };
}

function gapMm(path: TubePath, odMm: number, obstacle: Obstacle): number {
  return obstacleClearance(tubeBody(path, odMm), obstacle)?.gapMm ?? Number.NaN;
}

/** Along x from the origin, 100 long. */
const STRAIGHT = pathOf([straight(100)]);
/** From the origin along x, curling up: centre (0, 0, 80). */
const QUARTER = pathOf([bend(80, 90, 0)]);

describe('a box', () => {
  test('beside a straight, past its end, at a corner', () => {
    expectWithin(gapMm(STRAIGHT, 40, box([20, 50, -10], [60, 90, 10])), 30, 1e-6);
    expectWithin(gapMm(STRAIGHT, 40, box([130, -5, -5], [150, 5, 5])), 10, 1e-6);
    expectWithin(gapMm(STRAIGHT, 0, box([103, 4, 0], [200, 50, 50])), 5, 1e-6);
  });

  test('its corners may be given in any order', () => {
    expectWithin(gapMm(STRAIGHT, 40, box([60, 90, 10], [20, 50, -10])), 30, 1e-6);
  });

  test('run through: the centreline is at no distance', () => {
    expectWithin(gapMm(STRAIGHT, 40, box([20, -5, -5], [60, 5, 5])), -20, 1e-6);
  });

  test('a bend over a flat side touches it where it is lowest', () => {
    expectWithin(gapMm(QUARTER, 0, box([-50, -50, -40], [50, 50, -10])), 10, 1e-6);
  });

  test('a corner inside a bend: radius less distance from the centre', () => {
    expectWithin(gapMm(QUARTER, 0, box([0, -5, 80], [30, 5, 40])), 80 - 50, 1e-6);
  });
});

describe('a cylinder', () => {
  test('across a straight, along it, beyond its flat end', () => {
    expectWithin(gapMm(STRAIGHT, 40, cylinder([50, -100, 60], [50, 100, 60], 30)), 60 - 15 - 20, 1e-6);
    expectWithin(gapMm(STRAIGHT, 40, cylinder([0, 0, 60], [100, 0, 60], 30)), 25, 1e-6);
    expectWithin(gapMm(STRAIGHT, 40, cylinder([130, 0, 0], [200, 0, 0], 30)), 10, 1e-6);
  });

  test('at the centre of a bend: the CLR less its radius', () => {
    expectWithin(gapMm(QUARTER, 0, cylinder([0, -50, 80], [0, 50, 80], 30)), 65, 0.004);
  });

  test('from point to point is no body', () => {
    expect(obstacleClearance(tubeBody(STRAIGHT, 40), cylinder([1, 2, 3], [1, 2, 3], 30))).toBeNull();
  });
});

describe('a plane', () => {
  test('below a straight and a bend, and cut by one', () => {
    expectWithin(gapMm(STRAIGHT, 40, plane([0, 0, -70], [0, 0, 5])), 50, 1e-6);
    expectWithin(gapMm(QUARTER, 40, plane([0, 0, -70], [0, 0, 5])), 50, 1e-6);
    expectWithin(gapMm(QUARTER, 40, plane([0, 0, 30], [0, 0, 5])), -50, 1e-6);
    // Starting in the plane and running behind it, or before it.
    expectWithin(gapMm(STRAIGHT, 40, plane([0, 0, 0], [-1, 0, 0])), -120, 1e-6);
    expectWithin(gapMm(STRAIGHT, 40, plane([0, 0, 0], [1, 0, 0])), -20, 1e-6);
  });

  test('outside a bend at 45 degrees: distance of the plane from the centre, less the CLR', () => {
    const slant = plane([150, 0, -70], [-1, 0, 1]);
    const centreMm = 150 * Math.SQRT2;
    expectWithin(gapMm(QUARTER, 0, slant), centreMm - 80, 1e-6);
  });

  test('without a direction is no body', () => {
    expect(obstacleClearance(tubeBody(STRAIGHT, 40), plane([0, 0, 0], [0, 0, 0]))).toBeNull();
  });
});

test('a tube without pieces has no gap', () => {
  expect(obstacleClearance(tubeBody(pathOf([]), 40), plane([0, 0, 0], [0, 0, 1]))).toBeNull();
});

/** Distance of a point from each kind of body, written out independently of the program. */
function pointGap(point: { x: number; y: number; z: number }, kind: Obstacle['kind']): number {
  if (kind === 'plane') return point.z + 50;
  const outside = (value: number, half: number) => Math.max(Math.abs(value) - half, 0);
  if (kind === 'box') return Math.hypot(outside(point.x, 30), outside(point.y, 40), outside(point.z, 50));
  return Math.hypot(outside(Math.hypot(point.x, point.y), 25), outside(point.z, 60));
}

test('dense sampling of random tubes never finds less, and little more (seed 7)', () => {
  const random = seededRandom(7);
  const bodies = [
    box([-30, -40, -50], [30, 40, 50]),
    cylinder([0, 0, -60], [0, 0, 60], 50),
    plane([0, 0, -50], [0, 0, 1]),
  ];
  const samples = 400;
  for (let round = 0; round < 60; round += 1) {
    const primary = randomPrimary({ pieces: 6, random, withPies: false });
    const path = foundValue(tracePrimary(primary, primary.port));
    for (const body of bodies) {
      let sampledMm = Number.POSITIVE_INFINITY;
      let stepMm = 0;
      for (const span of path.spans) {
        stepMm = Math.max(stepMm, span.lengthMm / samples);
        for (let i = 0; i <= samples; i += 1)
          sampledMm = Math.min(sampledMm, pointGap(pointAt(span, i / samples), body.kind));
      }
      const found = gapMm(path, 0, body);
      expect(found).toBeLessThanOrEqual(sampledMm + 1e-6);
      expect(found).toBeGreaterThanOrEqual(sampledMm - stepMm / 2 - 1e-6);
    }
  }
});
