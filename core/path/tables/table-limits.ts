/** What the figures of a bending table may be: the limits of the document that they become, or that they came from. */

import { LENGTH_LIMIT } from '../../header/quantity-schema.ts';
import type { TableProblem } from '../path-problem.ts';
import { type LraTable, TABLE_POINTS_LIMIT, TABLE_ROWS_LIMIT, type XyzPoint } from './bending-table.ts';

type Cell = Extract<TableProblem, { kind: 'tableCell' }>;

const isLength = (mm: number) => mm >= 0 && mm <= LENGTH_LIMIT;
const isCoordinate = (mm: number) => Math.abs(mm) <= LENGTH_LIMIT;

/** Every figure of the table that no piece can have; empty when all can. NaN and the infinities never can. */
export function lraProblems(table: LraTable): readonly TableProblem[] {
  if (table.rows.length > TABLE_ROWS_LIMIT) return [{ kind: 'tableTooLong', table: 'lra', limit: TABLE_ROWS_LIMIT }];
  const problems: TableProblem[] = [];
  const check = (isSound: boolean, cell: Pick<Cell, 'row' | 'column' | 'expected'> & { readonly found: number }) => {
    if (!isSound) problems.push({ kind: 'tableCell', table: 'lra', ...cell, found: String(cell.found) });
  };
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

/** Why no tube can have these points, whatever its geometry; null when one could. */
export function xyzProblem(points: readonly XyzPoint[]): TableProblem | null {
  if (points.length < 2) return { kind: 'tableTooShort', table: 'xyz', rows: points.length };
  if (points.length > TABLE_POINTS_LIMIT) return { kind: 'tableTooLong', table: 'xyz', limit: TABLE_POINTS_LIMIT };
  for (const [index, { xMm, yMm, zMm, clrMm }] of points.entries()) {
    const row = index + 1;
    const cell = (column: string, found: number, expected: Cell['expected']): TableProblem => ({
      kind: 'tableCell',
      table: 'xyz',
      row,
      column,
      found: String(found),
      expected,
    });
    if (!isCoordinate(xMm)) return cell('x', xMm, 'coordinate');
    if (!isCoordinate(yMm)) return cell('y', yMm, 'coordinate');
    if (!isCoordinate(zMm)) return cell('z', zMm, 'coordinate');
    // A CLR that is not above zero is told at its bend, if there is one: the ends need none.
    if (clrMm !== null && clrMm > LENGTH_LIMIT) return cell('clr', clrMm, 'aboveZero');
  }
  return null;
}
