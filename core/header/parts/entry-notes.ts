/** What is odd about a line that can be read: said before it is entered, and never in the way of entering it. */

import { readDecimalCommas } from '../../units/decimal-comma.ts';
import { type Length, MM_PER_INCH, mmOf } from '../../units/length.ts';
import type { Piece } from '../header.ts';
import type { QuickPiece } from './quick-entry.ts';

export type EntryNote =
  | { readonly kind: 'longStraight'; readonly lengthMm: number }
  | { readonly kind: 'pastHalfTurn' | 'smallAngle'; readonly angleDeg: number }
  /** A bend's angle typed as a bare fraction: b90/180 is half a degree, and was hardly meant so. */
  | { readonly kind: 'fractionAngle'; readonly text: string; readonly angleDeg: number }
  | { readonly kind: 'wideClr' | 'tightClr'; readonly diameters: number }
  /** A fraction of an inch that is on no tape. */
  | { readonly kind: 'oddFraction'; readonly text: string }
  /** Numbers whose comma was read as a decimal point, as typed. */
  | { readonly kind: 'decimalComma'; readonly numbers: readonly string[] };

export interface NotesContext {
  /** Outside diameter of the tube that the pieces are of. */
  readonly od: Length;
  readonly decimalComma?: boolean;
}

/** Common practice: a header's primary is 30 to 60 in long, so twice the longest in one straight is a slip of the unit. */
const LONG_STRAIGHT_MM = 10 * 12 * MM_PER_INCH;
/** Common practice: mandrel bends are sold up to 180 degrees; more is two bends welded. */
const HALF_TURN_DEG = 180;
const SMALL_ANGLE_DEG = 1;
/** Common practice: mandrel bends run from 1 to about 4 diameters; past these the figure is more likely of another unit. */
const WIDE_CLR_DIAMETERS = 10;
const TIGHT_CLR_DIAMETERS = 1;
/** Tapes and rules divide the inch by halves, down to 64ths. */
const TAPE_DENOMINATORS = new Set([2, 4, 8, 16, 32, 64]);

/** What is odd about `pieces`, which were read from `text`; the first of each kind, in the order of the line. Linear in the text. */
export function entryNotes(
  text: string,
  pieces: readonly (QuickPiece | Piece)[],
  context: NotesContext,
): readonly EntryNote[] {
  const notes: readonly EntryNote[] = [
    ...commaNotes(text, context),
    ...pieces.flatMap((piece) => shapeNotes(piece, mmOf(context.od))),
    ...fractionNotes(text),
  ];
  // A fraction typed for an angle is why the angle is small, and says more.
  const isExplained = ({ kind }: EntryNote) =>
    kind === 'smallAngle' && notes.some((note) => note.kind === 'fractionAngle');
  return notes.filter(
    (note, index) => !isExplained(note) && notes.findIndex(({ kind }) => kind === note.kind) === index,
  );
}

function commaNotes(text: string, { decimalComma }: NotesContext): readonly EntryNote[] {
  const numbers = decimalComma === true ? readDecimalCommas(text).numbers : [];
  return numbers.length === 0 ? [] : [{ kind: 'decimalComma', numbers }];
}

function shapeNotes(piece: QuickPiece | Piece, odMm: number): readonly EntryNote[] {
  if (piece.kind === 'straight') {
    const lengthMm = mmOf(piece.length);
    return lengthMm > LONG_STRAIGHT_MM ? [{ kind: 'longStraight', lengthMm }] : [];
  }
  const { angleDeg, clr } = piece;
  const diameters = mmOf(clr) / odMm;
  const notes: EntryNote[] = [];
  if (angleDeg > HALF_TURN_DEG) notes.push({ kind: 'pastHalfTurn', angleDeg });
  if (angleDeg < SMALL_ANGLE_DEG) notes.push({ kind: 'smallAngle', angleDeg });
  if (diameters > WIDE_CLR_DIAMETERS) notes.push({ kind: 'wideClr', diameters });
  if (diameters < TIGHT_CLR_DIAMETERS) notes.push({ kind: 'tightClr', diameters });
  return notes;
}

const ANGLE_FRACTION = /^[bp]\s*(\d+)\s*\/\s*(\d+)/i;

function fractionNotes(text: string): readonly EntryNote[] {
  return text.split(';').flatMap((part): readonly EntryNote[] => {
    const [, over, under] = ANGLE_FRACTION.exec(part.trim()) ?? [];
    if (over !== undefined && under !== undefined) {
      return [{ kind: 'fractionAngle', text: `${over}/${under}`, angleDeg: Number(over) / Number(under) }];
    }
    const odd = [...part.matchAll(/\d+\s*[/⁄∕]\s*(\d+)/g)].find(([, denominator]) => isOffTape(Number(denominator)));
    return odd === undefined ? [] : [{ kind: 'oddFraction', text: odd[0].replaceAll(/\s/g, '') }];
  });
}

function isOffTape(denominator: number): boolean {
  return !TAPE_DENOMINATORS.has(denominator);
}
