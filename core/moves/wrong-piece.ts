/** Which one figure, entered or made wrong, would explain that a primary's end misses its inlet. */

import type { Header, Piece } from '../header/header.ts';
import { binormalOf, clockBy, type Frame } from '../path/frame.ts';
import { addScaled, subtract } from '../path/vector.ts';
import { degreesOf, radiansOf } from '../units/angle.ts';
import { MM_PER_INCH, mmOf } from '../units/length.ts';
import { type FixedEnds, fixedEnds } from './problem/fixed-ends.ts';
import { NO_VECTOR, type Screw } from './turning/end-motion.ts';
import { aimAt, type Miss } from './turning/miss.ts';
import { settle } from './turning/settle.ts';

export type WrongFigure = 'clocking' | 'angle' | 'length' | 'clr';

/** One figure that, set right, closes the inlet. */
export interface WrongPiece {
  readonly pieceIndex: number;
  readonly figure: WrongFigure;
  /** Degrees for clocking and angle, millimetres for length and CLR. */
  readonly from: number;
  readonly to: number;
  readonly gapMm: number;
  readonly tiltDeg: number;
}

interface Suspect {
  readonly pieceIndex: number;
  readonly figure: WrongFigure;
  readonly screw: Screw;
  readonly present: number;
  readonly low: number;
  readonly high: number;
  /** Where the search for its value starts, from the present value. */
  readonly starts: readonly number[];
}

const ALL_ROUND = [0, 45, 90, 135, 180, -135, -90, -45].map(radiansOf);

/**
 * All figures of a primary that alone would close its inlet, the best first; empty where the end is closed already, where it has no
 * inlet or its path is not known, and where no one figure will do. Each is settled by itself, clockings from all round. Lengths are
 * free: the question is what is wrong, not what is in the band. Cost: some hundred microseconds for 20 pieces.
 */
export function wrongPieces(header: Header, primaryId: string): readonly WrongPiece[] {
  const primary = header.primaries.find(({ id }) => id === primaryId);
  if (primary === undefined) return [];
  const { fixed, reference } = fixedEnds(header, primary);
  if (fixed === null || reference !== 'inlet') return [];
  const found = primary.pieces
    .flatMap((piece, index) => suspectsOf(piece, index, fixed))
    .flatMap((suspect) => bestOf(suspect, fixed));
  return found.sort((a, b) => {
    const by = scoreOf(a, fixed) - scoreOf(b, fixed);
    return Math.abs(by) > SAME_SCORE ? by : offRound(a) - offRound(b);
  });
}

/** Two figures that close this nearly as well cannot be told apart by the end alone. */
const SAME_SCORE = 1e-3;

/**
 * How far the right value is from one that a shop would have meant: half degrees, half millimetres, sixteenths of an inch. Two bends that
 * lie alike can explain the same end by different CLRs; of these the one with the rounder figure is the likelier.
 */
function offRound({ figure, to }: WrongPiece): number {
  const off = (step: number) => Math.abs(to - step * Math.round(to / step)) / step;
  if (figure === 'clocking' || figure === 'angle') return off(0.5);
  return Math.min(off(0.5), off(MM_PER_INCH / 16));
}

const NO_BAND = { presentMm: 0, aimMm: 0, lowMm: -1e9, highMm: 1e9 };

function bestOf(suspect: Suspect, fixed: FixedEnds): readonly WrongPiece[] {
  const aim = aimAt(fixed, NO_BAND);
  const { screw, present, low, high } = suspect;
  const limits = { low: [low - present], high: [high - present] };
  let best: WrongPiece | null = null;
  for (const start of suspect.starts) {
    const { values, miss } = settle(aim, [{ ...screw, lengthPer: 0 }], [start], limits);
    const by = values[0] ?? 0;
    const isFound = isMet(miss, fixed) && by !== 0;
    if (isFound && (best === null || scoreOf(miss, fixed) < scoreOf(best, fixed))) {
      best = { ...wrongPieceOf(suspect, present + by), gapMm: miss.gapMm, tiltDeg: miss.tiltDeg };
    }
  }
  return best === null ? [] : [best];
}

function isMet({ gapMm, tiltDeg }: Miss, { limits }: FixedEnds): boolean {
  return gapMm <= limits.gapMm && tiltDeg <= limits.tiltDeg;
}

/** In tolerances. */
function scoreOf({ gapMm, tiltDeg }: Pick<Miss, 'gapMm' | 'tiltDeg'>, { limits }: FixedEnds): number {
  return gapMm / limits.gapMm + tiltDeg / limits.tiltDeg;
}

function wrongPieceOf({ pieceIndex, figure, present }: Suspect, value: number) {
  const isAngle = figure === 'clocking' || figure === 'angle';
  const [from, to] = isAngle ? [degreesOf(present), degreesOf(value)] : [present, value];
  return { pieceIndex, figure, from, to };
}

const STILL = { slide: NO_VECTOR, shift: NO_VECTOR, lengthPer: 0, lengthShiftMm: 0, order: 0 };

function suspectsOf(piece: Piece, pieceIndex: number, { joints }: FixedEnds): readonly Suspect[] {
  const joint = joints[pieceIndex];
  const after = joints[pieceIndex + 1];
  if (joint === undefined || after === undefined) return [];
  if (piece.kind === 'straight') {
    const screw = { ...STILL, axis: NO_VECTOR, through: NO_VECTOR, slide: joint.tangent };
    return [{ pieceIndex, figure: 'length', screw, present: mmOf(piece.length), low: 0, high: 1e5, starts: [0] }];
  }
  return bendSuspects(piece, pieceIndex, joint, after);
}

function bendSuspects(
  piece: Exclude<Piece, { readonly kind: 'straight' }>,
  pieceIndex: number,
  joint: Frame,
  after: Frame,
): readonly Suspect[] {
  const clrMm = mmOf(piece.clr);
  const inward = clockBy(joint, piece.clockingDeg ?? 0).normal;
  const angleRad = radiansOf(piece.angleDeg);
  const clocking: Suspect = {
    pieceIndex,
    figure: 'clocking',
    screw: { ...STILL, axis: joint.tangent, through: joint.point },
    present: radiansOf(piece.clockingDeg ?? 0),
    low: -1e3,
    high: 1e3,
    starts: ALL_ROUND,
  };
  // A larger CLR carries everything after the bend along the difference of its two radii.
  const clr: Suspect = {
    pieceIndex,
    figure: 'clr',
    screw: { ...STILL, axis: NO_VECTOR, through: NO_VECTOR, slide: subtract(inward, after.normal) },
    present: clrMm,
    low: 1,
    high: 1e4,
    starts: [0],
  };
  if (piece.kind !== 'bend') return [clocking, clr];
  const angle: Suspect = {
    pieceIndex,
    figure: 'angle',
    screw: { ...STILL, axis: binormalOf(after), through: addScaled(joint.point, inward, clrMm) },
    present: angleRad,
    low: radiansOf(1),
    high: 2 * Math.PI,
    starts: [0, -0.5, 0.5],
  };
  return [clocking, angle, clr];
}
