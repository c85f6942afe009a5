/** LRA and XYZ tables as CSV text, out and in. */

import type { HeaderProblem } from '../../header/header-problem.ts';
import { failure, type Result, success } from '../../result.ts';
import { readNumberRows } from '../../spreadsheet/read-rows.ts';
import { csvText } from '../../spreadsheet/write-rows.ts';
import { MM_PER_INCH } from '../../units/length.ts';
import { clipped } from '../../units/read-quantity.ts';
import type { TableProblem } from '../path-problem.ts';
import {
  type LraRow,
  type LraTable,
  TABLE_POINTS_LIMIT,
  TABLE_ROWS_LIMIT,
  type XyzPoint,
  type XyzTable,
} from './bending-table.ts';

/*
 * The LRA file has the columns `length_mm, rotation_deg, angle_deg, clr_mm`: one row a bend, in order of travel, then a row
 * with only the last straight's length. The XYZ file has `x_mm, y_mm, z_mm, clr_mm`: one row a point, CLR empty at both
 * ends. Lengths carry all their digits. Reading takes the columns in any order, passes over others, takes `_in` for
 * `_mm` column by column, and commas, semicolons or tabs between cells; decimals have a point.
 */

type TableName = 'lra' | 'xyz';
type ReadProblem = TableProblem | HeaderProblem;

type Cells = readonly (number | null)[];

export function lraCsv(table: LraTable): string {
  const rows = table.rows.map(({ lengthMm, rotationDeg, angleDeg, clrMm }) => [lengthMm, rotationDeg, angleDeg, clrMm]);
  return numbersText(
    ['length_mm', 'rotation_deg', 'angle_deg', 'clr_mm'],
    [...rows, [table.lastLengthMm, null, null, null]],
  );
}

export function xyzCsv(table: XyzTable): string {
  const rows = table.points.map(({ xMm, yMm, zMm, clrMm }) => [xMm, yMm, zMm, clrMm]);
  return numbersText(['x_mm', 'y_mm', 'z_mm', 'clr_mm'], rows);
}

/** Without a byte order mark: there is nothing but digits in it, and bending programs are strict about the first column. */
function numbersText(heading: readonly string[], rows: readonly Cells[]): string {
  // Adding zero makes a negative zero plain.
  const texts = rows.map((row) => row.map((cell) => (cell === null ? '' : String(cell + 0))));
  return csvText([heading, ...texts], { hasMark: false });
}

/** Reads an LRA file; ranges are checked by `fromLra`. A last row with a bend in it stands for a tube without a last straight. */
export function readLraCsv(text: string): Result<LraTable, ReadProblem> {
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
export function readXyzCsv(text: string): Result<XyzTable, ReadProblem> {
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

/** A table of 500 rows with all digits is a tenth of this, whatever else its columns hold. In UTF-16 units. */
const TEXT_LIMIT = 1024 * 1024;
/** Rows that may be empty; those that hold something are counted against the limit of the table. */
const LINES_LIMIT = 10_000;

/** Below the heading; an LRA table ends with a row for the last straight. */
const MOST_ROWS = { lra: TABLE_ROWS_LIMIT + 1, xyz: TABLE_POINTS_LIMIT } as const;

/** Rows of numbers (null: empty cell) in the order of the columns asked for; lengths in millimetres. */
function readColumns(text: string, table: TableName, wanted: readonly string[]): Result<readonly Cells[], ReadProblem> {
  if (text.length > TEXT_LIMIT) {
    return failure({ kind: 'unreadableFile', reason: 'tooLarge', path: [], detail: '1 MiB' });
  }
  const lines = readNumberRows(text, { mostRows: LINES_LIMIT + 1 }).map((row) => row.map(plainCell));
  const [heading = [], ...rows] = lines.filter((row) => row.some((cell) => cell !== ''));
  if (rows.length > MOST_ROWS[table] || lines.length > LINES_LIMIT) {
    const limit = table === 'lra' ? TABLE_ROWS_LIMIT : TABLE_POINTS_LIMIT;
    return failure({ kind: 'tableTooLong', table, limit });
  }
  const names = heading.map((name) => name.toLowerCase());
  const columns = wanted.map((column) => findColumn(names, column));
  const missing = columns.indexOf(null);
  if (missing >= 0) return failure({ kind: 'tableColumnMissing', table, column: wanted[missing] ?? '' });
  if (rows.length === 0) return failure({ kind: 'tableTooShort', table, rows: 0 });
  const numbers = rows.map((row) => columns.map((column) => numberIn(row[column?.at ?? -1] ?? '', column?.scale ?? 1)));
  for (const [index, row] of numbers.entries()) {
    const bad = row.findIndex((cell) => Number.isNaN(cell));
    if (bad < 0) continue;
    const found = clipped(rows[index]?.[columns[bad]?.at ?? -1] ?? '');
    return failure({ kind: 'tableCell', table, row: index + 1, column: wanted[bad] ?? '', found, expected: 'number' });
  }
  return success(numbers);
}

/** Some programs put quotes even where a space before them makes them part of the cell. */
const plainCell = (cell: string) =>
  cell
    .trim()
    .replace(/^"(.*)"$/, '$1')
    .trim();

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
