/**
 * Parts lists: primaries and their pieces as the rows of a spreadsheet, both ways.
 *
 * The first row names the columns, in any order and case: primary, kind, length, clr, angle, clocking, pies, state,
 * locked, note. Length and clr may have the unit of their bare numbers behind them: length (mm). Each row after it is one
 * piece of the primary that it names, in order. Kind may be left out where the filled cells tell; lengths without a unit are
 * in the unit asked for; an empty clocking is not recorded; an empty state is tacked; locked is yes, no or empty. A row with
 * nothing but a primary makes a primary without pieces.
 */

import { failure, type Result, success } from '../../result.ts';
import type { LengthUnit } from '../../units/length.ts';
import { readColumnName } from '../../units/parse-length.ts';
import type { Header, Piece, Primary } from '../header.ts';
import type { HeaderProblem } from '../header-problem.ts';
import { shortened } from '../names.ts';
import { NAME_LIMIT, nameSchema, PIECES_LIMIT, PRIMARIES_LIMIT } from '../schema.ts';
import { quoted, schemaProblems } from '../schema-problems.ts';
import { type CellContext, type CellProblem, PIECE_COLUMNS, pieceCells, readPieceCells } from './piece-cells.ts';

export const PARTS_COLUMNS = ['primary', ...PIECE_COLUMNS] as const;

export const ROWS_LIMIT = 10_000;
export const COLUMNS_LIMIT = 64;

export interface RowsContext extends CellContext {
  readonly newId: () => string;
}

/** A row that was not taken; `line` counts from 1 as a spreadsheet does, `column` is the name over the cell at fault. */
export interface RefusedRow extends CellProblem {
  readonly line: number;
}

/** What could be read, and every row that could not. */
export interface ReadParts {
  readonly primaries: readonly Primary[];
  readonly refused: readonly RefusedRow[];
}

/** Reads a parts list. Never throws; rows without any text are passed over. Linear in the number of cells. */
export function readPartsRows(rows: readonly (readonly string[])[], context: RowsContext): ReadParts {
  const heading = readHeading(rows, ['primary']);
  if (!heading.ok) return { primaries: [], refused: heading.refused };
  const drafts: Drafts = new Map();
  const refused: RefusedRow[] = [...heading.refused];
  rows.slice(1).forEach((row, index) => {
    if (row.every((cell) => cell.trim() === '')) return;
    const problems = addRow(drafts, cellsOf(row, heading.names), { ...context, units: heading.units });
    refused.push(...problems.map((problem) => ({ line: index + 2, ...problem })));
  });
  return { primaries: [...drafts.values()].map(({ primary, pieces }) => ({ ...primary, pieces })), refused };
}

type Drafts = Map<string, { readonly primary: Omit<Primary, 'pieces'>; readonly pieces: Piece[] }>;

/** Adds the row to its primary; on problems it adds nothing. */
function addRow(drafts: Drafts, read: ReadCells, context: RowsContext): readonly CellProblem[] {
  if (read.problem) return [read.problem];
  const name = readName(read.cells.get('primary'));
  if (!name.ok) return name.problems;
  const draft = drafts.get(name.value) ?? { primary: blankPrimary(context.newId(), name.value), pieces: [] };
  if (!drafts.has(name.value) && drafts.size >= PRIMARIES_LIMIT) return [tooMany('primary', PRIMARIES_LIMIT)];
  if (read.cells.size > 1) {
    if (draft.pieces.length >= PIECES_LIMIT) return [tooMany('primary', PIECES_LIMIT)];
    const piece = readPieceCells(read.cells, context.newId(), context);
    if (!piece.ok) return piece.problems;
    draft.pieces.push(piece.value);
  }
  drafts.set(name.value, draft);
  return [];
}

const blankPrimary = (id: string, name: string): Omit<Primary, 'pieces'> => ({
  id,
  name,
  tube: null,
  port: null,
  inletId: null,
});

const tooMany = (column: string, limit: number): CellProblem => ({
  column,
  problem: { kind: 'tooMany', path: [column], limit },
});

function readName(text = ''): Result<string, CellProblem> {
  const parsed = nameSchema.safeParse(text);
  if (parsed.success) return success(parsed.data);
  const problems = schemaProblems(parsed.error.issues, text);
  return failure(...problems.map((problem) => ({ column: 'primary', problem: { ...problem, path: ['primary'] } })));
}

export type Heading =
  | {
      readonly ok: true;
      readonly names: readonly (string | null)[];
      /** What bare numbers are in where a heading says so. */
      readonly units: ReadonlyMap<string, LengthUnit>;
      readonly refused: readonly RefusedRow[];
    }
  | { readonly ok: false; readonly refused: readonly RefusedRow[] };

/**
 * Reads the row of column names. Columns that are not known are reported and passed over (null);
 * without the required ones, and one of length and angle, nothing can be read.
 */
export function readHeading(rows: readonly (readonly string[])[], required: readonly string[]): Heading {
  const refuse = (problem: HeaderProblem, column: string | null = null): Heading => ({
    ok: false,
    refused: [{ line: 1, column, problem }],
  });
  const first = rows[0] ?? [];
  if (first.every((cell) => cell.trim() === '')) {
    return refuse({ kind: 'unreadableFile', reason: 'empty', path: [], detail: '' });
  }
  if (rows.length > ROWS_LIMIT + 1) return refuse({ kind: 'tooMany', path: ['rows'], limit: ROWS_LIMIT });
  if (first.length > COLUMNS_LIMIT) return refuse({ kind: 'tooMany', path: ['columns'], limit: COLUMNS_LIMIT });
  const names = first.map((cell) => columnNamed(cell));
  const twice = names.find((name, index) => name !== null && names.indexOf(name) !== index);
  if (twice) return refuse({ kind: 'unreadableFile', reason: 'duplicateKey', path: [twice], detail: twice }, twice);
  const missing = required.find((name) => !names.includes(name));
  if (missing) return refuse({ kind: 'missingColumn', path: [missing], column: missing });
  if (!names.includes('length') && !names.includes('angle')) {
    return refuse({ kind: 'missingColumn', path: ['length'], column: 'length' });
  }
  const unknown = first.filter((cell, index) => names[index] === null && cell.trim() !== '');
  return {
    ok: true,
    names,
    units: unitsNamed(first),
    refused: unknown.map((cell) => ({ line: 1, column: cell, problem: { kind: 'unknownField', path: [cell] } })),
  };
}

/** The known column that a heading names; null for any other text. */
export function columnNamed(cell: string): string | null {
  const typed = cell.trim().toLowerCase();
  const { name, unit } = readColumnName(cell);
  const isLength = unit !== null && (name === 'length' || name === 'clr');
  return isLength ? name : (PARTS_COLUMNS.find((column) => column === typed) ?? null);
}

/** The units that headings give to the bare numbers below them, by column. */
function unitsNamed(headings: readonly string[]): ReadonlyMap<string, LengthUnit> {
  return new Map(
    headings.flatMap((cell) => {
      const [name, { unit }] = [columnNamed(cell), readColumnName(cell)];
      return name === null || unit === null ? [] : [[name, unit] as const];
    }),
  );
}

/** The filled cells of a row, or why they cannot be told apart. */
export interface ReadCells {
  readonly cells: ReadonlyMap<string, string>;
  readonly problem: CellProblem | null;
}

/** The filled cells of a row under their column names. A filled cell past the last heading is most often a stray comma. */
export function cellsOf(row: readonly string[], names: readonly (string | null)[]): ReadCells {
  const cells = new Map<string, string>();
  for (const [index, cell] of row.entries()) {
    const text = cell.replaceAll('\r\n', '\n').trim();
    if (text === '') continue;
    if (index >= names.length) {
      const expected = `no more than the ${names.length} cells that have a heading`;
      return {
        cells,
        problem: { column: null, problem: { kind: 'invalidValue', path: [index], expected, found: quoted(text) } },
      };
    }
    const name = names[index] ?? null;
    if (name !== null) cells.set(name, text);
  }
  return { cells, problem: null };
}

/**
 * All pieces of a header as a parts list, headings first; `readPartsRows` with the same unit gives the same pieces back,
 * but for ids and for space at the ends of notes and names. Primaries of one name get a number, so that they stay apart.
 */
export function partsRows(header: Header, unit: LengthUnit): readonly (readonly string[])[] {
  const names = distinctNames(header.primaries.map((primary) => primary.name));
  const rows = header.primaries.flatMap((primary, index) => {
    const name = names[index] ?? primary.name;
    if (primary.pieces.length === 0) return [[name, ...PIECE_COLUMNS.map(() => '')]];
    return primary.pieces.map((piece) => [name, ...pieceCells(piece, unit)]);
  });
  return [[...PARTS_COLUMNS], ...rows];
}

function distinctNames(names: readonly string[]): readonly string[] {
  const taken = new Set<string>();
  return names.map((name) => {
    let distinct = name.trim();
    for (let number = 2; taken.has(distinct); number += 1) distinct = numbered(name.trim(), number);
    taken.add(distinct);
    return distinct;
  });
}

/** A long name is shortened, so that with its number it is still a name. */
function numbered(name: string, number: number): string {
  const ending = ` (${number})`;
  return `${shortened(name, NAME_LIMIT - ending.length)}${ending}`;
}
