/** The least distance of two centrelines as plain programs find it: enclosing spheres, samples and golden section. What ours is timed against. */

import type { Span, TubePath } from '../../core/path/trace-primary.ts';
import type { Vector } from '../../core/path/vector.ts';

/** A span with the sphere around it. */
interface Sphered {
  readonly span: Span;
  readonly middle: Vector;
  readonly reachMm: number;
}

/** A path made ready once, as `tubeBody` does. */
export type PlainPath = readonly Sphered[];

export function plainPath(path: TubePath): PlainPath {
  return path.spans.map((span) => {
    const middle = placeAt(span, span.lengthMm / 2);
    const reachMm = Math.max(apart(middle, span.start), apart(middle, span.end));
    return { span, middle, reachMm };
  });
}

const GOLDEN = (Math.sqrt(5) - 1) / 2;
/** Within so much of the nearest place the distance is right to its last digits. */
const SETTLED_MM = 1e-4;

/** The least distance of two spans where that is under `knownMm`; otherwise anything not under it. */
type SpanDistance = (one: Span, other: Span, knownMm: number) => number;

/** From the nearest spheres on, until no sphere is nearer than what was found. */
export function plainDistanceMm(a: PlainPath, b: PlainPath, spansMm: SpanDistance): number {
  const pairs: { readonly one: Span; readonly other: Span; readonly boundMm: number }[] = [];
  for (const one of a) {
    for (const other of b) {
      const boundMm = apart(one.middle, other.middle) - one.reachMm - other.reachMm;
      pairs.push({ one: one.span, other: other.span, boundMm });
    }
  }
  pairs.sort((x, y) => x.boundMm - y.boundMm);
  let bestMm = Number.POSITIVE_INFINITY;
  for (const { one, other, boundMm } of pairs) {
    if (boundMm >= bestMm) break;
    bestMm = Math.min(bestMm, spansMm(one, other, bestMm));
  }
  return bestMm;
}

/** Samples of a span, along which a hollow is bracketed; the fewest with which none is missed on the tubes that are timed. */
const SAMPLES = 6;

/** Samples along both spans; from each hollow of the grid golden section along one, within it golden section along the other. */
export function bySearchAlongBoth(one: Span, other: Span, knownMm: number): number {
  const [stepA, stepB] = [one.lengthMm / SAMPLES, other.lengthMm / SAMPLES];
  const alongA = Array.from({ length: SAMPLES + 1 }, (_, i) => placeAt(one, i * stepA));
  const alongB = Array.from({ length: SAMPLES + 1 }, (_, i) => placeAt(other, i * stepB));
  const grid = alongA.map((p) => alongB.map((q) => apart(p, q)));
  let bestMm = Math.min(knownMm, ...grid.flat());
  for (let i = 0; i <= SAMPLES; i += 1) {
    for (let j = 0; j <= SAMPLES; j += 1) {
      const mm = grid[i]?.[j] as number;
      const around = [grid[i - 1]?.[j], grid[i + 1]?.[j], grid[i]?.[j - 1], grid[i]?.[j + 1]];
      // Along a tube the distance changes by no more than one goes.
      if (around.some((near) => near !== undefined && near < mm) || mm - stepA - stepB >= bestMm) continue;
      const inner = (a: number) => {
        const from = placeAt(one, a);
        return golden((b) => apart(from, placeAt(other, b)), ...bracket(j, stepB));
      };
      bestMm = Math.min(bestMm, golden(inner, ...bracket(i, stepA)));
    }
  }
  return bestMm;
}

/** Samples along one span only, from each of which the nearest point of the other is known in closed form. */
export function byClosedForm(one: Span, other: Span, knownMm: number): number {
  const stepMm = one.lengthMm / SAMPLES;
  const at = (alongMm: number) => toSpan(placeAt(one, alongMm), other);
  const sampled = Array.from({ length: SAMPLES + 1 }, (_, i) => at(i * stepMm));
  let bestMm = Math.min(knownMm, ...sampled);
  for (const [i, mm] of sampled.entries()) {
    const isHollow = mm <= (sampled[i - 1] ?? mm) && mm <= (sampled[i + 1] ?? mm);
    if (isHollow && mm - stepMm < bestMm) bestMm = Math.min(bestMm, golden(at, ...bracket(i, stepMm)));
  }
  return bestMm;
}

function bracket(sample: number, stepMm: number): readonly [number, number] {
  return [Math.max(0, sample - 1) * stepMm, Math.min(SAMPLES, sample + 1) * stepMm];
}

function golden(at: (alongMm: number) => number, from: number, to: number): number {
  let [low, high] = [from, to];
  let [left, right] = [high - GOLDEN * (high - low), low + GOLDEN * (high - low)];
  let [atLeft, atRight] = [at(left), at(right)];
  while (high - low > SETTLED_MM) {
    if (atLeft <= atRight) {
      [high, right, atRight] = [right, left, atLeft];
      left = high - GOLDEN * (high - low);
      atLeft = at(left);
    } else {
      [low, left, atLeft] = [left, right, atRight];
      right = low + GOLDEN * (high - low);
      atRight = at(right);
    }
  }
  // The ends themselves are never probed above, and are often the answer.
  return Math.min(atLeft, atRight, at(from), at(to));
}

function apart(a: Vector, b: Vector): number {
  return Math.hypot(a.x - b.x, a.y - b.y, a.z - b.z);
}

function placeAt(span: Span, alongMm: number): Vector {
  const { start, tangent } = span;
  if (span.kind === 'line') {
    return { x: start.x + tangent.x * alongMm, y: start.y + tangent.y * alongMm, z: start.z + tangent.z * alongMm };
  }
  const { centre, normal, clrMm } = span;
  const [inward, onward] = [-clrMm * Math.cos(alongMm / clrMm), clrMm * Math.sin(alongMm / clrMm)];
  return {
    x: centre.x + normal.x * inward + tangent.x * onward,
    y: centre.y + normal.y * inward + tangent.y * onward,
    z: centre.z + normal.z * inward + tangent.z * onward,
  };
}

function toSpan(point: Vector, span: Span): number {
  const from = span.kind === 'line' ? span.start : span.centre;
  const [x, y, z] = [point.x - from.x, point.y - from.y, point.z - from.z];
  const onward = x * span.tangent.x + y * span.tangent.y + z * span.tangent.z;
  if (span.kind === 'line') {
    const held = Math.min(span.lengthMm, Math.max(0, onward));
    return Math.hypot(x - span.tangent.x * held, y - span.tangent.y * held, z - span.tangent.z * held);
  }
  const outward = -(x * span.normal.x + y * span.normal.y + z * span.normal.z);
  const turn = Math.atan2(onward, outward);
  if ((turn < 0 ? turn + 2 * Math.PI : turn) * span.clrMm > span.lengthMm) {
    return Math.min(apart(point, span.start), apart(point, span.end));
  }
  const aside = Math.sqrt(Math.max(0, x * x + y * y + z * z - onward * onward - outward * outward));
  return Math.hypot(Math.hypot(onward, outward) - span.clrMm, aside);
}
