/** Which single joint, turned or not, explains best that a primary misses where it should end. */

import type { Header, Primary } from '../../header/header.ts';
import { failure, type Result, success } from '../../result.ts';
import { degreesOf } from '../../units/angle.ts';
import type { Frame } from '../frame.ts';
import type { PathProblem } from '../path-problem.ts';
import { traceFrom } from '../trace-primary.ts';
import { add, cross, dot, squareTo, subtract, turnAbout, type Vector } from '../vector.ts';
import { type Closure, closureMissMm, closureOf, TILT_ARM_MM } from './closure.ts';
import { inletFrame, placedPath } from './inlet-pose.ts';

/** Turning everything from one bend onwards about the tube's axis at the joint before it. */
export interface JointTurn {
  readonly pieceIndex: number;
  readonly pieceId: string;
  /** To be added to that bend's clocking, in degrees over (-180, 180]. */
  readonly turnDeg: number;
  readonly closureAfter: Closure;
  /** What is left of the miss after the turn, as `closureMissMm` counts it. */
  readonly leftMm: number;
}

/**
 * For every bend of a primary, the one turn at the joint before it that brings the end nearest to `wanted`; best first.
 *
 * Turning by `a` about the axis at the joint carries the end to P + R(a)(E - P). The squared miss, gap squared plus
 * (100 mm x tangent difference) squared, is C - 2 (A cos a + B sin a), so the best turn is atan2(B, A): exact, without
 * searching. Empty when the path is not known. Linear in the number of bends.
 */
export function singleJointTurns(primary: Primary, start: Frame, wanted: Frame): readonly JointTurn[] {
  const { path, problem } = traceFrom(primary, start);
  if (problem !== null) return [];
  const turns = primary.pieces.flatMap((piece, pieceIndex): readonly JointTurn[] => {
    const joint = path.joints[pieceIndex];
    if (piece.kind === 'straight' || joint === undefined) return [];
    const turnRad = bestTurnRad(joint, path.end, wanted);
    const closureAfter = closureOf(turnedEnd(joint, path.end, turnRad), wanted);
    const leftMm = closureMissMm(closureAfter);
    return [{ pieceIndex, pieceId: piece.id, turnDeg: degreesOf(turnRad), closureAfter, leftMm }];
  });
  return turns.sort((a, b) => a.leftMm - b.leftMm);
}

/** A joint accounts for a miss when turning it leaves less than this part. */
const EXPLAINED_PART = 0.1;

/** Whether the miss of `before` is the doing of this one joint. */
export function explainsMiss(turn: JointTurn, before: Closure): boolean {
  return turn.leftMm < EXPLAINED_PART * closureMissMm(before);
}

/** Turns smaller than this are not worth breaking a joint for. */
const LEAST_TURN_DEG = 0.05;

/** Whether the turn brings the end nearer by more than a joint is worth. */
export function isWorthTurning(turn: JointTurn, before: Closure): boolean {
  return Math.abs(turn.turnDeg) >= LEAST_TURN_DEG && turn.closureAfter.gapMm < before.gapMm;
}

/** `singleJointTurns` for a primary in its header, towards its own inlet. Problems name what is not known yet. */
export function jointTurnsToInlet(header: Header, primary: Primary): Result<readonly JointTurn[], PathProblem> {
  if (primary.inletId === null) {
    return failure({ kind: 'inletNotAssigned', primaryId: primary.id, primaryName: primary.name });
  }
  const path = placedPath(primary);
  if (!path.ok) return path;
  const inlet = inletFrame(header, primary.inletId);
  if (!inlet.ok) return inlet;
  return success(singleJointTurns(primary, path.value.joints[0] ?? path.value.end, inlet.value));
}

function bestTurnRad(joint: Frame, end: Frame, wanted: Frame): number {
  const arm = subtract(end.point, joint.point);
  const wantedArm = subtract(wanted.point, joint.point);
  const [cosineOfArm, sineOfArm] = turnTerms(joint.tangent, arm, wantedArm);
  const [cosineOfTilt, sineOfTilt] = turnTerms(joint.tangent, end.tangent, wanted.tangent);
  const weight = TILT_ARM_MM * TILT_ARM_MM;
  const cosine = cosineOfArm + weight * cosineOfTilt;
  const sine = sineOfArm + weight * sineOfTilt;
  // An end on the axis of the joint is not moved by turning it.
  return Math.hypot(cosine, sine) < 1e-9 ? 0 : Math.atan2(sine, cosine);
}

/** The products that multiply cos and sin of the turn in (R(a) from) . to. */
function turnTerms(axis: Vector, from: Vector, to: Vector): readonly [number, number] {
  return [dot(squareTo(axis, from), to), dot(cross(axis, from), to)];
}

function turnedEnd(joint: Frame, end: Frame, turnRad: number): Frame {
  const turned = (vector: Vector) => turnAbout(joint.tangent, vector, turnRad);
  return {
    point: add(joint.point, turned(subtract(end.point, joint.point))),
    tangent: turned(end.tangent),
    normal: turned(end.normal),
  };
}
