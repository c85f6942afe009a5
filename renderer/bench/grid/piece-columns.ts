/** The columns of the piece grid: what each shows, what it holds for editing, and how typed text changes the piece. */

import {
  assertNever,
  failure,
  formatQuickEntry,
  formatTyped,
  formatTypedAngle,
  type Length,
  type LengthUnit,
  type Piece,
  type Problem,
  parseBendAngle,
  parseClocking,
  parseClr,
  parseLength,
  parseQuickEntry,
  type Result,
  success,
} from '../../../core/index.ts';

/** In the order shown. `number` heads the row; `run` is worked out. */
export const COLUMNS = ['number', 'piece', 'size', 'clr', 'clock', 'run', 'state'] as const;

export type Column = (typeof COLUMNS)[number];

export const COLUMN_NAMES: Readonly<Record<Column, string>> = {
  number: '#',
  piece: 'Piece',
  size: 'Size',
  clr: 'CLR',
  clock: 'Clock',
  run: 'Run',
  state: 'State',
};

/** Whether text can be typed into this cell of this piece. */
export function isEditable(piece: Piece, column: Column): boolean {
  switch (column) {
    case 'piece':
    case 'size':
      return true;
    case 'clr':
    case 'clock':
      return piece.kind !== 'straight';
    case 'number':
    case 'run':
    case 'state':
      return false;
    default:
      return assertNever(column);
  }
}

/** What is needed to read a cell: the unit of bare numbers, and the CLR of a bend typed without one. */
export interface CellContext {
  readonly unit: LengthUnit;
  readonly clr: Length;
}

/** The text that a cell is edited from: it reads back to exactly what is stored. Empty where nothing is recorded. */
export function editText(piece: Piece, column: Column, context: CellContext): string {
  const { unit } = context;
  if (column === 'piece') return formatQuickEntry(piece, context);
  if (piece.kind === 'straight') return column === 'size' ? formatTyped(piece.length, unit) : '';
  switch (column) {
    case 'size':
      return formatTypedAngle(piece.angleDeg);
    case 'clr':
      return formatTyped(piece.clr, unit);
    case 'clock':
      return piece.clockingDeg === null ? '' : formatTypedAngle(piece.clockingDeg);
    default:
      return '';
  }
}

/**
 * The piece as it becomes when `text` is typed into a cell. Id, state, lock and note stay.
 * The piece column takes the language of the entry line. A read-only cell gives the piece back.
 */
export function readCell(
  piece: Piece,
  column: Column,
  typed: { text: string; context: CellContext },
): Result<Piece, Problem> {
  const { text, context } = typed;
  switch (column) {
    case 'piece':
      return retypePiece(piece, text, context);
    case 'size':
      return piece.kind === 'straight'
        ? mapped(parseLength(text, context.unit), (length) => ({ ...piece, length }))
        : mapped(parseBendAngle(text), (angleDeg) => ({ ...piece, angleDeg }));
    case 'clr':
      if (piece.kind === 'straight') return success(piece);
      return mapped(parseClr(text, context.unit), (clr) => ({ ...piece, clr }));
    case 'clock':
      if (piece.kind === 'straight') return success(piece);
      if (text.trim() === '') return success({ ...piece, clockingDeg: null });
      return mapped(parseClocking(text), (clockingDeg) => ({ ...piece, clockingDeg }));
    case 'number':
    case 'run':
    case 'state':
      return success(piece);
    default:
      return assertNever(column);
  }
}

function retypePiece(piece: Piece, text: string, context: CellContext): Result<Piece, Problem> {
  const read = parseQuickEntry(text, { unit: context.unit, clr: context.clr, previous: null });
  if (!read.ok) return failure(...read.problems);
  const [first] = read.value;
  if (first === undefined) return success(piece);
  const { id, state, locked, note } = piece;
  return success({ ...first, id, state, locked, note });
}

function mapped<From>(read: Result<From, Problem>, make: (value: From) => Piece): Result<Piece, Problem> {
  return read.ok ? success(make(read.value)) : failure(...read.problems);
}
