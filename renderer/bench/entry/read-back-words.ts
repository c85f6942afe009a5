/** The line under the entry field: what Enter will do, before it is pressed. */

import {
  describeEntryNote,
  type EntryReadBack,
  formatAngle,
  formatLength,
  type Header,
  type LengthStyle,
  type LengthUnit,
  mmOf,
  type Piece,
} from '../../../core/index.ts';
import { clockingWords, cutWords } from '../../ui/words/piece-words.ts';
import { countOf } from '../../ui/words/spoken.ts';
import { verdictWords } from '../../ui/words/verdict-words.ts';

/** Pieces named one by one; more are counted. */
const MOST_NAMED = 3;

/** "bend 45°, clocked 90°; total 37 1/2 in, 3/16 in short". */
export function readBackWords({ pieces, match }: EntryReadBack, { settings }: Header): string {
  const { display } = settings;
  const named = pieces.slice(0, MOST_NAMED).map((piece) => pieceWords(piece, settings));
  const last = pieces.at(-1);
  const what =
    pieces.length > MOST_NAMED && last !== undefined
      ? `${countOf(pieces.length, 'piece')}, the last a ${pieceWords(last, settings)}`
      : named.join(' + ');
  return `${what}; total ${formatLength(match.lengthMm, display)}, ${verdictWords(match, display)}`;
}

/** What is odd about it, a sentence each. */
export function noteWords({ notes }: EntryReadBack, style: LengthStyle): string {
  return notes.map((note) => describeEntryNote(note, style)).join(' ');
}

/** A CLR is told only where it is not the header's own. */
function pieceWords(piece: Piece, { display, clr }: Header['settings']): string {
  if (piece.kind === 'straight') return `straight ${cutWords(piece.length, display)}`;
  const shape =
    piece.kind === 'bend'
      ? `bend ${formatAngle(piece.angleDeg)}`
      : `pie-cut ${formatAngle(piece.angleDeg)} in ${countOf(piece.pies, 'pie')}`;
  const isUsualClr = mmOf(piece.clr) === mmOf(clr);
  const radius = isUsualClr ? '' : `, CLR ${cutWords(piece.clr, display)}`;
  return `${shape}, ${clockingWords(piece.clockingDeg)}${radius}`;
}

/** What a line can be made of, in sight also while one is typed. */
export const ENTRY_HINTS: Readonly<Record<LengthUnit, readonly [string, string]>> = {
  in: ['2 1/4 straight   b90 bend   p90x5 pie-cut', 'b60 180 r3 angle, clocking, CLR   = again   ; next piece'],
  mm: ['57 straight   b90 bend   p90x5 pie-cut', 'b60 180 r76 angle, clocking, CLR   = again   ; next piece'],
};
