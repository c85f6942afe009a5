/** The triangles of a tube lie on the tube. */

import { describe, expect, test } from 'vitest';
import { demoHeader } from '../../../core/header/demo-header.ts';
import type { Header, Piece } from '../../../core/header/header.ts';
import { centrePoints } from '../../../core/path/centre-points.ts';
import { inches } from '../../../core/units/length.ts';
import { describeScene } from '../../../renderer/view/scene/describe-scene.ts';
import type { SceneTube } from '../../../renderer/view/scene/scene.ts';
import { AROUND, ringPoints, tubeSurface } from '../../../renderer/view/scene/tube-surface.ts';

const COMMON = { state: 'tacked', locked: false, note: '' } as const;

function tubeOfPieces(...pieces: readonly Piece[]): SceneTube {
  const demo = demoHeader('tube');
  const [first] = demo.primaries;
  if (first === undefined) throw new Error('the demo header has primaries');
  const header: Header = { ...demo, primaries: [{ ...first, pieces }] };
  const [tube] = describeScene(header, { primaryId: null, pieceId: null }).tubes;
  if (tube === undefined) throw new Error('a primary with pieces and a port gives a tube');
  return tube;
}

function corners({ positions }: { readonly positions: Float32Array }) {
  return Array.from({ length: positions.length / 3 }, (_, index) => ({
    x: positions[3 * index] ?? Number.NaN,
    y: positions[3 * index + 1] ?? Number.NaN,
    z: positions[3 * index + 2] ?? Number.NaN,
  }));
}

/** Least distance from a point to the polyline, by brute force over its segments. */
function toLine(
  point: { x: number; y: number; z: number },
  line: readonly { x: number; y: number; z: number }[],
): number {
  let least = Number.POSITIVE_INFINITY;
  for (const [index, to] of line.entries()) {
    const from = line[index - 1] ?? to;
    const [dx, dy, dz] = [to.x - from.x, to.y - from.y, to.z - from.z];
    const square = dx * dx + dy * dy + dz * dz;
    const along =
      square === 0 ? 0 : ((point.x - from.x) * dx + (point.y - from.y) * dy + (point.z - from.z) * dz) / square;
    const share = Math.max(0, Math.min(1, along));
    least = Math.min(
      least,
      Math.hypot(point.x - from.x - share * dx, point.y - from.y - share * dy, point.z - from.z - share * dz),
    );
  }
  return least;
}

const STRAIGHT: Piece = { kind: 'straight', id: 's', length: inches(4), ...COMMON };
const BEND: Piece = { kind: 'bend', id: 'b', clr: inches(3), angleDeg: 90, clockingDeg: 30, ...COMMON };
const PIE: Piece = { kind: 'pieCut', id: 'p', clr: inches(3), angleDeg: 90, clockingDeg: -45, pies: 3, ...COMMON };

describe('the surface', () => {
  test('of straights and bends is everywhere half an OD from the centreline', () => {
    const tube = tubeOfPieces(
      STRAIGHT,
      BEND,
      { ...STRAIGHT, id: 's2' },
      { ...BEND, id: 'b2', angleDeg: 200, clockingDeg: 170 },
    );
    const line = tube.pieces.flatMap(({ spans }) => centrePoints(spans));
    for (const corner of corners(tubeSurface(tube))) {
      // The line stands for arcs in chords of 5 degrees: 3 in (1 - cos 2.5 deg) is 0.073 mm.
      expect(Math.abs(toLine(corner, line) - tube.odMm / 2)).toBeLessThan(0.08);
    }
  });

  test('of a pie-cut bend meets in its mitres: each chord ends where the next begins', () => {
    const surface = tubeSurface(tubeOfPieces(PIE));
    const all = corners(surface);
    // 3 pies are 4 chords of 2 rings each.
    expect(all.length).toBe(4 * 2 * AROUND);
    for (let chord = 0; chord < 3; chord += 1) {
      for (let corner = 0; corner < AROUND; corner += 1) {
        const end = all[(2 * chord + 1) * AROUND + corner];
        const start = all[(2 * chord + 2) * AROUND + corner];
        if (end === undefined || start === undefined) throw new Error('every chord has two rings');
        // Single precision of coordinates up to some hundred millimetres.
        expect(Math.hypot(end.x - start.x, end.y - start.y, end.z - start.z)).toBeLessThan(1e-4);
      }
    }
  });

  test('normals have length 1 and triangles name corners that are there', () => {
    const { positions, normals, indices, pieceStarts } = tubeSurface(tubeOfPieces(STRAIGHT, BEND, PIE));
    for (let index = 0; index < normals.length; index += 3) {
      const length = Math.hypot(normals[index] ?? 0, normals[index + 1] ?? 0, normals[index + 2] ?? 0);
      expect(Math.abs(length - 1)).toBeLessThan(1e-6);
    }
    expect(Math.max(...indices)).toBe(positions.length / 3 - 1);
    expect(pieceStarts).toHaveLength(4);
    expect(pieceStarts.at(-1)).toBe(indices.length);
    for (const [index, start] of pieceStarts.entries()) expect(start).toBeGreaterThan(pieceStarts[index - 1] ?? -1);
  });

  test('a straight of no length has no triangles, and its seam is still drawn', () => {
    const surface = tubeSurface(tubeOfPieces({ ...STRAIGHT, length: inches(0) }, BEND));
    expect(surface.pieceStarts.slice(0, 2)).toEqual([0, 0]);
    expect(surface.seams.length).toBe(3 * AROUND * 6);
  });

  test('triangles face outwards', () => {
    const { positions, normals, indices } = tubeSurface(tubeOfPieces(STRAIGHT, BEND, PIE));
    const at = (list: Float32Array, corner: number) =>
      [list[3 * corner] ?? 0, list[3 * corner + 1] ?? 0, list[3 * corner + 2] ?? 0] as const;
    for (let index = 0; index < indices.length; index += 3) {
      const [a, b, c] = [indices[index] ?? 0, indices[index + 1] ?? 0, indices[index + 2] ?? 0].map((corner) =>
        at(positions, corner),
      );
      if (!a || !b || !c) throw new Error('three corners');
      const [u, v] = [b.map((value, axis) => value - (a[axis] ?? 0)), c.map((value, axis) => value - (a[axis] ?? 0))];
      const [ux = 0, uy = 0, uz = 0] = u;
      const [vx = 0, vy = 0, vz = 0] = v;
      const [nx, ny, nz] = at(normals, indices[index] ?? 0);
      expect((uy * vz - uz * vy) * nx + (uz * vx - ux * vz) * ny + (ux * vy - uy * vx) * nz).toBeGreaterThan(0);
    }
  });
});

test('a ring closes on itself and is square to its frame', () => {
  const frame = { point: { x: 1, y: 2, z: 3 }, tangent: { x: 0, y: 0, z: 1 }, normal: { x: 1, y: 0, z: 0 } };
  const points = ringPoints(frame, 10);
  expect(points.at(-1)).toEqual(points[0]);
  for (const { x, y, z } of points) {
    expect(z).toBe(3);
    expect(Math.abs(Math.hypot(x - 1, y - 2) - 10)).toBeLessThan(1e-12);
  }
});
