/** Which changes can be left aside without a closer look: those that put the measured lengths no nearer. */

import type { Piece } from '../../header/header.ts';
import type { MeasureKind } from '../../header/measured.ts';
import { pieceLength } from '../../length/piece-length.ts';
import { mmOf } from '../../units/length.ts';
import type { Evidence, Weighing } from '../evidence.ts';
import { outsideLengthMm } from '../path-lengths.ts';

/** What fits at all is within about 4.5 standard deviations; the rest is for covariances that change with the pieces. */
const SPREAD = 7;

/** Whether every measured length, as it is off now, could be explained by so much more along its way, in mm. */
export function couldFit({ lengths }: Evidence, now: Weighing, addedMm: (kind: MeasureKind) => number): boolean {
  return lengths.every(({ kind }, index) => {
    const deviationMm = Math.hypot(...(now.factor[index] ?? []));
    return Math.abs((now.residuals[index] ?? 0) - addedMm(kind)) <= SPREAD * deviationMm;
  });
}

/** What one piece in the place of another adds along a method's way, in mm; null for none. */
export function addedBy({ tube }: Evidence, entered: Piece | null, meant: Piece | null): (kind: MeasureKind) => number {
  const odMm = mmOf(tube.od);
  return (kind) => {
    const along = (piece: Piece | null) => {
      if (piece === null) return 0;
      return kind === 'outsideTape' ? outsideLengthMm(piece, odMm) : pieceLength(piece);
    };
    return along(meant) - along(entered);
  };
}
