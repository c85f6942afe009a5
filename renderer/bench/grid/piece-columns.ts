/** The columns of the piece grid: what each shows, what it holds for editing, and how typed text changes the piece. */

import {
  assertNever,
  failure,
  formatQuickEntry,
  formatTypedAngle,
  type Length,
  type LengthUnit,
  noteFromText,
  type Piece,
  type Problem,
  parseBendAngle,
  parseClocking,
  parseClr,
  parseQuickEntry,
  parseStraightLength,
  type Result,
  readDecimalCommas,
  startOf,
  success,
  typedText,
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
  run: 'Total',
  state: 'State',
};

/** What of a piece can be typed: the cells of its row, and the note under it. */
export type EditPlace = Column | 'note';

export const EDIT_NAMES: Readonly<Record<EditPlace, string>> = { ...COLUMN_NAMES, note: 'Note' };

/** Whether text can be typed there for this piece. */
export function isEditable(piece: Piece, place: EditPlace): boolean {
  switch (place) {
    case 'piece':
    case 'size':
    case 'note':
      return true;
    case 'clr':
    case 'clock':
      return piece.kind !== 'straight';
    case 'number':
    case 'run':
    case 'state':
      return false;
    default:
      return assertNever(place);
  }
}

/** What is needed to read a cell: the unit of bare numbers, and the CLR of a bend typed without one. */
export interface CellContext {
  readonly unit: LengthUnit;
  readonly clr: Length;
  /** Whether 2,5 is two and a half. */
  readonly decimalComma: boolean;
}

/** The text that a cell is edited from: it reads back to exactly what is stored. Empty where nothing is recorded. */
export function editText(piece: Piece, column: EditPlace, context: Pick<CellContext, 'unit' | 'clr'>): string {
  const { unit } = context;
  if (column === 'note') return piece.note;
  if (column === 'piece') return formatQuickEntry(piece, context);
  if (piece.kind === 'straight') return column === 'size' ? typedText(piece.length, unit) : '';
  switch (column) {
    case 'size':
      return formatTypedAngle(piece.angleDeg);
    case 'clr':
      return typedText(piece.clr, unit);
    case 'clock':
      return piece.clockingDeg === null ? '' : formatTypedAngle(piece.clockingDeg);
    default:
      return '';
  }
}

/** Letters of the entry line that make a piece a straight, a bend or a pie cut. */
const KIND_LETTER = /^\s*[sbp]/i;

/**
 * The piece as it becomes when `text` is typed there. Id, state, lock and note stay, unless it is the note.
 * The piece column takes the language of the entry line, and so does the size where the text begins with the letter of a
 * kind: `b90` there makes a straight a bend, and leaves a bend its CLR and clocking. A read-only cell gives the piece back.
 */
export function readCell(
  piece: Piece,
  column: EditPlace,
  typed: { text: string; context: CellContext },
): Result<Piece, Problem> {
  const { context } = typed;
  if (column === 'note') return success({ ...piece, note: noteFromText(typed.text) });
  const text = context.decimalComma ? readDecimalCommas(typed.text).text : typed.text;
  switch (column) {
    case 'piece':
      return retypePiece(piece, text, context);
    case 'size':
      if (KIND_LETTER.test(text)) return resizePiece(piece, text, context);
      return piece.kind === 'straight'
        ? mapped(parseStraightLength(text, context.unit), (length) => ({ ...piece, length }))
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
  const [first, second] = read.value;
  if (second !== undefined) {
    return failure({ kind: 'unreadableEntry', path: [], reason: 'severalPieces', part: startOf(text, 64) });
  }
  if (first === undefined) return success(piece);
  const { id, state, locked, note } = piece;
  return success({ ...first, id, state, locked, note });
}

/** As `retypePiece`, but what a bend has already and the text leaves out stays. */
function resizePiece(piece: Piece, text: string, context: CellContext): Result<Piece, Problem> {
  if (piece.kind === 'straight') return retypePiece(piece, text, context);
  const { clr, clockingDeg } = piece;
  return mapped(retypePiece(piece, text, { ...context, clr }), (typed) =>
    typed.kind === 'straight' ? typed : { ...typed, clockingDeg: typed.clockingDeg ?? clockingDeg },
  );
}

/** What stands in the cell to be typed on when a piece is to become another kind: all that it keeps, and the place to type at. */
export function textForKind(
  piece: Piece,
  kind: Piece['kind'],
  context: Pick<CellContext, 'unit' | 'clr'>,
): { readonly text: string; readonly caret: number } {
  const kept =
    piece.kind === 'straight' || kind === 'straight' ? '' : formatQuickEntry({ ...piece, kind: 'bend' }, context);
  const figures = kept.slice(1);
  const angleEnd = figures.includes(' ') ? figures.indexOf(' ') : figures.length;
  // The count of pies is what a pie cut has and a bend has not.
  const text = kind === 'pieCut' ? `p${figures.slice(0, angleEnd)}x${figures.slice(angleEnd)}` : `${kind[0]}${figures}`;
  return { text, caret: kind === 'pieCut' && kept !== '' ? angleEnd + 2 : kind === 'pieCut' ? 1 : text.length };
}

function mapped<From>(read: Result<From, Problem>, make: (value: From) => Piece): Result<Piece, Problem> {
  return read.ok ? success(make(read.value)) : failure(...read.problems);
}
