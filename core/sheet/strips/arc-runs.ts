/** A run of points as arcs, for drawing programs that want few of them. */

import type { StripPoint } from './strip.ts';

/** A point, and how the way to the next one bulges: tangent of a quarter of the arc's angle, positive to the left; 0 is straight. */
export interface BulgePoint extends StripPoint {
  readonly bulge: number;
}

/** How far an arc may leave the points that it stands for, mm. */
export const ARC_MM = 0.003;

/**
 * As few arcs as follow the points within `ARC_MM`, each through a first, a middle and a last one of them; straight where three lie
 * in line. Bulges are as DXF has them in axes with y up, so for a strip, whose y runs down, the points are turned over first.
 */
export function arcRuns(points: readonly StripPoint[]): readonly BulgePoint[] {
  const runs: BulgePoint[] = [];
  let start = 0;
  while (start < points.length - 1) {
    const end = farthestFit(points, start);
    const [a, b] = [points[start], points[end]];
    if (a !== undefined && b !== undefined)
      runs.push({ ...a, bulge: bulgeBetween(a, middleOf(points, start, end), b) });
    start = end;
  }
  const last = points.at(-1);
  return last === undefined ? runs : [...runs, { ...last, bulge: 0 }];
}

/** The farthest point that one arc from `start` reaches; found by doubling and halving the step. */
function farthestFit(points: readonly StripPoint[], start: number): number {
  const most = points.length - 1;
  let end = start + 1;
  for (let step = 2; step >= 1; ) {
    const next = Math.min(most, end + step);
    if (next > end && fits(points, start, next)) {
      end = next;
      step *= 2;
    } else step = Math.floor(step / 2);
  }
  return end;
}

function middleOf(points: readonly StripPoint[], start: number, end: number): StripPoint | null {
  return end - start < 2 ? null : (points[Math.floor((start + end) / 2)] ?? null);
}

function fits(points: readonly StripPoint[], start: number, end: number): boolean {
  const [a, b] = [points[start], points[end]];
  const middle = middleOf(points, start, end);
  if (a === undefined || b === undefined || middle === null) return true;
  const circle = circleThrough(a, middle, b);
  const isBeside = (point: StripPoint) =>
    circle === null
      ? Math.abs(crossOf(a, b, point)) <= ARC_MM * Math.hypot(b.xMm - a.xMm, b.yMm - a.yMm)
      : Math.abs(Math.hypot(point.xMm - circle.xMm, point.yMm - circle.yMm) - circle.radiusMm) <= ARC_MM;
  return (
    points.slice(start + 1, end).every(isBeside) &&
    // Between two points the way is as good as straight, and the arc must keep to it there as well.
    points.slice(start + 1, end + 1).every((point, at) => isBeside(halfWay(points[start + at] ?? point, point))) &&
    isShort(a, middle, b)
  );
}

function halfWay(a: StripPoint, b: StripPoint): StripPoint {
  return { xMm: (a.xMm + b.xMm) / 2, yMm: (a.yMm + b.yMm) / 2 };
}

/** Under half a circle, so that a bulge says which way round; curves of strips turn by less between two kinks. */
function isShort(a: StripPoint, middle: StripPoint, b: StripPoint): boolean {
  return Math.abs(bulgeBetween(a, middle, b)) < 0.9;
}

/** Twice the area of the triangle; positive when `c` lies to the left of the way from `a` to `b`, y being up. */
function crossOf(a: StripPoint, b: StripPoint, c: StripPoint): number {
  return (b.xMm - a.xMm) * (c.yMm - a.yMm) - (b.yMm - a.yMm) * (c.xMm - a.xMm);
}

/** Null for three points in line. */
function circleThrough(a: StripPoint, b: StripPoint, c: StripPoint): (StripPoint & { radiusMm: number }) | null {
  const twice = 2 * crossOf(a, b, c);
  if (Math.abs(twice) < 1e-9) return null;
  const [bx, by, cx, cy] = [b.xMm - a.xMm, b.yMm - a.yMm, c.xMm - a.xMm, c.yMm - a.yMm];
  const [bb, cc] = [bx * bx + by * by, cx * cx + cy * cy];
  const [x, y] = [(cy * bb - by * cc) / twice, (bx * cc - cx * bb) / twice];
  return { xMm: a.xMm + x, yMm: a.yMm + y, radiusMm: Math.hypot(x, y) };
}

/** The bulge of the arc from `a` over `middle` to `b`: sagitta over half the chord, signed. */
function bulgeBetween(a: StripPoint, middle: StripPoint | null, b: StripPoint): number {
  if (middle === null) return 0;
  const [toA, toB] = [
    { x: a.xMm - middle.xMm, y: a.yMm - middle.yMm },
    { x: b.xMm - middle.xMm, y: b.yMm - middle.yMm },
  ];
  // The angle seen from a point of the arc is half of what is left of the circle.
  const seenRad = Math.atan2(Math.abs(toA.x * toB.y - toA.y * toB.x), toA.x * toB.x + toA.y * toB.y);
  const quarterRad = (Math.PI - seenRad) / 2;
  // A middle to the right of the way from a to b is an arc that turns left.
  return crossOf(a, b, middle) > 0 ? -Math.tan(quarterRad) : Math.tan(quarterRad);
}
