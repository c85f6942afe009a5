/** Turns about one or two axes that bring one direction onto another, in closed form, large ones included. */

import {
  add,
  angleBetweenRad,
  cross,
  dot,
  magnitude,
  scale,
  subtract,
  turnBetweenRad,
  type Vector,
} from '../../path/vector.ts';
import { radiansOf } from '../../units/angle.ts';

/** Sine of an angle below which two directions count as parallel here, about a twentieth of a degree. */
const PARALLEL = 1e-3;
/** Turns tried where any turn would do; every 45 degrees. */
const ROUND: readonly number[] = [1, 2, 3, 4, 5, 6, 7].map((eighth) => radiansOf(45 * eighth));

/** Turns about `axis` that carry `from` onto `to` within `slackRad`; many where `from` lies on the axis. */
export function oneTurn(axis: Vector, from: Vector, to: Vector, slackRad: number): readonly number[] {
  if (magnitude(cross(axis, from)) < PARALLEL) return angleBetweenRad(from, to) <= slackRad + PARALLEL ? ROUND : [];
  const offRad = Math.abs(angleBetweenRad(axis, from) - angleBetweenRad(axis, to));
  return offRad > slackRad ? [] : [turnBetweenRad(axis, from, to)];
}

/**
 * Pairs of turns, about `first` and before it about `second`, that carry `from` onto `to` (so `to` is turn 1 of turn 2 of `from`).
 *
 * Up to two pairs in general; where the axes or a direction fall together a family of pairs does, of which every 45
 * degrees are given. Method: B. Paden (1986), subproblem 2, with both ends of the cones' crossing; pairs that miss by up to
 * `slackRad` are given too, as near as they come.
 */
export function twoTurns(
  axes: { readonly first: Vector; readonly second: Vector },
  from: Vector,
  to: Vector,
  slackRad: number,
): readonly (readonly [number, number])[] {
  const { first, second } = axes;
  const across = cross(first, second);
  const square = dot(across, across);
  if (square < PARALLEL * PARALLEL) return alike(axes, from, to, slackRad);
  if (magnitude(cross(second, from)) < PARALLEL) {
    return oneTurn(first, from, to, slackRad).flatMap((turn) => [0, ...ROUND].map((free) => [turn, free] as const));
  }
  if (magnitude(cross(first, to)) < PARALLEL) {
    return oneTurn(second, from, to, slackRad).flatMap((turn) => [0, ...ROUND].map((free) => [free, turn] as const));
  }
  const cosine = dot(first, second);
  const alongFirst = dot(first, to);
  const alongSecond = dot(second, from);
  const alpha = (cosine * alongSecond - alongFirst) / (cosine * cosine - 1);
  const beta = (cosine * alongFirst - alongSecond) / (cosine * cosine - 1);
  const left = 1 - alpha * alpha - beta * beta - 2 * alpha * beta * cosine;
  if (left < -2 * slackRad) return [];
  const inPlane = add(scale(first, alpha), scale(second, beta));
  const height = Math.sqrt(Math.max(0, left) / square);
  const between =
    height < 1e-6 ? [inPlane] : [add(inPlane, scale(across, height)), subtract(inPlane, scale(across, height))];
  return between.map((direction) => [turnBetweenRad(first, direction, to), turnBetweenRad(second, from, direction)]);
}

/** Parallel axes act as one: their turns add up, and may be shared out in any way. */
function alike(
  { first, second }: { readonly first: Vector; readonly second: Vector },
  from: Vector,
  to: Vector,
  slackRad: number,
): readonly (readonly [number, number])[] {
  const sign = dot(first, second) < 0 ? -1 : 1;
  return oneTurn(first, from, to, slackRad).flatMap((turn) =>
    [0, ...ROUND].map((share) => [share, sign * (turn - share)] as const),
  );
}
