/** Why a path, a pose, a closure or a bending table could not be worked out, as data. */

import type { ProblemPath } from '../header/header-problem.ts';

/** A piece as a person finds it: the primary's name and the piece's number, counted from 1. */
export interface PieceRef {
  readonly primaryId: string;
  readonly primaryName: string;
  readonly pieceId: string;
  readonly pieceNumber: number;
}

export type PoseProblem =
  | { readonly kind: 'poseNotFinite'; readonly path: ProblemPath }
  | { readonly kind: 'poseZeroDirection'; readonly path: ProblemPath }
  | { readonly kind: 'poseUpParallel'; readonly path: ProblemPath };

export type PathProblem =
  | PoseProblem
  /** The primary has no port pose, so nothing says where it lies. */
  | { readonly kind: 'portMissing'; readonly primaryId: string; readonly primaryName: string }
  /** A bend has no clocking: the path is known only up to it. */
  | ({ readonly kind: 'pathUnknown' } & PieceRef)
  /** So few pies that a mitre would turn the tube by 180 degrees or more. */
  | ({ readonly kind: 'tooFewPies'; readonly pies: number; readonly angleDeg: number } & PieceRef)
  /** A length, radius or angle that no piece can have; `field` is the piece's field at fault. */
  | ({ readonly kind: 'impossiblePiece'; readonly field: string } & PieceRef)
  | { readonly kind: 'noSuchPrimary'; readonly primaryId: string }
  | { readonly kind: 'noSuchInlet'; readonly inletId: string }
  | { readonly kind: 'inletNotAssigned'; readonly primaryId: string; readonly primaryName: string }
  | { readonly kind: 'inletNotMeasured'; readonly inletId: string; readonly inletName: string }
  | { readonly kind: 'patternCount'; readonly pattern: string; readonly count: number };

export type TableProblem =
  | { readonly kind: 'tableTooShort'; readonly table: 'lra' | 'xyz'; readonly rows: number }
  | { readonly kind: 'tableTooLong'; readonly table: 'lra' | 'xyz'; readonly limit: number }
  | { readonly kind: 'tableColumnMissing'; readonly table: 'lra' | 'xyz'; readonly column: string }
  | {
      readonly kind: 'tableCell';
      readonly table: 'lra' | 'xyz';
      /** Counted from 1 below the heading. */
      readonly row: number;
      readonly column: string;
      readonly found: string;
      readonly expected: 'number' | 'coordinate' | 'zeroOrMore' | 'aboveZero' | 'angle';
    }
  /** Two points in a row are the same place; numbers count from 1. */
  | { readonly kind: 'samePoint'; readonly point: number }
  /** The points run straight back on themselves: a 180 degree bend has no intersection point. */
  | { readonly kind: 'turnsBack'; readonly point: number }
  /** The bends at both ends of a leg need more of it than there is. */
  | { readonly kind: 'legTooShort'; readonly leg: number; readonly legMm: number; readonly neededMm: number }
  | { readonly kind: 'radiusMissing'; readonly point: number };

export type PathOrTableProblem = PathProblem | TableProblem;
