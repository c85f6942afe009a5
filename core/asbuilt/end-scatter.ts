/** Where the end of a primary may come out when every piece is made within the shop's tolerances, and which joint does most to it. */

import { type Header, type Primary, tubeOf } from '../header/header.ts';
import type { ShopTolerances } from '../header/measured.ts';
import type { PathProblem } from '../path/path-problem.ts';
import { type TubePath, tracePrimary } from '../path/trace-primary.ts';
import { dot, magnitude, squareTo } from '../path/vector.ts';
import { type Result, success } from '../result.ts';
import { degreesOf, radiansOf } from '../units/angle.ts';
import { mmOf } from '../units/length.ts';
import { deviationOf, type FigureMotion, figureMotions } from './figure-motions.ts';
import { tolerancesOf } from './shop-tolerances.ts';

/** Root mean squares over many tubes made to the same figures; see `endScatter`. */
export interface EndScatter {
  /** Distance from where the end should be, mm. */
  readonly gapMm: number;
  /** Along the tube at its end, and square to it, mm. */
  readonly alongMm: number;
  readonly asideMm: number;
  /** Angle between the directions, degrees. */
  readonly tiltDeg: number;
}

/** A bend, with what one degree at it does to the end. */
export interface JointReach {
  readonly pieceIndex: number;
  /** How far the end moves for one degree of clocking at the joint before the bend, mm. */
  readonly clockingMm: number;
  /** How far it moves for one degree of the bend's angle, mm. */
  readonly angleMm: number;
  /** This bend's part of the scatter: of the mean square distance, 0 to 1. */
  readonly share: number;
}

export interface EndReach {
  readonly scatter: EndScatter;
  /** Of every bend, in order. */
  readonly joints: readonly JointReach[];
  /** The place in `joints` of the one that does most to the scatter; null where there is no bend. */
  readonly watch: number | null;
}

/**
 * Scatter of the end, and the reach of every bend. Every figure is taken to be anywhere within its tolerance, independent of
 * the others; to first order in them, which is within 5 % of trials up to 1 1/2 degrees a joint (C7 in
 * tests/core/asbuilt/end-scatter.test.ts). A primary without a port is traced from the usual one: nothing here hangs on where
 * it stands. Problems: its path is not known.
 */
export function endReach(header: Header, primary: Primary): Result<EndReach, PathProblem> {
  const traced = tracePrimary(primary, primary.port);
  if (!traced.ok) return traced;
  const path = traced.value;
  const motions = figureMotions(primary, path, mmOf(tubeOf(header, primary).od));
  const tolerances = tolerancesOf(header);
  const scatter = scatterOf(motions, path, tolerances);
  const joints = jointsOf(primary, motions, { tolerances, gapMm: scatter.gapMm });
  return success({ scatter, joints, watch: mostOf(joints) });
}

function scatterOf(motions: readonly FigureMotion[], { end }: TubePath, tolerances: ShopTolerances): EndScatter {
  const { tangent } = end;
  const sums = { along: 0, aside: 0, tilt: 0 };
  for (const { figure, shift, turn } of motions) {
    const deviation = deviationOf(figure, tolerances);
    sums.along += (deviation * dot(shift, tangent)) ** 2;
    sums.aside += (deviation * magnitude(squareTo(tangent, shift))) ** 2;
    sums.tilt += (deviation * magnitude(turn)) ** 2;
  }
  return {
    gapMm: Math.sqrt(sums.along + sums.aside),
    alongMm: Math.sqrt(sums.along),
    asideMm: Math.sqrt(sums.aside),
    tiltDeg: degreesOf(Math.sqrt(sums.tilt)),
  };
}

interface Scattered {
  readonly tolerances: ShopTolerances;
  readonly gapMm: number;
}

function jointsOf(
  { pieces }: Primary,
  motions: readonly FigureMotion[],
  { tolerances, gapMm }: Scattered,
): readonly JointReach[] {
  return pieces.flatMap((piece, pieceIndex): readonly JointReach[] => {
    if (piece.kind === 'straight') return [];
    const own = motions.filter((motion) => motion.pieceIndex === pieceIndex);
    const perDegree = (kind: FigureMotion['figure']) => {
      const found = own.find(({ figure }) => figure === kind);
      return found === undefined ? 0 : magnitude(found.shift) * radiansOf(1);
    };
    const square = own.reduce(
      (sum, { figure, shift }) => sum + (deviationOf(figure, tolerances) * magnitude(shift)) ** 2,
      0,
    );
    const share = gapMm === 0 ? 0 : square / gapMm ** 2;
    return [{ pieceIndex, clockingMm: perDegree('clocking'), angleMm: perDegree('angle'), share }];
  });
}

function mostOf(joints: readonly JointReach[]): number | null {
  if (joints.length === 0) return null;
  return joints.reduce((best, { share }, index) => (share > (joints[best]?.share ?? 0) ? index : best), 0);
}
