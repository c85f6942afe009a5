/** One entry that may be wrong, and what the primary would be with it right. */

import type { Edit } from '../../edits/edit.ts';
import type { Piece, Primary } from '../../header/header.ts';

export type MisEntryKind = 'angle' | 'clr' | 'missed' | 'twice' | 'fraction' | 'unit';

/**
 * How often each kind of slip is made, of all slips; the rest of the ranking is what was measured. Our own judgement: an angle
 * is the commonest, since pieces of one bend look alike once they are cut.
 */
export const KIND_WEIGHTS: Readonly<Record<MisEntryKind, number>> = {
  angle: 0.3,
  fraction: 0.2,
  clr: 0.15,
  missed: 0.15,
  twice: 0.1,
  unit: 0.1,
};

/** What may have been entered wrong, before it is weighed. */
export interface Suspicion {
  readonly kind: MisEntryKind;
  /** Place of the piece as entered; for a missed one, where it would come in. */
  readonly pieceIndex: number;
  /** What stands there, and what was meant; null for none. */
  readonly entered: Piece | null;
  readonly meant: Piece | null;
  /** How likely before anything was measured: the weight of its kind shared among those of the kind. */
  readonly prior: number;
}

export interface MisEntry extends Suspicion {
  /** Puts it right. */
  readonly edit: Edit;
  /** How well the measured figures fit once it is right: squared standard deviations, and the most that still count as fitting. */
  readonly chiSquared: number;
  readonly chiSquaredLimit: number;
  /** Its likelihood among all that explain what was measured, 0 to 1. */
  readonly share: number;
}

/** The primary with the entry put right. */
export function correctedBy(primary: Primary, { pieceIndex, entered, meant }: Suspicion): Primary {
  const added = meant === null ? [] : [meant];
  return { ...primary, pieces: primary.pieces.toSpliced(pieceIndex, entered === null ? 0 : 1, ...added) };
}
