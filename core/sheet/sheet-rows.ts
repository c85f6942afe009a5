/** The pieces of a primary as the bench works through them: running length, marks along and round the tube, and joints. */

import type { Piece, Primary, Tube } from '../header/header.ts';
import { outsideArcMm } from '../length/bend-arcs.ts';
import { heelMm } from '../length/pie-cut.ts';
import { clockingMarkMm } from '../path/ends/clocking-gauge.ts';
import { mmOf } from '../units/length.ts';

/** How far a joint has come: both sides welded, both at least tacked, or not yet joined. */
export type JointState = 'open' | 'tacked' | 'welded';

export interface SheetRow {
  /** From 1, from the port on; the joint at the piece's far end has the same number. */
  readonly number: number;
  readonly piece: Piece;
  /** Along the centreline, mm. */
  readonly lengthMm: number;
  /** From the port's face to the piece's far end along the centreline, mm, before any weld is made. */
  readonly totalMm: number;
  /** Along the outside of a bend, mm: where a tape puts the saw. Null for a straight. */
  readonly outsideMm: number | null;
  /**
   * Where the inside of a bend lies: mm round the outside of the tube from the port-up line, clockwise as seen from the port,
   * from 0 to under the circumference. Null for a straight, and from the first clocking on that is not recorded.
   */
  readonly markMm: number | null;
  /** Of the joint to the next piece; null at the last piece. */
  readonly joint: JointState | null;
}

/**
 * The rows of one primary. The port-up line is the port's up carried along the tube without turning about it: a line scribed along
 * the tube, over its bends, from the top of the port. So a bend's mark is the sum of all clockings up to it.
 * @param lengthsMm of each piece along the centreline
 */
export function sheetRows(primary: Primary, tube: Tube, lengthsMm: readonly number[]): readonly SheetRow[] {
  const odMm = mmOf(tube.od);
  let totalMm = 0;
  let turnDeg: number | null = 0;
  return primary.pieces.map((piece, index): SheetRow => {
    const lengthMm = lengthsMm[index] ?? 0;
    totalMm += lengthMm;
    if (piece.kind !== 'straight') turnDeg = addTurn(turnDeg, piece.clockingDeg);
    const next = primary.pieces[index + 1];
    return {
      number: index + 1,
      piece,
      lengthMm,
      totalMm,
      outsideMm: outsideOf(piece, odMm),
      markMm: piece.kind === 'straight' || turnDeg === null ? null : markOf(odMm, turnDeg),
      joint: next === undefined ? null : jointState(piece, next),
    };
  });
}

function addTurn(turnDeg: number | null, clockingDeg: number | null): number | null {
  return turnDeg === null || clockingDeg === null ? null : turnDeg + clockingDeg;
}

/** A turn this near to a whole one is none: sums of clockings are off by rounding. */
const WHOLE_TURN_SLACK_DEG = 1e-9;

function markOf(odMm: number, turnDeg: number): number {
  const within = ((turnDeg % 360) + 360) % 360;
  return clockingMarkMm(odMm, within > 360 - WHOLE_TURN_SLACK_DEG ? 0 : within);
}

function outsideOf(piece: Piece, odMm: number): number | null {
  if (piece.kind === 'straight') return null;
  const shape = { clrMm: mmOf(piece.clr), angleDeg: piece.angleDeg };
  if (piece.kind === 'bend') return outsideArcMm(shape.clrMm, odMm, shape.angleDeg);
  return piece.pies * heelMm({ ...shape, pies: piece.pies }, odMm);
}

function jointState(before: Piece, after: Piece): JointState {
  const states = [before.state, after.state];
  if (states.every((state) => state === 'welded')) return 'welded';
  return states.every((state) => state === 'welded' || state === 'tacked') ? 'tacked' : 'open';
}
