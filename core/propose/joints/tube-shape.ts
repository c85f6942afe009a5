/** A tube in joint space: straights, and between them bends by CLR, clocking and angle. */

import { clockBy, type Frame, goRound, goStraight } from '../../path/frame.ts';
import { turnBetweenRad } from '../../path/vector.ts';
import { degreesOf } from '../../units/angle.ts';

export interface TubeBend {
  readonly clrMm: number;
  /** Against the bend before it, or the normal of the start; as in the document, but in radians. */
  readonly clockingRad: number;
  /** 0 to pi. */
  readonly angleRad: number;
}

/** One straight more than there are bends: before the first, between all, after the last. */
export interface TubeShape {
  readonly straightsMm: readonly number[];
  readonly bends: readonly TubeBend[];
}

/** Where a tube begins and where it must end. The normal of `wanted` plays no part: a tube has no roll of its own. */
export interface TubeEnds {
  readonly start: Frame;
  readonly wanted: Frame;
}

/** The least that straights may be, mm. */
export interface LeastStraights {
  /** Less than the others where it lengthens a straight that is kept: of that and it together the least is asked. */
  readonly firstMm: number;
  readonly betweenMm: number;
  readonly lastMm: number;
}

/** Of the straight at `index` of a tube with so many bends. */
export function leastAt({ firstMm, betweenMm, lastMm }: LeastStraights, index: number, bends: number): number {
  if (index === 0) return firstMm;
  return index === bends ? lastMm : betweenMm;
}

/** Length of the centreline, mm. */
export function shapeLengthMm({ straightsMm, bends }: TubeShape): number {
  let sumMm = 0;
  for (const straightMm of straightsMm) sumMm += straightMm;
  for (const { clrMm, angleRad } of bends) sumMm += clrMm * angleRad;
  return sumMm;
}

/** Where the tube ends that starts at `start`. */
export function shapeEnd(start: Frame, { straightsMm, bends }: TubeShape): Frame {
  let frame = goStraight(start, straightsMm[0] ?? 0);
  for (const [index, { clrMm, clockingRad, angleRad }] of bends.entries()) {
    const clocked = clockBy(frame, degreesOf(clockingRad));
    frame = goStraight(goRound(clocked, clrMm, degreesOf(angleRad)), straightsMm[index + 1] ?? 0);
  }
  return frame;
}

/** The same tube seen from its other end: where it must end is where it starts. */
export function reversedEnds({ start, wanted }: TubeEnds): TubeEnds {
  return { start: turnedBack(wanted), wanted: turnedBack(start) };
}

/** The same tube from its other end, which is where `start` is; how far a plane turns from bend to bend is the same from both. */
export function reversedShape(ends: TubeEnds, shape: TubeShape): TubeShape {
  const { start } = reversedEnds(ends);
  const { normal } = shapeEnd(ends.start, shape);
  const clockingsRad = shape.bends.map(({ clockingRad }) => clockingRad).reverse();
  return {
    straightsMm: shape.straightsMm.toReversed(),
    bends: shape.bends.toReversed().map(({ clrMm, angleRad }, at) => ({
      clrMm,
      angleRad,
      clockingRad: at === 0 ? turnBetweenRad(start.tangent, start.normal, normal) : (clockingsRad[at - 1] ?? 0),
    })),
  };
}

function turnedBack({ point, tangent, normal }: Frame): Frame {
  return { point, tangent: { x: -tangent.x, y: -tangent.y, z: -tangent.z }, normal };
}
