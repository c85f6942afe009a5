/** Whether two proposed tubes leave the gap wanted: mostly told by a few points of each, else by the exact clearance. */

import { bodyClearance, type TubeBody, tubeBody } from '../../path/clearance/clearance.ts';
import { APPROACH_DIAMETERS, collectorGaps } from '../../path/clearance/collector-gaps.ts';
import { pathLengthMm, pointAt, type TubePath } from '../../path/trace-primary.ts';

/** A tube with points strewn along its centreline, no place of it farther from one than `withinMm`. */
export interface TubeCloud {
  /** Made when it is first asked for. */
  readonly body: () => TubeBody;
  readonly odMm: number;
  readonly collectorId: string | null;
  /** Three figures a point, from the port on. */
  readonly points: Float64Array;
  /** So many of them lie before the last four diameters, where tubes may come together at a collector. */
  readonly before: number;
  readonly withinMm: number;
}

/** About so far apart are the points. */
const APART_MM = 20;

export function tubeCloud(path: TubePath, odMm: number, collectorId: string | null): TubeCloud {
  const figures: number[] = [];
  const leftAt: number[] = [];
  let leftMm = pathLengthMm(path);
  let farthest = 0;
  for (const span of path.spans) {
    const parts = Math.max(1, Math.ceil(span.lengthMm / APART_MM));
    for (let part = 0; part < parts; part += 1) {
      const share = (part + 0.5) / parts;
      const { x, y, z } = pointAt(span, share);
      figures.push(x, y, z);
      leftAt.push(leftMm - share * span.lengthMm);
    }
    farthest = Math.max(farthest, span.lengthMm / parts / 2);
    leftMm -= span.lengthMm;
  }
  const before = leftAt.filter((mm) => mm > APPROACH_DIAMETERS * odMm).length;
  let body: TubeBody | null = null;
  const made = () => {
    body ??= tubeBody(path, odMm);
    return body;
  };
  return { body: made, odMm, collectorId, points: Float64Array.from(figures), before, withinMm: farthest };
}

/** Whether the tubes come nearer than `gapMm`, but where they come together at the collector that both go into. */
export function isTooNear(a: TubeCloud, b: TubeCloud, gapMm: number): boolean {
  const nearMm = gapMm + (a.odMm + b.odMm) / 2;
  const meet = a.collectorId !== null && a.collectorId === b.collectorId;
  const told = byPoints(a, b, nearMm, meet);
  if (told !== null) return told;
  const [one, other] = [a.body(), b.body()];
  const clearance = meet ? collectorGaps(one, other, gapMm).elsewhere : bodyClearance(one, other);
  return clearance !== null && clearance.gapMm < gapMm - 1e-6;
}

/** Null where the points alone do not tell. */
function byPoints(a: TubeCloud, b: TubeCloud, nearMm: number, meet: boolean): boolean | null {
  const [countA, countB] = [a.points.length / 3, b.points.length / 3];
  // The larger of both approaches counts for either tube, so both must lie before their own.
  const [certainA, certainB] = meet ? [a.before, b.before] : [countA, countB];
  let least = Number.POSITIVE_INFINITY;
  for (let i = 0; i < countA; i += 1) {
    const x = a.points[3 * i] as number;
    const y = a.points[3 * i + 1] as number;
    const z = a.points[3 * i + 2] as number;
    for (let j = 0; j < countB; j += 1) {
      const dx = x - (b.points[3 * j] as number);
      const dy = y - (b.points[3 * j + 1] as number);
      const dz = z - (b.points[3 * j + 2] as number);
      const square = dx * dx + dy * dy + dz * dz;
      if (square < least) least = square;
      if (square < nearMm * nearMm && i < certainA && j < certainB) return true;
    }
  }
  return Math.sqrt(least) > nearMm + a.withinMm + b.withinMm ? false : null;
}
