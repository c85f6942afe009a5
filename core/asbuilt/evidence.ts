/** All that is known of a finished primary but its pieces, and how far a list of pieces is from it. */

import { type Header, type Primary, type Tube, tubeOf } from '../header/header.ts';
import type { MeasureKind, ShopTolerances } from '../header/measured.ts';
import { closureLimits, findInlet, inletFrame } from '../path/ends/inlet-pose.ts';
import { binormalOf, DEFAULT_PORT, type Frame, frameOfPose } from '../path/frame.ts';
import { type TubePath, traceFrom } from '../path/trace-primary.ts';
import { angleBetweenRad, cross, dot, magnitude, scale, subtract, type Vector } from '../path/vector.ts';
import { radiansOf } from '../units/angle.ts';
import { mmOf } from '../units/length.ts';
import { lengthPer } from './as-built.ts';
import { deviationOf, figureMotions } from './figure-motions.ts';
import { choleskyFactor, innerProduct, logDeterminant, type Matrix, whitened } from './normal-matrix.ts';
import { lengthAlong, readLength } from './path-lengths.ts';
import { deviationOfLimit, tolerancesOf } from './shop-tolerances.ts';

/** The inlet that the finished tube is known to end in; standard deviations of where it was measured. */
interface InletEvidence {
  readonly frame: Frame;
  readonly alongMm: number;
  readonly asideMm: number;
  readonly tiltRad: number;
}

export interface Evidence {
  readonly header: Header;
  readonly tube: Tube;
  readonly tolerances: ShopTolerances;
  readonly lengths: readonly {
    readonly kind: MeasureKind;
    readonly measuredMm: number;
    readonly deviationMm: number;
  }[];
  /** Null: there is no inlet, it is not measured, or a clocking is not recorded. */
  readonly inlet: InletEvidence | null;
  readonly start: Frame;
}

/** No reading is taken as surer than this, mm and degrees: nothing at a bench is exact. */
const LEAST_MM = 0.05;
const LEAST_DEG = 0.02;

/** What is known of a primary; the closure counts where its port, its inlet and every clocking are there. */
export function evidenceOf(header: Header, primary: Primary): Evidence {
  const tube = tubeOf(header, primary);
  const lengths = (primary.measured ?? []).map((reading) => {
    const { lengthMm, withinMm } = readLength(reading, tube);
    return { kind: reading.kind, measuredMm: lengthMm, deviationMm: deviationOfLimit(Math.max(LEAST_MM, withinMm)) };
  });
  const port = primary.port === null ? null : frameOfPose(primary.port);
  const start = port?.ok === true ? port.value : null;
  const inlet = start === null ? null : inletEvidence(header, primary, start);
  return { header, tube, tolerances: tolerancesOf(header), lengths, inlet, start: start ?? DEFAULT_PORT };
}

function inletEvidence(header: Header, primary: Primary, start: Frame): InletEvidence | null {
  const inlet = primary.inletId === null ? null : findInlet(header, primary.inletId);
  if (inlet === null || inlet.place === null || traceFrom(primary, start).problem !== null) return null;
  const frame = inletFrame(header, inlet.id);
  if (!frame.ok) return null;
  const { gapMm, tiltDeg, deeperMm, shallowerMm } = closureLimits(header, inlet);
  const asideMm = deviationOfLimit(Math.max(LEAST_MM, gapMm));
  // The tube may sit anywhere within the slip, which is then no less known than it is.
  const alongMm = Math.hypot(asideMm, deviationOfLimit((deeperMm + shallowerMm) / 2));
  return { frame: frame.value, alongMm, asideMm, tiltRad: deviationOfLimit(radiansOf(Math.max(LEAST_DEG, tiltDeg))) };
}

/** How many independent figures there are to judge a list of pieces by. */
export function evidenceCount({ lengths, inlet }: Evidence): number {
  return lengths.length + (inlet === null ? 0 : 5);
}

/** A list of pieces held against the evidence. */
export interface Weighing {
  /** Measured minus computed, in the order of the evidence: lengths in mm, then the end along the inlet and on its two sides in mm, then its tilt about those in radians. */
  readonly residuals: readonly number[];
  /** Of the covariance of the residuals: readings and pieces, each within its tolerance. */
  readonly factor: Matrix;
  /** Squared length of the residuals in standard deviations. */
  readonly chiSquared: number;
  readonly logDeterminant: number;
}

/** Null where the pieces have no path while the end is known, or where their figures cannot be. Cost: the pieces times the square of the evidence. */
export function weigh(evidence: Evidence, primary: Primary): Weighing | null {
  const traced = traceFrom(primary, evidence.start, true);
  if (evidence.inlet !== null && traced.problem !== null) return null;
  const path = evidence.inlet === null ? null : traced.path;
  const residuals = residualsOf(evidence, primary, path);
  const factor = choleskyFactor(covarianceOf(evidence, primary, path));
  if (factor === null || !residuals.every(Number.isFinite)) return null;
  const white = whitened(factor, residuals);
  return { residuals, factor, chiSquared: innerProduct(white, white), logDeterminant: logDeterminant(factor) };
}

/** The residuals alone, where many lists of pieces are looked at; null as `weigh`. */
export function residualsFor(evidence: Evidence, primary: Primary): readonly number[] | null {
  const traced = traceFrom(primary, evidence.start, true);
  if (evidence.inlet !== null && traced.problem !== null) return null;
  return residualsOf(evidence, primary, evidence.inlet === null ? null : traced.path);
}

function residualsOf(evidence: Evidence, primary: Primary, path: TubePath | null): readonly number[] {
  const { header, lengths } = evidence;
  const ofLengths = lengths.map(({ kind, measuredMm }) => measuredMm - lengthAlong(header, primary, kind));
  return path === null ? ofLengths : [...ofLengths, ...endResiduals(evidence, path.end)];
}

/** The part of the residuals that is about the end, for a tube that ends there; empty where the inlet is not known. */
export function endResiduals({ inlet }: Evidence, end: Pick<Frame, 'point' | 'tangent'>): readonly number[] {
  if (inlet === null) return [];
  const { frame } = inlet;
  const tilt = turnBetween(end.tangent, frame.tangent);
  return [...inFrame(frame, subtract(frame.point, end.point)), ...sides(frame, tilt)];
}

/** The turn that carries one direction into the other, as its axis at the length of its angle. */
function turnBetween(from: Vector, to: Vector): Vector {
  const axis = cross(from, to);
  const sine = magnitude(axis);
  return sine < 1e-12 ? axis : scale(axis, angleBetweenRad(from, to) / sine);
}

function sides(frame: Frame, vector: Vector): readonly [number, number] {
  return [dot(vector, frame.normal), dot(vector, binormalOf(frame))];
}

function inFrame(frame: Frame, vector: Vector): readonly [number, number, number] {
  return [dot(vector, frame.tangent), ...sides(frame, vector)];
}

/** Readings are independent of each other; a piece that is off its figure moves all that hangs on it together. */
function covarianceOf(evidence: Evidence, primary: Primary, path: TubePath | null): Matrix {
  const { lengths, inlet, tube, tolerances } = evidence;
  const own = lengths.map(({ deviationMm }) => deviationMm);
  if (inlet !== null) own.push(inlet.alongMm, inlet.asideMm, inlet.asideMm, inlet.tiltRad, inlet.tiltRad);
  const matrix = own.map((deviation, row) => own.map((_, column) => (row === column ? deviation ** 2 : 0)));
  for (const motion of figureMotions(primary, path, mmOf(tube.od))) {
    const moved: number[] = lengths.map(({ kind }) => lengthPer(motion, kind));
    if (inlet !== null && path !== null) {
      moved.push(...inFrame(inlet.frame, motion.shift), ...sides(inlet.frame, cross(path.end.tangent, motion.turn)));
    }
    const variance = deviationOf(motion.figure, tolerances) ** 2;
    for (const [row, values] of matrix.entries()) {
      for (const column of values.keys()) {
        values[column] = (values[column] ?? 0) + variance * (moved[row] ?? 0) * (moved[column] ?? 0);
      }
    }
  }
  return matrix;
}
