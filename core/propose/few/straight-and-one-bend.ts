/** Tubes without a bend, where port and inlet are in one line, and with one, where their axes meet. */

import { angleBetweenRad, cross, dot, magnitude, squareTo, subtract, turnBetweenRad, unit } from '../../path/vector.ts';
import type { LeastStraights, TubeEnds, TubeShape } from '../joints/tube-shape.ts';

/** Directions that differ by less are the same, and by less from 180 degrees opposite: about a twentieth of a degree. */
const SAME_RAD = 1e-3;

export interface FewBendQuestion {
  readonly ends: TubeEnds;
  readonly least: LeastStraights;
  /** By how much two axes may pass each other and still count as meeting, mm. */
  readonly roomMm: number;
}

/** The one straight from port to inlet; null where they are not in line, or it would be under the least. */
export function straightShape({ ends: { start, wanted }, least, roomMm }: FewBendQuestion): TubeShape | null {
  const between = subtract(wanted.point, start.point);
  const alongMm = dot(between, start.tangent);
  const isInLine =
    angleBetweenRad(start.tangent, wanted.tangent) < 2 * SAME_RAD &&
    magnitude(squareTo(start.tangent, between)) <= roomMm;
  // It is the first straight and the last, and lengthens what is kept as the first does.
  return isInLine && alongMm > 0 && alongMm >= least.firstMm ? { straightsMm: [alongMm], bends: [] } : null;
}

/**
 * The tube with one bend of this CLR; null where there is none. Its corner is where the axes meet, or pass each other within the room. A
 * bend of 180 degrees joins parallel axes that lie two CLRs apart: of it the length may be chosen, `lengthMm` or the least where that is null.
 */
export function oneBend(question: FewBendQuestion, clrMm: number, lengthMm: number | null): TubeShape | null {
  const { start, wanted } = question.ends;
  const angleRad = angleBetweenRad(start.tangent, wanted.tangent);
  if (angleRad < SAME_RAD) return null;
  if (angleRad > Math.PI - SAME_RAD) return uBend(question, clrMm, lengthMm);
  const between = subtract(wanted.point, start.point);
  const axis = cross(start.tangent, wanted.tangent);
  const square = dot(axis, axis);
  const passMm = Math.abs(dot(between, axis)) / Math.sqrt(square);
  if (passMm > question.roomMm) return null;
  const toCornerMm = dot(cross(between, wanted.tangent), axis) / square;
  const fromCornerMm = -dot(cross(between, start.tangent), axis) / square;
  const setbackMm = clrMm * Math.tan(angleRad / 2);
  const inward = squareTo(start.tangent, wanted.tangent);
  return workable(question, {
    straightsMm: [toCornerMm - setbackMm, fromCornerMm - setbackMm],
    bends: [{ clrMm, clockingRad: turnBetweenRad(start.tangent, start.normal, inward), angleRad }],
  });
}

function uBend(question: FewBendQuestion, clrMm: number, lengthMm: number | null): TubeShape | null {
  const { start, wanted } = question.ends;
  const { least } = question;
  const between = subtract(wanted.point, start.point);
  const aside = squareTo(start.tangent, between);
  const asideMm = magnitude(aside);
  if (asideMm < 1e-9 || Math.abs(asideMm - 2 * clrMm) > question.roomMm) return null;
  const forwardMm = dot(between, start.tangent);
  const leastSumMm = Math.max(2 * least.firstMm - forwardMm, forwardMm + 2 * least.lastMm);
  const sumMm = lengthMm === null ? leastSumMm : lengthMm - Math.PI * clrMm;
  return workable(question, {
    straightsMm: [(sumMm + forwardMm) / 2, (sumMm - forwardMm) / 2],
    bends: [{ clrMm, clockingRad: turnBetweenRad(start.tangent, start.normal, unit(aside)), angleRad: Math.PI }],
  });
}

function workable({ least }: FewBendQuestion, shape: TubeShape): TubeShape | null {
  const [firstMm = 0, lastMm = 0] = shape.straightsMm;
  return firstMm >= least.firstMm - 1e-9 && lastMm >= least.lastMm - 1e-9 ? shape : null;
}
