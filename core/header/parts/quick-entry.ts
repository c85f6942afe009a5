/**
 * The entry line: a piece in a few keystrokes.
 *
 *   2 1/4          a straight, in the display unit unless a unit is typed; s2 1/4 is the same
 *   b90            a bend of 90 degrees at the header's CLR, clocking not recorded
 *   b60 180        a bend clocked 180 degrees; b60 -45 or b60-45 the other way
 *   b60 180 r4     with a CLR of 4; the CLR comes last
 *   p90x5 180 r4   a pie-cut bend of 5 pies
 *   =              the piece before once more
 *   b90; 2; b45 0  several pieces, in order
 *
 * Capitals and spaces do not matter, angles and lengths are read as everywhere else (22 1/2, 70 mm, 2-3/4). A decimal comma
 * is read where the context says that the shop writes one.
 */

import { failure, type Result, success } from '../../result.ts';
import { readDecimalCommas } from '../../units/decimal-comma.ts';
import { formatTyped, formatTypedAngle } from '../../units/format-typed.ts';
import type { Length, LengthUnit } from '../../units/length.ts';
import { parseAngle } from '../../units/parse-angle.ts';
import { parseLength } from '../../units/parse-length.ts';
import type { UnitsProblem } from '../../units/units-problem.ts';
import type { Bend, PieCutBend, Piece, Straight } from '../header.ts';
import type { EntryFault, HeaderProblem } from '../header-problem.ts';
import { startOf } from '../names.ts';
import { PIECES_LIMIT, PIES_LIMIT, TURN_LIMIT_DEG, turnPerCutDeg } from '../schema.ts';

type PieceCommon = 'id' | 'state' | 'locked' | 'note';

/** What the entry line says of a piece: its shape, without id, state, lock and note. */
export type QuickPiece = Omit<Straight, PieceCommon> | Omit<Bend, PieceCommon> | Omit<PieCutBend, PieceCommon>;

export interface QuickContext {
  /** Unit of a bare number. */
  readonly unit: LengthUnit;
  /** CLR of a bend without one. */
  readonly clr: Length;
  /** What `=` repeats at the start of the line; null or left out when there is nothing. */
  readonly previous?: QuickPiece | Piece | null;
  /** Whether 2,5 is two and a half; left out: it is refused. */
  readonly decimalComma?: boolean;
}

export type EntryProblem = HeaderProblem | UnitsProblem;

/** More than anybody types; bounds the work on pasted text. */
export const ENTRY_LIMIT = 2000;

type Read<Value> = Result<Value, EntryProblem>;

const fault = (reason: EntryFault, part: string) =>
  failure<EntryProblem>({ kind: 'unreadableEntry', path: [], reason, part: startOf(part, 64) });

/**
 * Reads a line as one piece or several. All of the line is read or nothing is; the problem names the part at fault.
 * Straights are above zero, angles above 0 up to 360 degrees, clockings from -360 to 360. Linear in the text.
 */
export function parseQuickEntry(text: string, context: QuickContext): Read<readonly QuickPiece[]> {
  if (text.length > ENTRY_LIMIT) return fault('tooLong', text);
  const parts = (context.decimalComma === true ? readDecimalCommas(text).text : text)
    .split(';')
    .map((part) => part.trim().replace(/\s+/g, ' '))
    .filter((part) => part !== '');
  if (parts.length === 0) return fault('empty', '');
  if (parts.length > PIECES_LIMIT) return fault('tooManyPieces', String(PIECES_LIMIT));
  const pieces: QuickPiece[] = [];
  for (const part of parts) {
    const piece = parsePart(part, { ...context, previous: pieces.at(-1) ?? context.previous ?? null });
    if (!piece.ok) return piece;
    pieces.push(piece.value);
  }
  return success(pieces);
}

function parsePart(part: string, context: QuickContext): Read<QuickPiece> {
  const body = part.slice(1);
  switch (part[0]?.toLowerCase()) {
    case 'b':
      return parseBend(body, context);
    case 'p':
      return parsePieCut(body, context);
    case 's':
      return parseStraight(body.trim(), context);
    case '=':
      if (body !== '') return fault('leftover', body.trim());
      return context.previous ? success(shapeOf(context.previous)) : fault('nothingToRepeat', part);
    default:
      return parseStraight(part, context);
  }
}

function parseStraight(part: string, context: QuickContext): Read<QuickPiece> {
  const length = parseStraightLength(part, context.unit);
  return length.ok ? success({ kind: 'straight', length: length.value }) : length;
}

/** The length of a straight that is entered: above zero, for a straight of nothing is no piece. */
export function parseStraightLength(text: string, unit: LengthUnit): Read<Length> {
  const length = parseLength(text, unit);
  return length.ok && length.value.value === 0 ? fault('noStraight', text) : length;
}

function parseBend(body: string, context: QuickContext): Read<QuickPiece> {
  const { turn, clrText } = splitAtClr(body);
  const [angleText = '', clockingText, ...rest] = anglesIn(turn);
  if (rest.length > 0) return fault('leftover', rest.join(' '));
  const shape = parseShape({ angleText, clockingText, clrText }, context);
  return shape.ok ? success({ kind: 'bend', ...shape.value }) : shape;
}

function parsePieCut(body: string, context: QuickContext): Read<QuickPiece> {
  const { turn, clrText } = splitAtClr(body);
  const cross = turn.toLowerCase().indexOf('x');
  if (cross < 0) return fault('noPieCount', `p${body}`);
  const [countText = '', clockingText, ...rest] = anglesIn(turn.slice(cross + 1));
  if (rest.length > 0) return fault('leftover', rest.join(' '));
  const shape = parseShape({ angleText: turn.slice(0, cross).trim(), clockingText, clrText }, context);
  if (!shape.ok) return shape;
  const pies = parsePies(countText, shape.value.angleDeg);
  return pies.ok ? success({ kind: 'pieCut', ...shape.value, pies: pies.value }) : pies;
}

/** A whole number of pies, 1 to 90, and enough for the bend's angle. */
export function parsePies(text: string, angleDeg: number): Read<number> {
  if (text === '') return fault('noPieCount', text);
  const pies = /^\d{1,3}$/.test(text) ? Number(text) : Number.NaN;
  if (!(pies >= 1 && pies <= PIES_LIMIT)) return fault('pieCountOutOfRange', text);
  return turnPerCutDeg({ angleDeg, pies }) <= TURN_LIMIT_DEG ? success(pies) : fault('tooFewPies', text);
}

interface ShapeText {
  readonly angleText: string;
  readonly clockingText: string | undefined;
  readonly clrText: string | null;
}

function parseShape(texts: ShapeText, context: QuickContext): Read<Pick<Bend, 'clr' | 'angleDeg' | 'clockingDeg'>> {
  if (texts.angleText === '') return fault('noAngle', '');
  const angle = parseBendAngle(texts.angleText);
  if (!angle.ok) return angle;
  const clocking = texts.clockingText === undefined ? success(null) : parseClocking(texts.clockingText);
  if (!clocking.ok) return clocking;
  const clr = texts.clrText === null ? success(context.clr) : parseClr(texts.clrText, context.unit);
  return clr.ok ? success({ clr: clr.value, angleDeg: angle.value, clockingDeg: clocking.value }) : clr;
}

/** The angle of a bend: above 0, up to 360 degrees. */
export function parseBendAngle(text: string): Read<number> {
  const angle = parseAngle(text);
  if (!angle.ok) return angle;
  return angle.value > 0 && angle.value <= 360 ? angle : fault('angleOutOfRange', text);
}

/** A clocking: from -360 to 360 degrees. */
export function parseClocking(text: string): Read<number> {
  const angle = parseAngle(text);
  if (!angle.ok) return angle;
  return Math.abs(angle.value) <= 360 ? angle : fault('clockingOutOfRange', text);
}

/** A CLR: a length above zero. */
export function parseClr(text: string, unit: LengthUnit): Read<Length> {
  if (text.trim() === '') return fault('noClr', 'r');
  const clr = parseLength(text, unit);
  if (!clr.ok) return clr;
  return clr.value.value > 0 ? clr : fault('clrNotAboveZero', text.trim());
}

/** The CLR begins at the first r that is not inside a word such as degrees. */
function splitAtClr(body: string): { readonly turn: string; readonly clrText: string | null } {
  const at = body.search(/(?<![a-z])r/i);
  if (at < 0) return { turn: body.trim(), clrText: null };
  return { turn: body.slice(0, at).trim(), clrText: body.slice(at + 1) };
}

/**
 * The angles that stand in a row: apart by spaces, or by the sign of the second. A fraction and a unit belong to the
 * number before them, so that 22 1/2 and 90 deg are one angle; so does -1/2 right after a digit, as in 22-1/2.
 */
function anglesIn(text: string): readonly string[] {
  const spaced = text.replace(/([+\-\u2212]) /g, '$1').replace(/(?<=[^ ])([+\-\u2212])(?!\d+\/)/g, ' $1');
  const angles: string[] = [];
  for (const token of spaced.split(' ').filter((candidate) => candidate !== '')) {
    const before = angles.pop();
    if (before === undefined) angles.push(token);
    else if (/^(\d+\/\d*|[a-z\u00b0]+)$/i.test(token)) angles.push(`${before} ${token}`);
    else angles.push(before, token);
  }
  return angles;
}

/**
 * A piece as the line that enters it again: `parseQuickEntry` with the same context gives exactly the same shape, unless
 * a value lies between 0 and 1e-40, which takes more digits than a number may have, or the piece is a straight of zero, which
 * a table of a bending shop may bring in and nobody enters.
 */
export function formatQuickEntry(piece: QuickPiece | Piece, context: Omit<QuickContext, 'previous'>): string {
  if (piece.kind === 'straight') return formatTyped(piece.length, context.unit);
  const letter = piece.kind === 'bend' ? 'b' : 'p';
  const pies = piece.kind === 'pieCut' ? `x${piece.pies}` : '';
  const clocking = piece.clockingDeg === null ? '' : ` ${formatTypedAngle(piece.clockingDeg)}`;
  const isUsualClr = piece.clr.value === context.clr.value && piece.clr.unit === context.clr.unit;
  const clr = isUsualClr ? '' : ` r${formatTyped(piece.clr, context.unit)}`;
  return `${letter}${formatTypedAngle(piece.angleDeg)}${pies}${clocking}${clr}`;
}

/** The shape of a piece, without what the entry line does not say. */
export function shapeOf(piece: QuickPiece | Piece): QuickPiece {
  if (piece.kind === 'straight') return { kind: 'straight', length: piece.length };
  const { clr, angleDeg, clockingDeg } = piece;
  if (piece.kind === 'bend') return { kind: 'bend', clr, angleDeg, clockingDeg };
  return { kind: 'pieCut', clr, angleDeg, clockingDeg, pies: piece.pies };
}

/** A piece as it comes off the entry line: tacked, since people type as they tack; not locked, no note. */
export function pieceFromQuick(quick: QuickPiece, id: string): Piece {
  return { ...quick, id, state: 'tacked', locked: false, note: '' };
}
