/** What a search for moves answers: moves, or the reason why there is none. */

import type { Closure } from '../path/ends/closure.ts';
import type { PathProblem } from '../path/path-problem.ts';
import type { Move } from './move.ts';

/** How the primary stands before any move; a broken closure is said first, since length then means little. */
export interface Standing {
  /** `inlet`: its collector inlet. `presentEnd`: where it ends now. `none`: its path is not known. */
  readonly endReference: 'inlet' | 'presentEnd' | 'none';
  readonly closure: Closure | null;
  readonly isClosed: boolean;
  readonly lengthMm: number;
  readonly deviationMm: number | null;
  /** What keeps the inlet or the whole path from being known, if anything does. */
  readonly unknown: PathProblem | null;
}

export type NoMoveReason =
  | { readonly kind: 'noSuchPrimary' }
  | { readonly kind: 'headerFinished' }
  | { readonly kind: 'noPieces' }
  | { readonly kind: 'noTarget' }
  /** In the band and closed. */
  | { readonly kind: 'nothingToDo' }
  | { readonly kind: 'impossiblePiece'; readonly problem: PathProblem }
  /** Every piece is locked or welded. */
  | { readonly kind: 'allHeld' }
  /** No bend anywhere: between two fixed ends a straight tube has one length. */
  | { readonly kind: 'allInLine' }
  /** Moves exist, but each takes more joints than allowed. */
  | { readonly kind: 'tooManyJoints'; readonly needed: number; readonly allowed: number }
  /** Moves exist, but each comes nearer to another tube or an obstacle than is kept. */
  | { readonly kind: 'tooTight'; readonly bestMm: number; readonly keptMm: number }
  /** Moves exist on paper, but not once rounded to what a saw can cut. */
  | { readonly kind: 'rounding' }
  | { readonly kind: 'outOfReach' }
  /** The search was left before it was through. */
  | { readonly kind: 'notThrough' };

/** The nearest that the search came without getting there. */
export interface NearestMiss {
  readonly gapMm: number;
  readonly tiltDeg: number;
  readonly lengthMm: number;
}

/** What would have to be let go for a move to exist; each was tried and gave one. */
export interface ToFree {
  readonly lockedPieces: readonly number[];
  readonly weldedPieces: readonly number[];
  /** Each as the index of the piece after it. */
  readonly weldedJoints: readonly number[];
  readonly tackedJoints: readonly number[];
  /** Joints that the move then makes. */
  readonly jointsMade: number;
}

export type MoveOutcome =
  | {
      readonly kind: 'found';
      readonly before: Standing;
      readonly moves: readonly Move[];
      /** False: the search was left before it was through, and better moves may exist. */
      readonly isExhausted: boolean;
    }
  | {
      readonly kind: 'none';
      readonly before: Standing | null;
      readonly reason: NoMoveReason;
      readonly nearest: NearestMiss | null;
      readonly toFree: ToFree | null;
    };
