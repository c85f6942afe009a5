/** Where a section cuts the walls of a tube: the cut faces, so that a tube reads as a tube and not as a sheet. */

import { polygonContains } from 'd3';
import type { SceneTube } from './scene.ts';
import type { SectionAxis, SectionCut } from './section-cut.ts';
import { AROUND, type TubeSurface } from './tube-surface.ts';

/** Places in the cut's own plane, in millimetres: the axis after the one it is square to, and the one after that. */
export type CutPoint = [number, number];

/** A cut face: its outer edge, and the bores within it. */
export interface CapFace {
  readonly outer: readonly CutPoint[];
  readonly holes: readonly (readonly CutPoint[])[];
}

const AXES: readonly SectionAxis[] = ['x', 'y', 'z'];
/** Points nearer than this are one, mm: where pieces meet, each has corners of its own. */
const SAME_MM = 1e-3;

/** How far within the tube's ends its bore is closed, mm: a hole that touches the edge around it cannot be filled about. */
const BORE_INSET_MM = 0.05;

export interface TubeWalls {
  readonly outside: TubeSurface;
  /** Null: a bar. */
  readonly bore: TubeSurface | null;
}

/** The faces where the cut goes through the wall of a tube. Cost: linear in its triangles. */
export function capFaces(tube: SceneTube, { outside, bore }: TubeWalls, cut: SectionCut): readonly CapFace[] {
  const bores = bore === null ? [] : cutLoops(withEnds(bore, tube, BORE_INSET_MM), cut);
  return cutLoops(withEnds(outside, tube, 0), cut).map((outer) => ({
    outer,
    holes: bores.filter(([first]) => first !== undefined && polygonContains(outer as CutPoint[], first)),
  }));
}

type Corners = Pick<TubeSurface, 'positions' | 'indices'>;

/** The surface with a disc over either end, so that every cut through it is closed. */
function withEnds({ positions, indices }: TubeSurface, { start, end }: SceneTube, insetMm: number): Corners {
  const count = positions.length / 3;
  if (count < 2 * AROUND) return { positions, indices };
  const moved = positions.slice();
  const shift = (first: number, { x, y, z }: SceneTube['start']['tangent'], byMm: number) => {
    for (let corner = first; corner < first + AROUND; corner += 1) {
      [x, y, z].forEach((part, which) => {
        const at = 3 * corner + which;
        moved[at] = (moved[at] ?? 0) + part * byMm;
      });
    }
  };
  shift(0, start.tangent, insetMm);
  shift(count - AROUND, end.tangent, -insetMm);
  const fans = [0, count - AROUND].flatMap((first) =>
    Array.from({ length: AROUND - 2 }, (_, index) => [first, first + index + 1, first + index + 2]).flat(),
  );
  const all = new Uint32Array(indices.length + fans.length);
  all.set(indices);
  all.set(fans, indices.length);
  return { positions: moved, indices: all };
}

/** The runs along which the plane meets a closed surface. */
function cutLoops({ positions, indices }: Corners, cut: SectionCut): readonly (readonly CutPoint[])[] {
  return chained(cutSegments(positions, indices, cut));
}

type Segment = readonly [CutPoint, CutPoint];

function cutSegments(positions: Float32Array, indices: Uint32Array, { axis, atMm }: SectionCut): readonly Segment[] {
  const square = AXES.indexOf(axis);
  const [across, beside] = [(square + 1) % 3, (square + 2) % 3];
  const part = (corner: number, which: number) => positions[3 * corner + which] ?? 0;
  const segments: Segment[] = [];
  for (let at = 0; at < indices.length; at += 3) {
    const corners = [indices[at] ?? 0, indices[at + 1] ?? 0, indices[at + 2] ?? 0];
    const heights = corners.map((corner) => part(corner, square) - atMm);
    // What lies in the plane counts as above it, so that each edge is crossed or not.
    const isAbove = heights.map((height) => height >= 0);
    if (isAbove[0] === isAbove[1] && isAbove[1] === isAbove[2]) continue;
    const points: CutPoint[] = [];
    for (let edge = 0; edge < 3; edge += 1) {
      const next = (edge + 1) % 3;
      if (isAbove[edge] === isAbove[next]) continue;
      const [from, to] = [corners[edge] ?? 0, corners[next] ?? 0];
      const [low, high] = [heights[edge] ?? 0, heights[next] ?? 0];
      const share = low / (low - high);
      const along = (which: number) => part(from, which) + share * (part(to, which) - part(from, which));
      points.push([along(across), along(beside)]);
    }
    const [a, b] = points;
    if (a !== undefined && b !== undefined) segments.push([a, b]);
  }
  return segments;
}

/** Joins segments end to end. */
function chained(segments: readonly Segment[]): readonly (readonly CutPoint[])[] {
  const byPlace = new Map<string, number[]>();
  segments.forEach((segment, index) => {
    for (const point of segment) {
      const key = placeKey(point);
      byPlace.set(key, [...(byPlace.get(key) ?? []), index]);
    }
  });
  const left = new Set(segments.keys());
  const next = (point: CutPoint): CutPoint | null => {
    const index = byPlace.get(placeKey(point))?.find((one) => left.has(one));
    const segment = index === undefined ? undefined : segments[index];
    if (index === undefined || segment === undefined) return null;
    left.delete(index);
    return placeKey(segment[0]) === placeKey(point) ? segment[1] : segment[0];
  };
  const loops: CutPoint[][] = [];
  for (const index of segments.keys()) {
    const segment = segments[index];
    if (segment === undefined || !left.delete(index)) continue;
    const loop: CutPoint[] = [...segment];
    // Forwards from its end, then backwards from its start: an open run may have been met in its middle.
    for (let point = next(segment[1]); point !== null; point = next(point)) loop.push(point);
    for (let point = next(segment[0]); point !== null; point = next(point)) loop.unshift(point);
    if (loop.length > 2) loops.push(loop);
  }
  return loops;
}

function placeKey([across, beside]: CutPoint): string {
  return `${Math.round(across / SAME_MM)} ${Math.round(beside / SAME_MM)}`;
}

/** A point of the cut's plane in space. */
export function spacePoint([across, beside]: CutPoint, axis: SectionAxis, atMm: number): [number, number, number] {
  const square = AXES.indexOf(axis);
  const point: [number, number, number] = [0, 0, 0];
  point[square] = atMm;
  point[(square + 1) % 3] = across;
  point[(square + 2) % 3] = beside;
  return point;
}
