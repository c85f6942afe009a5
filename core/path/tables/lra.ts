/** A primary as an LRA table (length, rotation, angle) and back. */

import type { Bend, Piece, Primary, Straight } from '../../header/header.ts';
import { failure, type Result, success } from '../../result.ts';
import { millimetres, mmOf } from '../../units/length.ts';
import { DEFAULT_PORT } from '../frame.ts';
import type { PathProblem, TableProblem } from '../path-problem.ts';
import { traceFrom } from '../trace-primary.ts';
import type { LraRow, LraTable, TableNote } from './bending-table.ts';
import { lraProblems } from './table-limits.ts';

/**
 * The LRA table of a primary, with notes on what it cannot say. Straights in a row are added up; a first bend without clocking
 * gets rotation 0. Exact: nothing is computed but sums. Problems: those of `tracePrimary` without a port, and lengths
 * that `fromLra` would not take back.
 */
export function toLra(
  primary: Primary,
): Result<{ table: LraTable; notes: readonly TableNote[] }, PathProblem | TableProblem> {
  const { problem } = traceFrom(primary, DEFAULT_PORT, true);
  if (problem !== null) return failure(problem);
  const rows: LraRow[] = [];
  const notes: TableNote[] = [];
  let lengthMm = 0;
  for (const [index, piece] of primary.pieces.entries()) {
    if (piece.kind === 'straight') {
      lengthMm += mmOf(piece.length);
      continue;
    }
    if (piece.kind === 'pieCut') notes.push({ kind: 'pieCutAsBend', pieceNumber: index + 1 });
    const { angleDeg, clockingDeg } = piece;
    rows.push({ lengthMm, rotationDeg: clockingDeg ?? 0, angleDeg, clrMm: mmOf(piece.clr) });
    lengthMm = 0;
  }
  const table = { rows, lastLengthMm: lengthMm };
  const problems = lraProblems(table);
  return problems.length > 0 ? failure(...problems) : success({ table, notes });
}

/**
 * The pieces that an LRA table describes, in millimetres and planned; straights of length zero are left out. `newId` gives
 * each piece its identity. Refused: a length below zero, a CLR not above zero, either above `LENGTH_LIMIT`, an angle not
 * above 0 and up to 360.
 */
export function fromLra(table: LraTable, newId: () => string): Result<readonly Piece[], TableProblem> {
  const problems = lraProblems(table);
  if (problems.length > 0) return failure(...problems);
  const pieces: Piece[] = [];
  for (const row of table.rows) {
    if (row.lengthMm > 0) pieces.push(plannedStraight(row.lengthMm, newId()));
    pieces.push(plannedBend(row, newId()));
  }
  if (table.lastLengthMm > 0) pieces.push(plannedStraight(table.lastLengthMm, newId()));
  return success(pieces);
}

export function plannedStraight(lengthMm: number, id: string): Straight {
  return { kind: 'straight', id, state: 'planned', locked: false, note: '', length: millimetres(lengthMm) };
}

export function plannedBend(row: Omit<LraRow, 'lengthMm'>, id: string): Bend {
  const shape = { clr: millimetres(row.clrMm), angleDeg: row.angleDeg, clockingDeg: row.rotationDeg };
  return { kind: 'bend', id, state: 'planned', locked: false, note: '', ...shape };
}
