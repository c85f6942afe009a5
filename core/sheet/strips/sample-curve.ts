/** Curves as points: close enough that a saw cannot tell, and no closer. */

import type { StripPoint } from './strip.ts';

/** How far a chord may leave the curve, mm; a tenth of a thin pencil line at most. */
export const CHORD_MM = 0.002;

/** Parts that every curve is cut into first; quarters and sixteenths fall on their ends, and with them most kinks. */
const FIRST_PARTS = 64;
/** Halvings at most: past them two points are nearer than any printer's dot. */
const MOST_HALVINGS = 16;

/**
 * Points on the curve from `from` to `to`, so dense that the chords between them are within `chordMm` of it. Every point is on
 * the curve itself. A curve with kinks is followed as well: parts are halved until they fit.
 */
export function sampleCurve(
  curve: (turnRad: number) => StripPoint,
  [from, to]: readonly [number, number],
  chordMm = CHORD_MM,
): readonly StripPoint[] {
  const points: StripPoint[] = [curve(from)];
  const walk = (start: number, end: number, halvings: number): void => {
    const [a, b] = [curve(start), curve(end)];
    if (halvings < MOST_HALVINGS && !isFlat(curve, [start, end], [a, b], chordMm)) {
      const middle = (start + end) / 2;
      walk(start, middle, halvings + 1);
      walk(middle, end, halvings + 1);
    } else points.push(b);
  };
  for (let part = 0; part < FIRST_PARTS; part += 1) {
    walk(from + ((to - from) * part) / FIRST_PARTS, from + ((to - from) * (part + 1)) / FIRST_PARTS, 0);
  }
  return points;
}

/** Looked at in three places, so that a kink beside the middle is not missed. */
function isFlat(
  curve: (turnRad: number) => StripPoint,
  [start, end]: readonly [number, number],
  [a, b]: readonly [StripPoint, StripPoint],
  chordMm: number,
): boolean {
  return [0.25, 0.5, 0.75].every(
    (share) => distanceToChordMm(curve(start + (end - start) * share), a, b) <= chordMm / 2,
  );
}

/** Distance of a point from the straight through `a` and `b`; from `a` where the two are one. */
export function distanceToChordMm(point: StripPoint, a: StripPoint, b: StripPoint): number {
  const [alongX, alongY] = [b.xMm - a.xMm, b.yMm - a.yMm];
  const lengthMm = Math.hypot(alongX, alongY);
  const [dx, dy] = [point.xMm - a.xMm, point.yMm - a.yMm];
  return lengthMm === 0 ? Math.hypot(dx, dy) : Math.abs(dx * alongY - dy * alongX) / lengthMm;
}
