/** Centreline length of a piece and of a whole primary. */

import type { Piece, Primary } from '../header/header.ts';
import { assertNever } from '../result.ts';
import { mmOf } from '../units/length.ts';
import { centrelineArcMm } from './bend-arcs.ts';
import { pieCutLengthMm } from './pie-cut.ts';

/**
 * Centreline length of one piece, mm, before any weld is made.
 * A pie-cut bend is its chords: `n * 2 CLR tan(angle / 2n)`. Zero for a straight of zero; infinite for a pie-cut bend that
 * turns 180 degrees or more at one cut.
 */
export function pieceLength(piece: Piece): number {
  switch (piece.kind) {
    case 'straight':
      return mmOf(piece.length);
    case 'bend':
      return centrelineArcMm(mmOf(piece.clr), piece.angleDeg);
    case 'pieCut':
      return pieCutLengthMm({ clrMm: mmOf(piece.clr), angleDeg: piece.angleDeg, pies: piece.pies });
    default:
      return assertNever(piece);
  }
}

/**
 * Centreline length of a primary as welded, mm: `sum of pieces - shrinkage * joints`.
 *
 * Joints are those between consecutive pieces, one fewer than there are pieces; a piece of zero length is not there to
 * weld to and makes none. Welds to the flange and to the collector are not counted, since how those are fitted decides
 * what they take, nor are welds inside a pie-cut bend, whose CLR is that of the bend as it is when done.
 */
export function primaryLength(primary: Primary, options: { readonly shrinkageMm: number }): number {
  return asWeldedLength(primary.pieces.map(pieceLength), options.shrinkageMm);
}

/** As `primaryLength`, from lengths already computed. */
export function asWeldedLength(pieceLengthsMm: readonly number[], shrinkageMm: number): number {
  let sumMm = 0;
  let present = 0;
  for (const lengthMm of pieceLengthsMm) {
    sumMm += lengthMm;
    if (lengthMm > 0) present += 1;
  }
  return sumMm - shrinkageMm * Math.max(0, present - 1);
}
