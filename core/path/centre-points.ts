/** Centrelines as points, for drawing. */

import { pointAt, type Span } from './trace-primary.ts';
import type { Vector } from './vector.ts';

/** An arc is drawn in chords of this many degrees at most, which lie within 0.1 % of the CLR of it. */
const STEP_DEG = 5;

/** Points along spans that follow each other, the first span's start included. Empty without spans. */
export function centrePoints(spans: readonly Span[]): readonly Vector[] {
  const [first] = spans;
  if (first === undefined) return [];
  const points: Vector[] = [first.start];
  for (const span of spans) {
    const steps = span.kind === 'arc' ? Math.max(1, Math.ceil(span.angleDeg / STEP_DEG)) : 1;
    for (let step = 1; step <= steps; step += 1) points.push(pointAt(span, step / steps));
  }
  return points;
}
