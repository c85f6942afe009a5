/** A piece as a fabricator would type it into the entry line: fractions, spaces, and the CLR only where it is not the usual. */

import type { Piece } from '../../core/header/header.ts';
import { parseQuickEntry } from '../../core/header/parts/quick-entry.ts';
import { formatTyped, formatTypedAngle } from '../../core/units/format-typed.ts';
import type { Length, LengthUnit } from '../../core/units/length.ts';
import { digestOf } from '../trust/canonical.ts';

export interface EntryContext {
  readonly unit: LengthUnit;
  readonly clr: Length;
}

function spelling(piece: Piece, { unit, clr }: EntryContext): string {
  if (piece.kind === 'straight') return formatTyped(piece.length, unit);
  const angle = formatTypedAngle(piece.angleDeg);
  const head = piece.kind === 'bend' ? `b${angle}` : `p${angle}x${piece.pies}`;
  const clock = piece.clockingDeg === null ? '' : ` ${formatTypedAngle(piece.clockingDeg)}`;
  const isUsual = piece.clr.value === clr.value && piece.clr.unit === clr.unit;
  return `${head}${clock}${isUsual ? '' : ` r${formatTyped(piece.clr, unit)}`}`;
}

/** Of what the entry line says of a piece: all but its id, state, lock and note. */
export function shapeDigest(piece: object): string {
  const fields = Object.entries(piece).filter(([key]) => !['id', 'state', 'locked', 'note'].includes(key));
  return digestOf(Object.fromEntries(fields));
}

/** Reads back to exactly the piece; throws when it does not. */
export function entrySpelling(piece: Piece, context: EntryContext): string {
  const text = spelling(piece, context);
  const read = parseQuickEntry(text, context);
  const [first] = read.ok ? read.value : [];
  if (first === undefined || shapeDigest(first) !== shapeDigest(piece)) throw new Error(`"${text}" is another piece`);
  return text;
}
