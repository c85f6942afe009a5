/** Rows of ports and patterns of inlets. */

import { describe, expect, test } from 'vitest';
import type { Pose } from '../../../../core/header/header.ts';
import { type InletPattern, inletPoses, portRow } from '../../../../core/path/ends/port-row.ts';
import { vectorOfPlace } from '../../../../core/path/frame.ts';
import { distance, type Vector } from '../../../../core/path/vector.ts';
import { inches } from '../../../../core/units/length.ts';
import { expectWithin } from '../../../tolerance.ts';
import { foundValue, poseAt, problemOf } from '../made-primaries.ts';
import { expectVector } from '../vector-tolerance.ts';

const FIRST: Pose = {
  at: { x: inches(2), y: inches(1), z: inches(0) },
  direction: { x: 0, y: 1, z: 0 },
  up: { x: 0, y: 0, z: 1 },
};

const places = (poses: readonly Pose[]) => poses.map(({ at }) => vectorOfPlace(at));

describe('a row of ports', () => {
  test('four ports 4 1/4 apart backwards, kept in inches', () => {
    const row = foundValue(
      portRow({ first: FIRST, along: { x: -3, y: 0, z: 0 }, spacings: [4.25, 4.25, 4.25].map(inches) }),
    );
    expect(row.map(({ at }) => at.x.unit)).toEqual(['in', 'in', 'in', 'in']);
    [2, -2.25, -6.5, -10.75].forEach((expected, index) => {
      expectWithin(row[index]?.at.x.value ?? Number.NaN, expected, 1e-12);
    });
    expect(row[3]?.direction).toEqual(FIRST.direction);
  });

  test('spacings need not be equal, and one port is a row', () => {
    const row = foundValue(portRow({ first: FIRST, along: { x: 1, y: 0, z: 0 }, spacings: [inches(4), inches(5)] }));
    expectWithin(row[2]?.at.x.value ?? Number.NaN, 11, 1e-12);
    expect(foundValue(portRow({ first: FIRST, along: { x: 1, y: 0, z: 0 }, spacings: [] }))).toEqual([FIRST]);
  });

  test('bad directions and spacings are refused at their field', () => {
    const along = { x: 0, y: 0, z: 0 };
    expect(problemOf(portRow({ first: FIRST, along, spacings: [] }))).toMatchObject({ path: ['along'] });
    const spacings = [inches(Number.NaN)];
    expect(problemOf(portRow({ first: FIRST, along: { x: 1, y: 0, z: 0 }, spacings }))).toMatchObject({
      path: ['spacings', 0],
    });
    const first = { ...FIRST, direction: along };
    expect(problemOf(portRow({ first, along: { x: 1, y: 0, z: 0 }, spacings: [] }))).toMatchObject({
      path: ['first', 'direction'],
    });
  });
});

describe('the inlets of a collector', () => {
  /** Travelling along +x with z up: right is -y. */
  const centre = poseAt({ x: 10, y: 20, z: 30 }, { x: 1, y: 0, z: 0 }, { x: 0, y: 0, z: 1 });
  const laid = (pattern: InletPattern, count: number, gapIn = 0) =>
    places(foundValue(inletPoses({ pattern, count, od: inches(2), gap: inches(gapIn), centre })));
  const PITCH_MM = 50.8;

  test.each([
    ['sideBySide', 2],
    ['sideBySide', 3],
    ['sideBySide', 4],
    ['triangle', 3],
    ['square', 4],
  ] as const)('%s of %i: neighbours touch, none overlaps, and the middle is the centre', (pattern, count) => {
    const found = laid(pattern, count);
    expect(found).toHaveLength(count);
    const middle = found.reduce((sum, { x, y, z }) => ({ x: sum.x + x, y: sum.y + y, z: sum.z + z }));
    expectVector({ x: middle.x / count, y: middle.y / count, z: middle.z / count }, { x: 10, y: 20, z: 30 }, 1e-9);
    for (const [index, one] of found.entries()) {
      const others = found.filter((_, at) => at !== index).map((other) => distance(one, other));
      expectWithin(Math.min(...others), PITCH_MM, 1e-9);
      expectWithin(one.x, 10, 1e-12);
    }
  });

  test('the gap is added between them', () => {
    const [a, b] = laid('sideBySide', 2, 0.5) as [Vector, Vector];
    expectWithin(distance(a, b), 63.5, 1e-9);
  });

  test('order: left to right, from the top clockwise', () => {
    expectVector(laid('sideBySide', 2)[0] ?? centre.direction, { x: 10, y: 20 + 25.4, z: 30 }, 1e-9);
    expectVector(laid('triangle', 3)[0] ?? centre.direction, { x: 10, y: 20, z: 30 + PITCH_MM / Math.sqrt(3) }, 1e-9);
    const square = laid('square', 4);
    expectVector(square[0] ?? centre.direction, { x: 10, y: 20 - 25.4, z: 30 + 25.4 }, 1e-9);
    expectVector(square[1] ?? centre.direction, { x: 10, y: 20 - 25.4, z: 30 - 25.4 }, 1e-9);
  });

  test.each([
    ['sideBySide', 1],
    ['sideBySide', 5],
    ['sideBySide', 2.5],
    ['triangle', 4],
    ['square', 3],
  ] as const)('%s of %d is refused', (pattern, count) => {
    const refused = inletPoses({ pattern, count, od: inches(2), gap: inches(0), centre });
    expect(problemOf(refused)).toEqual({ kind: 'patternCount', pattern, count });
  });
});
