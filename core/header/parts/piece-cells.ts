/** One piece as the cells of a row, both ways: what parts lists and pasted rows have in common. */

import { assertNever, failure, type Result, success } from '../../result.ts';
import { formatTyped, formatTypedAngle } from '../../units/format-typed.ts';
import type { Length, LengthUnit } from '../../units/length.ts';
import { parseLength } from '../../units/parse-length.ts';
import { PIECE_STATES, type Piece, type PieceState } from '../header.ts';
import type { HeaderProblem } from '../header-problem.ts';
import { textSchema } from '../schema.ts';
import { quoted, schemaProblems } from '../schema-problems.ts';
import {
  type EntryProblem,
  parseBendAngle,
  parseClocking,
  parseClr,
  parsePies,
  type QuickPiece,
} from './quick-entry.ts';

/** Columns that say something of a piece, by the names that stand over them. */
export const PIECE_COLUMNS = ['kind', 'length', 'clr', 'angle', 'clocking', 'pies', 'state', 'locked', 'note'] as const;

export type PieceColumn = (typeof PIECE_COLUMNS)[number];

/** The texts of a row by column, trimmed; an empty cell is not there. */
export type PieceCells = ReadonlyMap<string, string>;

export interface CellContext {
  /** Unit of a bare number. */
  readonly unit: LengthUnit;
  /** Units of bare numbers in columns that have one of their own. */
  readonly units?: ReadonlyMap<string, LengthUnit>;
  /** CLR of a bend whose cell is empty; left out when there is none to take. */
  readonly clr?: Length;
}

/** What is wrong with a row, and under which column. */
export interface CellProblem {
  readonly column: string | null;
  readonly problem: EntryProblem;
}

function unitIn(column: PieceColumn, { unit, units }: CellContext): LengthUnit {
  return units?.get(column) ?? unit;
}

type Read<Value> = Result<Value, CellProblem>;

const wrong = (column: PieceColumn, values: { readonly expected: string; readonly found: string }): Read<never> =>
  failure<CellProblem>({ column, problem: { kind: 'invalidValue', path: [column], ...values } });

function inColumn<Value>(column: PieceColumn, result: Result<Value, EntryProblem>): Read<Value> {
  return result.ok ? result : failure(...result.problems.map((problem) => ({ column, problem })));
}

/** Reads the cells of one row as a piece with the given id. An empty state is tacked; an empty clocking is not recorded. */
export function readPieceCells(cells: PieceCells, id: string, context: CellContext): Read<Piece> {
  const shape = readShape(cells, context);
  if (!shape.ok) return shape;
  const state = readState(cells.get('state'));
  if (!state.ok) return state;
  const locked = readLocked(cells.get('locked'));
  if (!locked.ok) return locked;
  const note = textSchema.safeParse(cells.get('note') ?? '');
  if (!note.success) return inColumn('note', noteProblems(note.error.issues, cells.get('note')));
  return success({ ...shape.value, id, state: state.value, locked: locked.value, note: note.data });
}

function noteProblems(issues: Parameters<typeof schemaProblems>[0], text: unknown): Result<never, HeaderProblem> {
  return failure(...schemaProblems(issues, text).map((problem): HeaderProblem => ({ ...problem, path: ['note'] })));
}

function readShape(cells: PieceCells, context: CellContext): Read<QuickPiece> {
  const kind = readKind(cells);
  if (!kind.ok) return kind;
  const stray = strayCell(kind.value, cells);
  if (stray !== null) {
    const expected = `an empty cell, since the piece is a ${KIND_TEXT[kind.value]}`;
    return wrong(stray, { expected, found: quoted(cells.get(stray) ?? '') });
  }
  switch (kind.value) {
    case 'straight': {
      const length = inColumn('length', parseLength(cells.get('length') ?? '', unitIn('length', context)));
      return length.ok ? success({ kind: 'straight', length: length.value }) : length;
    }
    case 'bend': {
      const bend = readBendShape(cells, context);
      return bend.ok ? success({ kind: 'bend', ...bend.value }) : bend;
    }
    case 'pieCut': {
      const bend = readBendShape(cells, context);
      if (!bend.ok) return bend;
      const pies = inColumn('pies', parsePies(cells.get('pies') ?? '', bend.value.angleDeg));
      return pies.ok ? success({ kind: 'pieCut', ...bend.value, pies: pies.value }) : pies;
    }
    default:
      return assertNever(kind.value);
  }
}

const KIND_TEXT: Readonly<Record<Piece['kind'], string>> = {
  straight: 'straight',
  bend: 'bend',
  pieCut: 'pie-cut bend',
};

const KIND_WORDS: ReadonlyMap<string, Piece['kind']> = new Map([
  ['straight', 'straight'],
  ['bend', 'bend'],
  ['piecut', 'pieCut'],
  ['piecutbend', 'pieCut'],
]);

/** The kind as written or, when its cell is empty, what the filled cells leave no doubt about. */
function readKind(cells: PieceCells): Read<Piece['kind']> {
  const text = cells.get('kind');
  if (text === undefined) return success(cells.has('pies') ? 'pieCut' : cells.has('angle') ? 'bend' : 'straight');
  const kind = KIND_WORDS.get(text.toLowerCase().replaceAll(' ', '').replaceAll('-', ''));
  return kind ? success(kind) : wrong('kind', { expected: 'straight, bend or pie-cut', found: quoted(text) });
}

/** A filled cell that a piece of this kind has no use for: to drop it in silence would lose what was meant. */
function strayCell(kind: Piece['kind'], cells: PieceCells): PieceColumn | null {
  const useless: Readonly<Record<Piece['kind'], readonly PieceColumn[]>> = {
    straight: ['angle', 'clr', 'clocking', 'pies'],
    bend: ['length', 'pies'],
    pieCut: ['length'],
  };
  return useless[kind].find((column) => cells.has(column)) ?? null;
}

type BendShape = Pick<Extract<Piece, { kind: 'bend' }>, 'clr' | 'angleDeg' | 'clockingDeg'>;

function readBendShape(cells: PieceCells, context: CellContext): Read<BendShape> {
  const angle = inColumn('angle', parseBendAngle(cells.get('angle') ?? ''));
  if (!angle.ok) return angle;
  const clrText = cells.get('clr');
  if (clrText === undefined && !context.clr) return wrong('clr', { expected: 'the CLR of the bend', found: 'nothing' });
  const usual = context.clr ?? { value: 0, unit: context.unit };
  const clr = clrText === undefined ? success(usual) : inColumn('clr', parseClr(clrText, unitIn('clr', context)));
  if (!clr.ok) return clr;
  const clockingText = cells.get('clocking');
  const clocking = clockingText === undefined ? success(null) : inColumn('clocking', parseClocking(clockingText));
  return clocking.ok ? success({ clr: clr.value, angleDeg: angle.value, clockingDeg: clocking.value }) : clocking;
}

function readState(text: string | undefined): Read<PieceState> {
  if (text === undefined) return success('tacked');
  const state = PIECE_STATES.find((candidate) => candidate === text.toLowerCase());
  return state ? success(state) : wrong('state', { expected: 'planned, cut, tacked or welded', found: quoted(text) });
}

function readLocked(text: string | undefined): Read<boolean> {
  if (text === undefined || text.toLowerCase() === 'no') return success(false);
  return text.toLowerCase() === 'yes'
    ? success(true)
    : wrong('locked', { expected: 'yes, no or nothing', found: quoted(text) });
}

/** A piece as cells in the order of PIECE_COLUMNS; `readPieceCells` with the same unit gives the same piece. */
export function pieceCells(piece: Piece, unit: LengthUnit): readonly string[] {
  const bend = piece.kind === 'straight' ? null : piece;
  const clockingDeg = bend?.clockingDeg ?? null;
  return [
    piece.kind === 'pieCut' ? 'pie-cut' : piece.kind,
    piece.kind === 'straight' ? formatTyped(piece.length, unit) : '',
    bend ? formatTyped(bend.clr, unit) : '',
    bend ? formatTypedAngle(bend.angleDeg) : '',
    clockingDeg === null ? '' : formatTypedAngle(clockingDeg),
    piece.kind === 'pieCut' ? String(piece.pies) : '',
    piece.state,
    piece.locked ? 'yes' : '',
    piece.note,
  ];
}
