/** A piece that was never entered: where it belongs, and what it must be. */

import type { Bend, Piece, Primary, Straight } from '../../header/header.ts';
import { binormalOf, clockBy, type Frame, goRound } from '../../path/frame.ts';
import type { TubePath } from '../../path/trace-primary.ts';
import { add, dot, scale, subtract, type Vector, wrapDeg } from '../../path/vector.ts';
import { finenessMm } from '../../units/format-length.ts';
import { lengthIn, mmOf } from '../../units/length.ts';
import { type LengthStyle, unitOf } from '../../units/length-style.ts';
import { type Evidence, endResiduals, evidenceCount, residualsFor, type Weighing, weigh } from '../evidence.ts';
import { innerProduct, whitened } from '../normal-matrix.ts';
import { addedBy, couldFit } from './length-fits.ts';
import { correctedBy, KIND_WEIGHTS, type Suspicion } from './mis-entry.ts';
import { USUAL_ANGLES_DEG } from './slips.ts';

/** A missed piece with its free figure settled; that figure was not known before, which its prior counts. */
export interface MissedPiece extends Suspicion {
  readonly freeFigures: number;
}

export interface Missing {
  readonly evidence: Evidence;
  readonly primary: Primary;
  readonly now: Weighing;
  /** As far as it is known; whole where the inlet counts. */
  readonly path: TubePath;
  readonly clrsMm: readonly number[];
  readonly newId: string;
}

/** Straights and bends are missed equally often. */
const EACH_KIND = KIND_WEIGHTS.missed / 2;

/** Straights of a header are hardly longer, mm: any length up to it is as likely as another before it is measured. */
const STRAIGHT_MOST_MM = 600;
const STRAIGHT_LEAST_MM = 3;

/** What a free figure adds to the prior when it is told to within `deviation` out of a range: the width of a normal peak over the range. */
const toldWithin = (deviation: number, range: number) => Math.min(1, (Math.sqrt(2 * Math.PI) * deviation) / range);

/**
 * A missed straight at each joint that no other straight is before: next to one, the two are one longer straight. Its length
 * is what fits the evidence best, to the fineness shown (generalised least squares, one unknown, exact since all is linear in it).
 */
export function missedStraights(missing: Missing): readonly MissedPiece[] {
  const { evidence, primary, now, newId } = missing;
  const places = placesIn(primary).filter((at) => primary.pieces[at - 1]?.kind !== 'straight');
  return places.flatMap((pieceIndex): readonly MissedPiece[] => {
    const unitMm = withStraight(missing, pieceIndex, 1);
    const moved = residualsFor(evidence, correctedBy(primary, unitMm));
    if (moved === null) return [];
    const per = whitened(
      now.factor,
      now.residuals.map((residual, index) => residual - (moved[index] ?? 0)),
    );
    const square = innerProduct(per, per);
    const lengthMm = innerProduct(per, whitened(now.factor, now.residuals)) / square;
    const rounded = roundedMm(lengthMm, evidence.header.settings.display);
    if (!(rounded >= STRAIGHT_LEAST_MM && rounded <= STRAIGHT_MOST_MM)) return [];
    const told = toldWithin(1 / Math.sqrt(square), STRAIGHT_MOST_MM);
    const prior = (EACH_KIND / places.length) * told;
    return [{ ...withStraight({ primary, evidence, newId }, pieceIndex, rounded), prior, freeFigures: 1 }];
  });
}

const placesIn = ({ pieces }: Primary) => Array.from({ length: pieces.length + 1 }, (_, at) => at);

function roundedMm(mm: number, style: LengthStyle): number {
  const step = finenessMm(style);
  return Math.round(mm / step) * step;
}

type New = Pick<Missing, 'evidence' | 'primary' | 'newId'>;

function withStraight({ evidence, primary, newId }: New, pieceIndex: number, lengthMm: number): Suspicion {
  const length = lengthIn(lengthMm, unitOf(evidence.header.settings.display));
  const meant: Straight = { kind: 'straight', ...newPiece(primary, pieceIndex, newId), length };
  return { kind: 'missed', pieceIndex, entered: null, meant, prior: 0 };
}

/** As far along as its neighbours: a piece of a finished tube is there. */
function newPiece({ pieces }: Primary, at: number, id: string): Pick<Piece, 'id' | 'state' | 'locked' | 'note'> {
  const state = (pieces[at - 1] ?? pieces[at])?.state ?? 'tacked';
  return { id, state, locked: false, note: '' };
}

/** Angles round the tube at which a missed bend is first tried, and how near its clocking is brought then, degrees. */
const FIRST_STEP_DEG = 15;
const LAST_STEP_DEG = 0.25;
/** So many of the first tries are brought nearer. */
const BROUGHT_NEARER = 8;

/** A missed bend of a usual angle and a CLR of the shop at each joint, clocked as fits the evidence best. */
export function missedBends(missing: Missing): readonly MissedPiece[] {
  const { evidence, primary, clrsMm } = missing;
  const shapes = clrsMm.flatMap((clrMm) => USUAL_ANGLES_DEG.map((angleDeg) => ({ clrMm, angleDeg })));
  const places = placesIn(primary);
  const prior = EACH_KIND / (shapes.length * places.length);
  const bends = shapes.flatMap((shape) => {
    const { meant } = withBend(missing, 0, shape);
    const isPossible = couldFit(evidence, missing.now, addedBy(evidence, null, meant));
    return isPossible ? places.map((at) => withBend(missing, at, shape)) : [];
  });
  if (evidence.inlet === null) return bends.map((bend) => ({ ...bend, prior, freeFigures: 0 }));
  const tried = bends.map((bend) => firstClocking(missing, bend)).toSorted((a, b) => a.chiSquared - b.chiSquared);
  return tried.slice(0, BROUGHT_NEARER).flatMap((first) => {
    const { bend, told } = nearer(missing, first);
    return [{ ...bend, prior: prior * told, freeFigures: 1 }];
  });
}

interface BendShape {
  readonly clrMm: number;
  readonly angleDeg: number;
}

interface BendSuspicion extends Suspicion {
  readonly meant: Bend;
}

function withBend(
  { evidence, primary, newId }: New,
  pieceIndex: number,
  { clrMm, angleDeg }: BendShape,
): BendSuspicion {
  const clr = lengthIn(clrMm, unitOf(evidence.header.settings.display));
  const clockingDeg = evidence.inlet === null ? null : 0;
  const meant: Bend = { kind: 'bend', ...newPiece(primary, pieceIndex, newId), clr, angleDeg, clockingDeg };
  return { kind: 'missed', pieceIndex, entered: null, meant, prior: 0 };
}

interface Tried {
  readonly bend: BendSuspicion;
  readonly chiSquared: number;
}

const clocked = (bend: BendSuspicion, clockingDeg: number): BendSuspicion => ({
  ...bend,
  meant: { ...bend.meant, clockingDeg: wrapDeg(clockingDeg) },
});

/**
 * All round, by the covariance of the pieces as they are: near enough to tell where to look. What comes after the bend is
 * carried along as it is, so that nothing is traced again.
 */
function firstClocking(missing: Missing, bend: BendSuspicion): Tried {
  const { evidence, now, path } = missing;
  const joint = path.joints[bend.pieceIndex] ?? path.end;
  const added = addedBy(evidence, null, bend.meant);
  const ofLengths = evidence.lengths.map(({ kind }, index) => (now.residuals[index] ?? 0) - added(kind));
  let best: Tried = { bend, chiSquared: Number.POSITIVE_INFINITY };
  for (let deg = 0; deg < 360; deg += FIRST_STEP_DEG) {
    const after = goRound(clockBy(joint, deg), mmOf(bend.meant.clr), bend.meant.angleDeg);
    const white = whitened(now.factor, [...ofLengths, ...endResiduals(evidence, carried(path.end, joint, after))]);
    const chiSquared = innerProduct(white, white);
    if (chiSquared < best.chiSquared) best = { bend: clocked(bend, deg), chiSquared };
  }
  return best;
}

/** The end as it is to `before`, seen from `after`. */
function carried(end: Frame, before: Frame, after: Frame): Pick<Frame, 'point' | 'tangent'> {
  const seen = (vector: Vector): Vector => {
    const along = scale(after.tangent, dot(vector, before.tangent));
    const inward = scale(after.normal, dot(vector, before.normal));
    return add(add(along, inward), scale(binormalOf(after), dot(vector, binormalOf(before))));
  };
  return { point: add(after.point, seen(subtract(end.point, before.point))), tangent: seen(end.tangent) };
}

/** Halves the step from the best of three until it is fine enough; what a step costs there says how well the clocking is told. */
function nearer(
  { evidence, primary }: Missing,
  { bend }: Tried,
): { readonly bend: BendSuspicion; readonly told: number } {
  const costAt = (deg: number) =>
    weigh(evidence, correctedBy(primary, clocked(bend, deg)))?.chiSquared ?? Number.POSITIVE_INFINITY;
  let at = bend.meant.clockingDeg ?? 0;
  let cost = costAt(at);
  for (let step = FIRST_STEP_DEG / 2; step >= LAST_STEP_DEG; step /= 2) {
    for (const candidate of [at - step, at + step]) {
      const found = costAt(candidate);
      if (found < cost) [at, cost] = [candidate, found];
    }
  }
  const rounded = Math.round(at * 2) / 2;
  const rise = (costAt(rounded - 1) + costAt(rounded + 1)) / 2 - costAt(rounded);
  const told = rise > 0 ? toldWithin(1 / Math.sqrt(rise), 360) : 1;
  return { bend: clocked(bend, rounded), told };
}

/** Whether there is more evidence than the piece has free figures: with as many, anything fits. */
export function canBeJudged(evidence: Evidence, { freeFigures }: MissedPiece): boolean {
  return evidenceCount(evidence) > freeFigures;
}
