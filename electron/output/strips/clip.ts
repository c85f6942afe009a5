/** Lines cut off at the edges of a rectangle. */

import type { StripPoint } from '../../../core/index.ts';

export interface Window {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

/** The stretches of a run of points that lie within the window, in order. */
export function clipRun(points: readonly StripPoint[], window: Window): readonly (readonly StripPoint[])[] {
  const runs: StripPoint[][] = [];
  points.slice(1).forEach((b, index) => {
    const a = points[index];
    const inside = a === undefined ? null : clipSegment(a, b, window);
    if (inside === null) return;
    const last = runs.at(-1);
    const joins = last !== undefined && isSame(last.at(-1), inside[0]);
    if (joins) last.push(inside[1]);
    else runs.push([...inside]);
  });
  return runs;
}

function isSame(a: StripPoint | undefined, b: StripPoint): boolean {
  return a?.xMm === b.xMm && a.yMm === b.yMm;
}

/**
 * The part of a segment within the window; null when there is none.
 * Source: Liang and Barsky, A New Concept and Method for Line Clipping, ACM TOG 3(1), 1984.
 */
function clipSegment(
  a: StripPoint,
  b: StripPoint,
  { left, top, right, bottom }: Window,
): [StripPoint, StripPoint] | null {
  const [dx, dy] = [b.xMm - a.xMm, b.yMm - a.yMm];
  let [from, to] = [0, 1];
  const edges: readonly (readonly [slope: number, room: number])[] = [
    [-dx, a.xMm - left],
    [dx, right - a.xMm],
    [-dy, a.yMm - top],
    [dy, bottom - a.yMm],
  ];
  for (const [slope, room] of edges) {
    if (slope === 0) {
      if (room < 0) return null;
      continue;
    }
    const share = room / slope;
    if (slope < 0) from = Math.max(from, share);
    else to = Math.min(to, share);
  }
  if (from > to) return null;
  const point = (share: number): StripPoint => ({ xMm: a.xMm + dx * share, yMm: a.yMm + dy * share });
  return [from === 0 ? a : point(from), to === 1 ? b : point(to)];
}
