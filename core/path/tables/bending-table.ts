/** The two tables that bending shops exchange, and what is worth saying about a conversion. */

import { PIECES_LIMIT } from '../../header/schema.ts';

/** One bend of an LRA table. */
export interface LraRow {
  /** Straight before the bend, tangent point to tangent point, zero or more. */
  readonly lengthMm: number;
  /**
   * Rotation relative to the plane of the bend before, in degrees, right-hand rule along the direction of travel: the same
   * as clocking. The first bend's is from the port's up. (Some older charts accumulate rotations; this one does not.)
   */
  readonly rotationDeg: number;
  /** Above 0, up to 360. */
  readonly angleDeg: number;
  readonly clrMm: number;
}

/** Length, rotation, angle of every bend in order of travel, then the straight after the last one. */
export interface LraTable {
  readonly rows: readonly LraRow[];
  readonly lastLengthMm: number;
}

/** A point where the centrelines of neighbouring straights cross; the first and the last are the tube's ends. */
export interface XyzPoint {
  readonly xMm: number;
  readonly yMm: number;
  readonly zMm: number;
  /** CLR of the bend at this point; null at both ends, and at a point that no bend is at. */
  readonly clrMm: number | null;
}

export interface XyzTable {
  readonly points: readonly XyzPoint[];
}

/** What a table cannot say as the tube has it, or said needlessly. Piece and point numbers count from 1. */
export type TableNote =
  /** A bending machine makes an arc of it; its ends stay where they are and its length becomes the arc's. */
  | { readonly kind: 'pieCutAsBend'; readonly pieceNumber: number }
  /** The tangents of a bend of 180 degrees never cross, and those above 135 cross far away: it is listed in parts. */
  | { readonly kind: 'bendSplit'; readonly pieceNumber: number; readonly angleDeg: number; readonly parts: number }
  /** The point lies on the line between its neighbours to within 0.001 degree: there is no bend, and it is left out. */
  | { readonly kind: 'pointOnStraight'; readonly point: number };

/** No LRA table has more bends than this: as many as a primary may have pieces. */
export const TABLE_ROWS_LIMIT = PIECES_LIMIT;
/** No XYZ table has more points than this: one for each bend of such a primary, and its two ends. */
export const TABLE_POINTS_LIMIT = PIECES_LIMIT + 2;
