/** A primary's centreline in space: exact lines and arcs, and the frame at every joint. */

import type { Bend, PieCutBend, Piece, Pose, Primary } from '../header/header.ts';
import { failure, type Result, success } from '../result.ts';
import { radiansOf } from '../units/angle.ts';
import { mmOf } from '../units/length.ts';
import {
  bendCentre,
  clockBy,
  DEFAULT_PORT,
  type Frame,
  frameOfPose,
  goRound,
  goStraight,
  turnInPlane,
} from './frame.ts';
import type { PathProblem, PieceRef } from './path-problem.ts';
import type { Vector } from './vector.ts';

export interface LineSpan {
  readonly kind: 'line';
  /** Place of the piece in the primary, from 0. */
  readonly pieceIndex: number;
  readonly start: Vector;
  /** Direction of travel, length 1. */
  readonly tangent: Vector;
  /** Zero or more. */
  readonly lengthMm: number;
  readonly end: Vector;
}

/** Point at turn `a` (radians): `centre - clr cos(a) normal + clr sin(a) tangent`. */
export interface ArcSpan {
  readonly kind: 'arc';
  readonly pieceIndex: number;
  readonly start: Vector;
  /** Direction of travel at the start, length 1. */
  readonly tangent: Vector;
  /** From the start towards the centre, length 1, square to the tangent. */
  readonly normal: Vector;
  readonly centre: Vector;
  readonly clrMm: number;
  /** Above 0, up to 360. */
  readonly angleDeg: number;
  readonly lengthMm: number;
  readonly end: Vector;
}

export type Span = LineSpan | ArcSpan;

export interface TubePath {
  /** In order of travel; a straight or bend gives one, a pie-cut bend one more than it has pies (its ends are half pies). */
  readonly spans: readonly Span[];
  /** Frames at the ends of pieces: the port first, then the end of every piece traced. */
  readonly joints: readonly Frame[];
  readonly end: Frame;
}

/** As much of a path as is known, and what stopped it; `problem` null when it is known to the end. */
export interface PartialPath {
  readonly path: TubePath;
  readonly problem: PathProblem | null;
}

/**
 * The whole path of a primary from its port, in millimetres in the header frame.
 *
 * Convention: a bend first turns the normal about the tangent by its clocking, then sweeps in the plane of tangent and
 * normal about `point + CLR * normal`. The normal starts at the port's up made square to its direction. A pie-cut bend
 * is traced along its mitres: half a chord, whole chords, half a chord, each mitre turning by angle / pies; it ends where
 * the smooth bend would. Without a port (null) the path starts at `DEFAULT_PORT`, and a first bend without clocking is
 * taken at 0, since nothing fixes how the tube is rolled; with a port its clocking is needed like any other's.
 *
 * Problems: a bad port pose (its path names the primary by its id), a bend whose clocking is not recorded, a piece that cannot be.
 */
export function tracePrimary(primary: Primary, port: Pose | null): Result<TubePath, PathProblem> {
  const start = startFrame(primary, port);
  if (!start.ok) return start;
  const traced = traceFrom(primary, start.value, port === null);
  return traced.problem === null ? success(traced.path) : failure(traced.problem);
}

/** The path as far as it is known, for drawing; a bad port pose still fails, since then nothing is known. */
export function traceAsFarAsKnown(primary: Primary, port: Pose | null): Result<PartialPath, PathProblem> {
  const start = startFrame(primary, port);
  return start.ok ? success(traceFrom(primary, start.value, port === null)) : start;
}

function startFrame(primary: Primary, port: Pose | null): Result<Frame, PathProblem> {
  return port === null ? success(DEFAULT_PORT) : frameOfPose(port, ['primaries', primary.id, 'port']);
}

/** Traces from a frame. With `freeRoll` a first bend without clocking counts as clocked 0. */
export function traceFrom(primary: Primary, start: Frame, freeRoll = false): PartialPath {
  const spans: Span[] = [];
  const joints: Frame[] = [start];
  let frame = start;
  let isFirstBend = true;
  for (const [pieceIndex, piece] of primary.pieces.entries()) {
    const problem = problemOfPiece(primary, pieceIndex, piece, freeRoll && isFirstBend);
    if (problem !== null) return { path: { spans, joints, end: frame }, problem };
    if (piece.kind !== 'straight') isFirstBend = false;
    frame = tracePiece(piece, pieceIndex, frame, spans);
    joints.push(frame);
  }
  return { path: { spans, joints, end: frame }, problem: null };
}

/** What keeps a piece from being traced, if anything. */
function problemOfPiece(primary: Primary, index: number, piece: Piece, mayRoll: boolean): PathProblem | null {
  const where: PieceRef = {
    primaryId: primary.id,
    primaryName: primary.name,
    pieceId: piece.id,
    pieceNumber: index + 1,
  };
  if (piece.kind === 'straight') {
    return mmOf(piece.length) >= 0 && Number.isFinite(piece.length.value)
      ? null
      : { kind: 'impossiblePiece', field: 'length', ...where };
  }
  const field = impossibleField(piece);
  if (field !== null) return { kind: 'impossiblePiece', field, ...where };
  if (piece.clockingDeg === null && !mayRoll) return { kind: 'pathUnknown', ...where };
  if (piece.kind === 'pieCut' && piece.angleDeg >= 180 * piece.pies) {
    return { kind: 'tooFewPies', pies: piece.pies, angleDeg: piece.angleDeg, ...where };
  }
  return null;
}

function impossibleField(piece: Bend | PieCutBend): string | null {
  if (!(piece.clr.value > 0 && Number.isFinite(piece.clr.value))) return 'clr';
  if (!(piece.angleDeg > 0 && piece.angleDeg <= 360)) return 'angleDeg';
  if (piece.clockingDeg !== null && !Number.isFinite(piece.clockingDeg)) return 'clockingDeg';
  if (piece.kind === 'pieCut' && !(Number.isInteger(piece.pies) && piece.pies >= 1)) return 'pies';
  return null;
}

/** Adds the spans of one sound piece and returns the frame at its end. */
function tracePiece(piece: Piece, pieceIndex: number, frame: Frame, spans: Span[]): Frame {
  if (piece.kind === 'straight') return addLine(frame, mmOf(piece.length), pieceIndex, spans);
  const clocked = clockBy(frame, piece.clockingDeg ?? 0);
  const clrMm = mmOf(piece.clr);
  if (piece.kind === 'pieCut') return tracePies(piece, clrMm, pieceIndex, clocked, spans);
  const end = goRound(clocked, clrMm, piece.angleDeg);
  spans.push({
    kind: 'arc',
    pieceIndex,
    start: clocked.point,
    tangent: clocked.tangent,
    normal: clocked.normal,
    centre: bendCentre(clocked, clrMm),
    clrMm,
    angleDeg: piece.angleDeg,
    lengthMm: clrMm * radiansOf(piece.angleDeg),
    end: end.point,
  });
  return end;
}

function addLine(frame: Frame, lengthMm: number, pieceIndex: number, spans: Span[]): Frame {
  const end = goStraight(frame, lengthMm);
  spans.push({ kind: 'line', pieceIndex, start: frame.point, tangent: frame.tangent, lengthMm, end: end.point });
  return end;
}

/** Chords that touch the arc in their middles, so each is 2 CLR tan(angle / 2n) and the ends are half of that. */
function tracePies(piece: PieCutBend, clrMm: number, pieceIndex: number, start: Frame, spans: Span[]): Frame {
  const mitreDeg = piece.angleDeg / piece.pies;
  const halfMm = clrMm * Math.tan(radiansOf(mitreDeg) / 2);
  let frame = addLine(start, halfMm, pieceIndex, spans);
  for (let mitre = 1; mitre <= piece.pies; mitre += 1) {
    frame = turnInPlane(frame, mitreDeg);
    frame = addLine(frame, mitre === piece.pies ? halfMm : 2 * halfMm, pieceIndex, spans);
  }
  return frame;
}

/** The point of a span at a share of its length, 0 to 1. */
export function pointAt(span: Span, share: number): Vector {
  if (span.kind === 'line') {
    const along = span.lengthMm * share;
    return {
      x: span.start.x + span.tangent.x * along,
      y: span.start.y + span.tangent.y * along,
      z: span.start.z + span.tangent.z * along,
    };
  }
  const turn = radiansOf(span.angleDeg) * share;
  const inward = -span.clrMm * Math.cos(turn);
  const onward = span.clrMm * Math.sin(turn);
  return {
    x: span.centre.x + span.normal.x * inward + span.tangent.x * onward,
    y: span.centre.y + span.normal.y * inward + span.tangent.y * onward,
    z: span.centre.z + span.normal.z * inward + span.tangent.z * onward,
  };
}

/** Length of the centreline, in millimetres; pie-cut bends along their chords. */
export function pathLengthMm(path: TubePath): number {
  return path.spans.reduce((sum, span) => sum + span.lengthMm, 0);
}
