/** A whole header of the other hand. */

import fc from 'fast-check';
import { expect, test } from 'vitest';
import { demoHeader } from '../../../core/header/demo-header.ts';
import type { Obstacle } from '../../../core/header/header.ts';
import { matchHeader } from '../../../core/length/match-header.ts';
import { mirroredHeader } from '../../../core/path/banks/mirrored-header.ts';
import { headerClearances } from '../../../core/path/clearance/header-clearances.ts';
import { primaryClosure } from '../../../core/path/ends/inlet-pose.ts';
import { inches } from '../../../core/units/length.ts';
import { headerArbitrary } from '../../generators/headers.ts';

const place = (x: number, y: number, z: number) => ({ x: inches(x), y: inches(y), z: inches(z) });

test('twice changes nothing', () => {
  fc.assert(
    fc.property(headerArbitrary(), (header) => {
      expect(mirroredHeader(mirroredHeader(header))).toEqual(header);
    }),
    { numRuns: 60 },
  );
});

test('lengths, closures and gaps stay as they are', () => {
  const header = demoHeader('demo');
  const mirrored = mirroredHeader(header);
  expect(mirrored).not.toEqual(header);
  expect(matchHeader(mirrored).primaries.map(({ lengthMm }) => lengthMm)).toEqual(
    matchHeader(header).primaries.map(({ lengthMm }) => lengthMm),
  );
  header.primaries.forEach((primary, index) => {
    const closures = [primaryClosure(header, primary), primaryClosure(mirrored, mirrored.primaries[index] ?? primary)];
    const [before, after] = closures.map((closure) => (closure.ok ? closure.value.gapMm : Number.NaN));
    expect(after).toBeCloseTo(before ?? Number.NaN, 6);
  });
  const gaps = (of: typeof header) =>
    headerClearances(of).gaps.map(({ clearance }) => Math.round(clearance.gapMm * 1000));
  expect(gaps(mirrored)).toEqual(gaps(header));
});

test('obstacles go to the other side: what was outboard by 5 in is inboard by 5 in', () => {
  const obstacles: readonly Obstacle[] = [
    { kind: 'box', id: 'b', name: 'Rail', corner: place(0, 5, 0), opposite: place(1, 6, 1) },
    { kind: 'cylinder', id: 'c', name: 'Shaft', from: place(0, 5, 0), to: place(9, 5, 2), diameter: inches(1) },
    { kind: 'plane', id: 'p', name: 'Wall', at: place(0, 5, 0), normal: { x: 0, y: -1, z: 0 } },
  ];
  const mirrored = mirroredHeader({ ...demoHeader('demo'), obstacles });
  expect(mirrored.obstacles).toEqual([
    { kind: 'box', id: 'b', name: 'Rail', corner: place(0, -5, 0), opposite: place(1, -6, 1) },
    { kind: 'cylinder', id: 'c', name: 'Shaft', from: place(0, -5, 0), to: place(9, -5, 2), diameter: inches(1) },
    { kind: 'plane', id: 'p', name: 'Wall', at: place(0, -5, 0), normal: { x: 0, y: 1, z: 0 } },
  ]);
});
