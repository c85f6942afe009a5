/**
 * Pieces pasted from a spreadsheet or a note, and copied to one. Cells are apart by tabs. Three forms are read:
 *
 *   one column         each line as the entry line takes it: 2 1/4, b90 180, p90x5
 *   with headings      as a parts list, the primary column passed over: kind, length, clr, angle, clocking, ...
 *   without headings   kind, size, clr, clocking, pies, state, note; size is the length of a straight, the angle of a bend
 */

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
}

export interface PastedPieces {
  readonly pieces: readonly Piece[];
  readonly refused: readonly RefusedRow[];
}

/** 5 MiB of pasted text is no list of pieces. In UTF-16 units. */
const PASTE_LIMIT = 5 * 1024 * 1024;

/** Reads pasted text. Never throws; `line` of a refused row counts the pasted rows from 1. Linear in the text. */
export function readPastedPieces(text: string, context: PasteContext): PastedPieces {
  if (text.length > PASTE_LIMIT) {
    const problem = { kind: 'unreadableFile', reason: 'tooLarge', path: [], detail: '5 MiB' } as const;
    return { pieces: [], refused: [{ line: 1, column: null, problem }] };
  }
  const rows = tabbedRows(text);
  const firstRow = rows.find((row) => row.some((cell) => cell.trim() !== '')) ?? [];
  if (rows.length > ROWS_LIMIT + 1) return tooManyRows();
  if (firstRow.some((cell) => columnNamed(cell) !== null && columnNamed(cell) !== 'primary')) {
    const skipped = rows.indexOf(firstRow);
    return readNamedRows(rows.slice(skipped), { ...context, firstLine: skipped + 1 });
  }
  return rows.every((row) => row.length <= 1) ? readEntryLines(rows, context) : readBareRows(rows, context);
}

function tooManyRows(): PastedPieces {
  return {
    pieces: [],
    refused: [{ line: ROWS_LIMIT + 1, column: null, problem: { kind: 'tooMany', path: ['rows'], limit: ROWS_LIMIT } }],
  };
}

function readEntryLines(rows: readonly (readonly string[])[], context: PasteContext): PastedPieces {
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

function readNamedRows(rows: readonly (readonly string[])[], context: NamedRows): PastedPieces {
  const heading: Heading = readHeading(rows, []);
  if (!heading.ok) return { pieces: [], refused: heading.refused };
  const names = heading.names.map((name) => (name === 'primary' ? null : name));
  const body = readCells(rows.slice(1), { ...context, firstLine: context.firstLine + 1, namesOf: () => names });
  return { pieces: body.pieces, refused: [...heading.refused, ...body.refused] };
}

const STRAIGHT_ORDER = ['kind', 'length', 'clr', 'clocking', 'pies', 'state', 'note'];
const BEND_ORDER = STRAIGHT_ORDER.with(1, 'angle');

function readBareRows(rows: readonly (readonly string[])[], context: PasteContext): PastedPieces {
  const namesOf = (row: readonly string[]) => (/bend|cut/i.test(row[0] ?? '') ? BEND_ORDER : STRAIGHT_ORDER);
  return readCells(rows, { ...context, firstLine: 1, namesOf });
}

function readCells(
  rows: readonly (readonly string[])[],
  context: NamedRows & { readonly namesOf: (row: readonly string[]) => readonly (string | null)[] },
): PastedPieces {
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
  const rows = [PIECE_COLUMNS, ...pieces.map((piece) => pieceCells(piece, context.unit))];
  return rows.map((row) => `${row.map(tabbedCell).join('\t')}\n`).join('');
}

const tabbedCell = (cell: string) => (/[\t\n"]/.test(cell) ? `"${cell.replaceAll('"', '""')}"` : cell);

/**
 * Splits text as spreadsheets put it on the clipboard. A cell that opens with a quote and closes with one before the
 * next tab or line end is unquoted; any other quote is an inch mark and stays. Linear in the text.
 */
export function tabbedRows(text: string): readonly (readonly string[])[] {
  const plain = text.replaceAll('\r\n', '\n').replaceAll('\r', '\n');
  const rows: string[][] = [];
  let row: string[] = [];
  for (let at = 0; at <= plain.length; ) {
    const closing = plain[at] === '"' ? closingQuote(plain, at) : -1;
    const end = closing < 0 ? endOfCell(plain, at) : closing + 1;
    row.push(closing < 0 ? plain.slice(at, end) : plain.slice(at + 1, closing).replaceAll('""', '"'));
    if (plain[end] !== '\t') {
      rows.push(row);
      row = [];
    }
    at = end + 1;
  }
  return rows;
}

function endOfCell(text: string, from: number): number {
  let end = from;
  while (end < text.length && text[end] !== '\t' && text[end] !== '\n') end += 1;
  return end;
}

/** Where the quoted cell that opens at `from` closes; -1 when its first single quote is not at the end of a cell. */
function closingQuote(text: string, from: number): number {
  let at = text.indexOf('"', from + 1);
  while (at >= 0 && text[at + 1] === '"') at = text.indexOf('"', at + 2);
  const next = at < 0 ? 'none' : text[at + 1];
  return next === undefined || next === '\t' || next === '\n' ? at : -1;
}
