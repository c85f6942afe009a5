/** The outside of a tube as triangles, from its exact lines and arcs. */

import {
  type ArcSpan,
  add,
  addScaled,
  binormalOf,
  cross,
  dot,
  type Frame,
  type LineSpan,
  pointAt,
  radiansOf,
  scale,
  unit,
  type Vector,
} from '../../../core/index.ts';
import type { ScenePiece, SceneTube } from './scene.ts';

export interface TubeSurface {
  /** Three numbers a corner, in millimetres. */
  readonly positions: Float32Array;
  /** Three numbers a corner, length 1, outwards. */
  readonly normals: Float32Array;
  /** Three corners a triangle. */
  readonly indices: Uint32Array;
  /** Place in `indices` where each piece starts, and last its end: one more entry than there are pieces. */
  readonly pieceStarts: readonly number[];
  /** The same with every second corner left out, for its silhouette: a half of the triangles. */
  readonly coarseIndices: Uint32Array;
  /** The rings at the joints as single lines: two points each, three numbers a point. */
  readonly seams: Float32Array;
}

/** Corners around the tube, a multiple of 8. A circle of 48 chords is inside the true one by at most 0.22% of its radius. */
export const AROUND = 48;
/** Arcs are drawn in steps of at most this. */
const STEP_DEG = 7.5;

/** A ring of corners: the middle, two axes square to each other, and the plane that it is cut in. */
interface Ring {
  readonly centre: Vector;
  readonly across: Vector;
  readonly aside: Vector;
  /** Length 1; where it is not along the tube the ring is the ellipse of a mitre. */
  readonly cut: Vector;
  readonly along: Vector;
}

/** The outside of all pieces that are known. Cost: linear in the degrees turned and the number of pieces. */
export function tubeSurface({ pieces, odMm }: SceneTube): TubeSurface {
  const radiusMm = odMm / 2;
  const positions: number[] = [];
  const normals: number[] = [];
  const indices: number[] = [];
  const coarse: number[] = [];
  const pieceStarts: number[] = [0];
  for (const piece of pieces) {
    for (const sleeve of sleevesOf(piece)) addSleeve(sleeve, radiusMm, { positions, normals, indices, coarse });
    pieceStarts.push(indices.length);
  }
  const frames =
    pieces.length === 0 ? [] : [...pieces.map(({ start }) => start), ...pieces.slice(-1).map(({ end }) => end)];
  const seams = frames.flatMap((frame) => ringLines(frame, radiusMm));
  return {
    positions: new Float32Array(positions),
    normals: new Float32Array(normals),
    indices: new Uint32Array(indices),
    coarseIndices: new Uint32Array(coarse),
    pieceStarts,
    seams: new Float32Array(seams),
  };
}

/** Rings that are joined by triangles, one list for each smooth part of the piece. */
function sleevesOf({ spans, start }: ScenePiece): readonly (readonly Ring[])[] {
  const lines = spans.filter((span) => span.kind === 'line');
  const mitreAxis = lines.length > 1 ? turnAxis(lines) : null;
  return spans.flatMap((span, index): readonly (readonly Ring[])[] => {
    if (span.kind === 'arc') return [arcRings(span)];
    if (span.lengthMm === 0) return [];
    const aside = mitreAxis ?? binormalOf(start);
    return [lineRings(span, aside, { before: lines[index - 1] ?? null, after: lines[index + 1] ?? null })];
  });
}

/** The axis that all mitres of a pie-cut bend turn about. */
function turnAxis(lines: readonly LineSpan[]): Vector | null {
  const [first, second] = lines;
  return first && second ? unit(cross(first.tangent, second.tangent)) : null;
}

function lineRings(
  span: LineSpan,
  aside: Vector,
  { before, after }: { readonly before: LineSpan | null; readonly after: LineSpan | null },
): readonly Ring[] {
  const along = span.tangent;
  const across = cross(aside, along);
  const mitre = (neighbour: LineSpan | null) => (neighbour === null ? along : unit(add(along, neighbour.tangent)));
  return [
    { centre: span.start, across, aside, along, cut: mitre(before) },
    { centre: span.end, across, aside, along, cut: mitre(after) },
  ];
}

function arcRings(span: ArcSpan): readonly Ring[] {
  const steps = Math.max(1, Math.ceil(span.angleDeg / STEP_DEG - 1e-9));
  const aside = cross(span.tangent, span.normal);
  return Array.from({ length: steps + 1 }, (_, step): Ring => {
    const share = step / steps;
    const turnRad = radiansOf(span.angleDeg) * share;
    const across = add(scale(span.normal, Math.cos(turnRad)), scale(span.tangent, -Math.sin(turnRad)));
    const along = add(scale(span.tangent, Math.cos(turnRad)), scale(span.normal, Math.sin(turnRad)));
    return { centre: pointAt(span, share), across, aside, along, cut: along };
  });
}

interface Corners {
  readonly positions: number[];
  readonly normals: number[];
  readonly indices: number[];
  readonly coarse: number[];
}

function addSleeve(rings: readonly Ring[], radiusMm: number, { positions, normals, indices, coarse }: Corners): void {
  const first = positions.length / 3;
  for (const ring of rings) {
    for (let corner = 0; corner < AROUND; corner += 1) {
      const outward = outwardAt(ring, (2 * Math.PI * corner) / AROUND);
      const offset = scale(outward, radiusMm);
      const slide = -dot(offset, ring.cut) / dot(ring.along, ring.cut);
      const point = addScaled(add(ring.centre, offset), ring.along, slide);
      positions.push(point.x, point.y, point.z);
      normals.push(outward.x, outward.y, outward.z);
    }
  }
  for (let ring = 0; ring + 1 < rings.length; ring += 1) {
    addBand(indices, first + ring * AROUND, 1);
    addBand(coarse, first + ring * AROUND, 2);
  }
}

/** The triangles between a ring that starts at the corner `here` and the one after it. */
function addBand(indices: number[], here: number, step: number): void {
  const there = here + AROUND;
  for (let corner = 0; corner < AROUND; corner += step) {
    const next = (corner + step) % AROUND;
    indices.push(here + corner, there + next, there + corner, here + corner, here + next, there + next);
  }
}

function outwardAt({ across, aside }: Ring, aroundRad: number): Vector {
  return add(scale(across, Math.cos(aroundRad)), scale(aside, Math.sin(aroundRad)));
}

/** A circle square to the frame's tangent as points that close on themselves. */
export function ringPoints(frame: Frame, radiusMm: number, count = AROUND): readonly Vector[] {
  const aside = binormalOf(frame);
  return Array.from({ length: count + 1 }, (_, index) => {
    const aroundRad = (2 * Math.PI * (index % count)) / count;
    const across = addScaled(frame.point, frame.normal, radiusMm * Math.cos(aroundRad));
    return addScaled(across, aside, radiusMm * Math.sin(aroundRad));
  });
}

/** The circle as single lines, for drawing. */
export function ringLines(frame: Frame, radiusMm: number): readonly number[] {
  return lineNumbers(ringPoints(frame, radiusMm));
}

/** A run of points as single lines: every point but the ends twice. */
export function lineNumbers(points: readonly Vector[]): readonly number[] {
  return points.slice(1).flatMap((to, index) => {
    const from = points[index] ?? to;
    return [from.x, from.y, from.z, to.x, to.y, to.z];
  });
}
