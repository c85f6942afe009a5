/** Pieces of a cut plan by their names there, and how each is written on the tube. */

import { type PlacedPiece, type PlacedPieces, pieceMark } from '../../../core/index.ts';

export type { PlacedPieces };
export { pieceMark };

export function byId(pieces: readonly PlacedPiece[]): PlacedPieces {
  return new Map(pieces.map((placed) => [placed.id, placed]));
}

/** The id of the header that a piece of a plan belongs to. */
export function headerOfPiece(plannedId: string): string {
  return plannedId.slice(0, plannedId.indexOf(':'));
}
