/** A primary as an XYZ table of intersection points. */

import type { Bend, PieCutBend, Piece, Pose, Primary } from '../../header/header.ts';
import { PIECES_LIMIT } from '../../header/schema.ts';
import { failure, type Result, success } from '../../result.ts';
import { radiansOf } from '../../units/angle.ts';
import { mmOf } from '../../units/length.ts';
import { clockBy, DEFAULT_PORT, type Frame, goRound } from '../frame.ts';
import type { PathProblem, TableProblem } from '../path-problem.ts';
import { tracePrimary } from '../trace-primary.ts';
import { addScaled, type Vector } from '../vector.ts';
import type { TableNote, XyzPoint, XyzTable } from './bending-table.ts';
import { xyzProblem } from './table-limits.ts';

type AnyBend = Bend | PieCutBend;

/** Tangents of a bend above this cross so far away that the table would be ill-conditioned; at 180 they never do. */
export const LARGEST_POINT_DEG = 135;

/**
 * The XYZ table of a primary from its port (null: from `DEFAULT_PORT`), with notes on what it cannot say. A bend above 135
 * degrees is listed as two or three equal ones end to end: a 180 as two 90s. Problems: those of `tracePrimary`, a primary
 * without pieces, and a table that `fromXyz` would not take back: one that runs too far, or has more bends than a primary.
 */
export function toXyz(
  primary: Primary,
  port: Pose | null,
): Result<{ table: XyzTable; notes: readonly TableNote[] }, PathProblem | TableProblem> {
  const traced = tracePrimary(primary, port);
  if (!traced.ok) return traced;
  if (primary.pieces.length === 0) return failure({ kind: 'tableTooShort', table: 'xyz', rows: 0 });
  const { joints, end } = traced.value;
  const points: XyzPoint[] = [xyzPoint((joints[0] ?? DEFAULT_PORT).point, null)];
  const notes: TableNote[] = [];
  for (const [index, piece] of primary.pieces.entries()) {
    if (piece.kind === 'straight') continue;
    const parts = Math.ceil(piece.angleDeg / LARGEST_POINT_DEG - 1e-9);
    if (piece.kind === 'pieCut') notes.push({ kind: 'pieCutAsBend', pieceNumber: index + 1 });
    if (parts > 1) notes.push({ kind: 'bendSplit', pieceNumber: index + 1, angleDeg: piece.angleDeg, parts });
    points.push(...bendPoints(piece, { joint: joints[index] ?? DEFAULT_PORT, parts }));
  }
  points.push(xyzPoint(end.point, null));
  const problem = xyzProblem(points) ?? tooManyPieces(points.length - 2, primary.pieces);
  return problem === null ? success({ table: { points }, notes }) : failure(problem);
}

/** Where the tangents of each part of a bend cross. */
function bendPoints(bend: AnyBend, { joint, parts }: { readonly joint: Frame; readonly parts: number }): XyzPoint[] {
  const clrMm = mmOf(bend.clr);
  const partDeg = bend.angleDeg / parts;
  const setbackMm = clrMm * Math.tan(radiansOf(partDeg) / 2);
  const points: XyzPoint[] = [];
  let frame = clockBy(joint, bend.clockingDeg ?? 0);
  for (let part = 0; part < parts; part += 1) {
    points.push(xyzPoint(addScaled(frame.point, frame.tangent, setbackMm), clrMm));
    frame = goRound(frame, clrMm, partDeg);
  }
  return points;
}

/** The table is read back as its bends, and one straight for all those in a row. */
function tooManyPieces(bends: number, pieces: readonly Piece[]): TableProblem | null {
  const straights = pieces.filter(({ kind }, index) => kind === 'straight' && pieces[index - 1]?.kind !== 'straight');
  return bends + straights.length > PIECES_LIMIT ? { kind: 'tableTooLong', table: 'xyz', limit: PIECES_LIMIT } : null;
}

function xyzPoint(point: Vector, clrMm: number | null): XyzPoint {
  return { xMm: point.x, yMm: point.y, zMm: point.z, clrMm };
}
