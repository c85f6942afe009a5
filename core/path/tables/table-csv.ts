/** LRA and XYZ tables as CSV text, out and in. */

import { failure, type Result, success } from '../../result.ts';
import { MM_PER_INCH } from '../../units/length.ts';
import type { TableProblem } from '../path-problem.ts';
import { type LraRow, type LraTable, TABLE_ROWS_LIMIT, type XyzPoint, type XyzTable } from './bending-table.ts';

/*
 * The LRA file has the columns `length_mm, rotation_deg, angle_deg, clr_mm`: one row a bend, in order of travel, then a row
 * with only the last straight's length. The XYZ file has `x_mm, y_mm, z_mm, clr_mm`: one row a point, CLR empty at both
 * ends. Lengths carry all their digits. Reading takes the columns in any order, passes over others, takes `_in` for
 * `_mm` column by column, and commas, semicolons or tabs between cells; decimals have a point.
 */

type TableName = 'lra' | 'xyz';

const LINE_END = '\r\n';

export function lraCsv(table: LraTable): string {
  const rows = table.rows.map(({ lengthMm, rotationDeg, angleDeg, clrMm }) => [lengthMm, rotationDeg, angleDeg, clrMm]);
  return csvText(
    ['length_mm', 'rotation_deg', 'angle_deg', 'clr_mm'],
    [...rows, [table.lastLengthMm, null, null, null]],
  );
}

export function xyzCsv(table: XyzTable): string {
  const rows = table.points.map(({ xMm, yMm, zMm, clrMm }) => [xMm, yMm, zMm, clrMm]);
  return csvText(['x_mm', 'y_mm', 'z_mm', 'clr_mm'], rows);
}

function csvText(heading: readonly string[], rows: readonly (readonly (number | null)[])[]): string {
  const cells = (row: readonly (number | null)[]) =>
    row.map((cell) => (cell === null ? '' : String(cell + 0))).join(',');
  return [heading.join(','), ...rows.map(cells), ''].join(LINE_END);
}

/** Reads an LRA file; ranges are checked by `fromLra`. A last row with a bend in it stands for a tube without a last straight. */
export function readLraCsv(text: string): Result<LraTable, TableProblem> {
  const read = readColumns(text, 'lra', ['length', 'rotation', 'angle', 'clr']);
  if (!read.ok) return read;
  const rows: LraRow[] = [];
  let lastLengthMm = 0;
  for (const [index, cells] of read.value.entries()) {
    const [lengthMm, rotationDeg, angleDeg, clrMm] = cells;
    const isLast = index === read.value.length - 1;
    if (isLast && angleDeg === null && lengthMm != null) {
      lastLengthMm = lengthMm;
      continue;
    }
    const missing = cells.findIndex((cell, column) => cell === null && column !== 1);
    if (missing >= 0)
      return failure(emptyCell('lra', index + 1, ['length', 'rotation', 'angle', 'clr'][missing] ?? ''));
    rows.push({ lengthMm: lengthMm ?? 0, rotationDeg: rotationDeg ?? 0, angleDeg: angleDeg ?? 0, clrMm: clrMm ?? 0 });
  }
  return success({ rows, lastLengthMm });
}

/** Reads an XYZ file; the geometry is checked by `fromXyz`. */
export function readXyzCsv(text: string): Result<XyzTable, TableProblem> {
  const read = readColumns(text, 'xyz', ['x', 'y', 'z', 'clr']);
  if (!read.ok) return read;
  const points: XyzPoint[] = [];
  for (const [index, [xMm, yMm, zMm, clrMm]] of read.value.entries()) {
    if (xMm == null) return failure(emptyCell('xyz', index + 1, 'x'));
    if (yMm == null) return failure(emptyCell('xyz', index + 1, 'y'));
    if (zMm == null) return failure(emptyCell('xyz', index + 1, 'z'));
    points.push({ xMm, yMm, zMm, clrMm: clrMm ?? null });
  }
  return success({ points });
}

function emptyCell(table: TableName, row: number, column: string): TableProblem {
  return { kind: 'tableCell', table, row, column, found: '', expected: 'number' };
}

/** Rows of numbers (null: empty cell) in the order of the columns asked for; lengths in millimetres. */
function readColumns(
  text: string,
  table: TableName,
  wanted: readonly string[],
): Result<readonly (readonly (number | null)[])[], TableProblem> {
  const lines = text.replace(/^\ufeff/, '').split(/\r\n|\n|\r/);
  const filled = lines.filter((line) => line.replace(/[\s,;]/g, '') !== '');
  if (filled.length > TABLE_ROWS_LIMIT + 2) return failure({ kind: 'tableTooLong', table, limit: TABLE_ROWS_LIMIT });
  const heading = filled[0] ?? '';
  const separator = [';', '\t'].find((candidate) => heading.includes(candidate)) ?? ',';
  const names = cellsOf(heading, separator).map((name) => name.toLowerCase());
  const columns = wanted.map((column) => findColumn(names, column));
  const missing = columns.indexOf(null);
  if (missing >= 0) return failure({ kind: 'tableColumnMissing', table, column: wanted[missing] ?? '' });
  if (filled.length < 2) return failure({ kind: 'tableTooShort', table, rows: 0 });
  const rows: (number | null)[][] = [];
  for (const [index, line] of filled.slice(1).entries()) {
    const cells = cellsOf(line, separator);
    const row = columns.map((column) => numberIn(cells[column?.at ?? -1] ?? '', column?.scale ?? 1));
    const bad = row.findIndex((cell) => cell !== null && Number.isNaN(cell));
    if (bad >= 0) {
      const found = (cells[columns[bad]?.at ?? -1] ?? '').slice(0, 64);
      return failure({
        kind: 'tableCell',
        table,
        row: index + 1,
        column: wanted[bad] ?? '',
        found,
        expected: 'number',
      });
    }
    rows.push(row);
  }
  return success(rows);
}

function cellsOf(line: string, separator: string): readonly string[] {
  return line.split(separator).map((cell) =>
    cell
      .trim()
      .replace(/^"(.*)"$/, '$1')
      .trim(),
  );
}

/** Where a column is, and what its numbers are multiplied by; angles are always in degrees. */
function findColumn(names: readonly string[], column: string): { at: number; scale: number } | null {
  const suffixes = column === 'rotation' || column === 'angle' ? { _deg: 1 } : { _mm: 1, _in: MM_PER_INCH };
  for (const [suffix, scale] of Object.entries(suffixes)) {
    const at = names.indexOf(`${column}${suffix}`);
    if (at >= 0) return { at, scale };
  }
  return null;
}

const NUMBER = /^[+-]?(?:\d{1,30}(?:\.\d{0,30})?|\.\d{1,30})(?:e[+-]?\d{1,3})?$/i;

/** Null for an empty cell, NaN for one that is no number. */
function numberIn(cell: string, scale: number): number | null {
  if (cell === '') return null;
  const value = NUMBER.test(cell) ? Number(cell) * scale : Number.NaN;
  return Number.isFinite(value) ? value : Number.NaN;
}
