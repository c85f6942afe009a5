/** A primary as an LRA table (length, rotation, angle) and back. */

import type { Bend, Piece, Primary, Straight } from '../../header/header.ts';
import { failure, type Result, success } from '../../result.ts';
import { millimetres, mmOf } from '../../units/length.ts';
import { DEFAULT_PORT } from '../frame.ts';
import type { PathProblem, TableProblem } from '../path-problem.ts';
import { traceFrom } from '../trace-primary.ts';
import { type LraRow, type LraTable, TABLE_ROWS_LIMIT, type TableNote } from './bending-table.ts';

/**
 * The LRA table of a primary, with notes on what it cannot say. Straights in a row are added up; a first bend without clocking
 * gets rotation 0. Exact: nothing is computed but sums. Problems: those of `tracePrimary` without a port.
 */
export function toLra(primary: Primary): Result<{ table: LraTable; notes: readonly TableNote[] }, PathProblem> {
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
  return success({ table: { rows, lastLengthMm: lengthMm }, notes });
}

/**
 * The pieces that an LRA table describes, in millimetres and planned; straights of length zero are left out. `newId` gives
 * each piece its identity. Refused: a length below zero, a CLR not above zero, an angle not above 0 and up to 360.
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

function lraProblems(table: LraTable): readonly TableProblem[] {
  if (table.rows.length > TABLE_ROWS_LIMIT) return [{ kind: 'tableTooLong', table: 'lra', limit: TABLE_ROWS_LIMIT }];
  const problems: TableProblem[] = [];
  const check = (isSound: boolean, cell: { row: number; column: string; found: number; expected: CellExpectation }) => {
    if (!isSound) problems.push({ kind: 'tableCell', table: 'lra', ...cell, found: String(cell.found) });
  };
  const isLength = (mm: number) => mm >= 0 && mm < Number.POSITIVE_INFINITY;
  for (const [index, { lengthMm, rotationDeg, angleDeg, clrMm }] of table.rows.entries()) {
    const row = index + 1;
    check(isLength(lengthMm), { row, column: 'length', found: lengthMm, expected: 'zeroOrMore' });
    check(Math.abs(rotationDeg) <= 360, { row, column: 'rotation', found: rotationDeg, expected: 'number' });
    check(angleDeg > 0 && angleDeg <= 360, { row, column: 'angle', found: angleDeg, expected: 'angle' });
    check(isLength(clrMm) && clrMm > 0, { row, column: 'clr', found: clrMm, expected: 'aboveZero' });
  }
  const last = { row: table.rows.length + 1, column: 'length', found: table.lastLengthMm };
  check(isLength(table.lastLengthMm), { ...last, expected: 'zeroOrMore' });
  return problems;
}

type CellExpectation = Extract<TableProblem, { kind: 'tableCell' }>['expected'];
