/**
 * Pieces pasted from a spreadsheet or a note, and copied to one. Cells are apart by tabs. Three forms are read:
 *
 *   one column         each line as the entry line takes it: 2 1/4, b90 180, p90x5
 *   with headings      as a parts list, the primary column passed over: kind, length, clr, angle, clocking, ...
 *   without headings   kind, size, clr, clocking, pies, state, note; size is the length of a straight, the angle of a bend
 */

import { readPastedRows } from '../../spreadsheet/read-rows.ts';
import { clipboardText } from '../../spreadsheet/write-rows.ts';
import { readCommaColumns } from '../../units/decimal-comma.ts';
import type { Length } from '../../units/length.ts';
import type { Piece } from '../header.ts';
import {
  cellsOf,
  columnNamed,
  type Heading,
  type RefusedRow,
  ROWS_LIMIT,
  type RowsContext,
  readHeading,
} from './parts-rows.ts';
import { PIECE_COLUMNS, pieceCells, readPieceCells } from './piece-cells.ts';
import { parseQuickEntry, pieceFromQuick } from './quick-entry.ts';

export interface PasteContext extends RowsContext {
  readonly clr: Length;
  /** Whether 2,5 is two and a half; without it, only in columns that show it themselves. */
  readonly decimalComma?: boolean;
}

interface ReadPieces {
  readonly pieces: readonly Piece[];
  readonly refused: readonly RefusedRow[];
}

export interface PastedPieces extends ReadPieces {
  /** Numbers whose comma was read as a decimal point, as they stand in the text. */
  readonly commas: readonly string[];
}

/** What the cells of a row without headings are. */
const STRAIGHT_ORDER = ['kind', 'length', 'clr', 'clocking', 'pies', 'state', 'note'];
const BEND_ORDER = STRAIGHT_ORDER.with(1, 'angle');

/** 5 MiB of pasted text is no list of pieces. In UTF-16 units. */
const PASTE_LIMIT = 5 * 1024 * 1024;

/** Reads pasted text. Never throws; `line` of a refused row counts the pasted rows from 1. Linear in the text. */
export function readPastedPieces(text: string, context: PasteContext): PastedPieces {
  if (text.length > PASTE_LIMIT) {
    const problem = { kind: 'unreadableFile', reason: 'tooLarge', path: [], detail: '5 MiB' } as const;
    return { pieces: [], refused: [{ line: 1, column: null, problem }], commas: [] };
  }
  const typed = readPastedRows(text, { mostRows: ROWS_LIMIT + 2 });
  const hasHeadings = namesColumns(typed);
  const { rows, numbers } = readCommaColumns(typed, {
    holdsWords: (column) =>
      hasHeadings ? isWordHeading(headingOf(typed, column)) : column === STRAIGHT_ORDER.indexOf('note'),
    isDecimal: context.decimalComma === true,
  });
  return { ...readRows(rows, context), commas: numbers };
}

/** A column whose cells are words, whatever they look like. */
const isWordHeading = (heading: string | null) => heading === 'note' || heading === 'primary';

/** The first row with anything in it; empty when there is none. */
function firstRowOf(rows: readonly (readonly string[])[]): readonly string[] {
  return rows.find((row) => row.some((cell) => cell.trim() !== '')) ?? [];
}

function headingOf(rows: readonly (readonly string[])[], column: number): string | null {
  return columnNamed(firstRowOf(rows)[column] ?? '');
}

/** Whether the first row names columns: a primary's name alone could be anything. */
function namesColumns(rows: readonly (readonly string[])[]): boolean {
  return firstRowOf(rows).some((cell) => columnNamed(cell) !== null && columnNamed(cell) !== 'primary');
}

function readRows(rows: readonly (readonly string[])[], context: PasteContext): ReadPieces {
  if (rows.length > ROWS_LIMIT + 1) return tooManyRows();
  if (namesColumns(rows)) {
    const skipped = rows.indexOf(firstRowOf(rows));
    return readNamedRows(rows.slice(skipped), { ...context, firstLine: skipped + 1 });
  }
  return rows.every((row) => row.length <= 1) ? readEntryLines(rows, context) : readBareRows(rows, context);
}

function tooManyRows(): ReadPieces {
  return {
    pieces: [],
    refused: [{ line: ROWS_LIMIT + 1, column: null, problem: { kind: 'tooMany', path: ['rows'], limit: ROWS_LIMIT } }],
  };
}

function readEntryLines(rows: readonly (readonly string[])[], context: PasteContext): ReadPieces {
  const pieces: Piece[] = [];
  const refused: RefusedRow[] = [];
  rows.forEach(([line = ''], index) => {
    if (line.trim() === '') return;
    const read = parseQuickEntry(line, { unit: context.unit, clr: context.clr, previous: pieces.at(-1) ?? null });
    if (read.ok) pieces.push(...read.value.map((quick) => pieceFromQuick(quick, context.newId())));
    else refused.push(...read.problems.map((problem) => ({ line: index + 1, column: null, problem })));
  });
  return { pieces, refused };
}

interface NamedRows extends PasteContext {
  readonly firstLine: number;
}

function readNamedRows(rows: readonly (readonly string[])[], context: NamedRows): ReadPieces {
  const heading: Heading = readHeading(rows, []);
  if (!heading.ok) return { pieces: [], refused: heading.refused };
  const names = heading.names.map((name) => (name === 'primary' ? null : name));
  const body = readCells(rows.slice(1), {
    ...context,
    units: heading.units,
    firstLine: context.firstLine + 1,
    namesOf: () => names,
  });
  return { pieces: body.pieces, refused: [...heading.refused, ...body.refused] };
}

function readBareRows(rows: readonly (readonly string[])[], context: PasteContext): ReadPieces {
  const namesOf = (row: readonly string[]) => (/bend|cut/i.test(row[0] ?? '') ? BEND_ORDER : STRAIGHT_ORDER);
  return readCells(rows, { ...context, firstLine: 1, namesOf });
}

function readCells(
  rows: readonly (readonly string[])[],
  context: NamedRows & { readonly namesOf: (row: readonly string[]) => readonly (string | null)[] },
): ReadPieces {
  const pieces: Piece[] = [];
  const refused: RefusedRow[] = [];
  rows.forEach((row, index) => {
    const line = context.firstLine + index;
    const { cells, problem } = cellsOf(row, context.namesOf(row));
    if (problem) refused.push({ line, ...problem });
    if (problem || cells.size === 0) return;
    const piece = readPieceCells(cells, context.newId(), context);
    if (piece.ok) pieces.push(piece.value);
    else refused.push(...piece.problems.map((fault) => ({ line, ...fault })));
  });
  return { pieces, refused };
}

/** Pieces as text for the clipboard, with headings; `readPastedPieces` gives the same pieces back, but for their ids. */
export function copiedPieces(pieces: readonly Piece[], context: Pick<PasteContext, 'unit'>): string {
  return clipboardText([PIECE_COLUMNS, ...pieces.map((piece) => pieceCells(piece, context.unit))]);
}
