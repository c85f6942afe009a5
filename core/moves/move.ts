/** What a search for moves is asked and what it answers: moves, or the reason why there is none. */

import type { BatchEdit } from '../edits/edit.ts';
import type { Closure } from '../path/ends/closure.ts';
import type { PathProblem } from '../path/path-problem.ts';
import type { ShelfMatch } from '../stock/shelf-match.ts';
import type { StockItem } from '../stock/stock-item.ts';
import type { Length } from '../units/length.ts';
import type { MissWeights } from './linear/shift-windows.ts';

/** Named after the hardest thing that a move asks for, easiest first. */
export type MoveKind = 'straights' | 'clockings' | 'trims' | 'swaps' | 'bendPair' | 'kick' | 'lengthOnly';

export const MOVE_KINDS: readonly MoveKind[] = [
  'straights',
  'clockings',
  'trims',
  'swaps',
  'bendPair',
  'kick',
  'lengthOnly',
];

/**
 * One thing to do. `pieceIndex` is the place of the piece before the move, from 0; `joint` is the place of the piece that
 * the joint comes before: 0 is the port's flange, and the number of pieces is the collector inlet.
 */
export type MoveChange =
  | { readonly kind: 'length'; readonly pieceIndex: number; readonly from: Length; readonly to: Length }
  | { readonly kind: 'takeOut'; readonly pieceIndex: number; readonly from: Length }
  | { readonly kind: 'letIn'; readonly joint: number; readonly length: Length }
  | { readonly kind: 'clocking'; readonly pieceIndex: number; readonly fromDeg: number; readonly toDeg: number }
  | { readonly kind: 'angle'; readonly pieceIndex: number; readonly fromDeg: number; readonly toDeg: number }
  | {
      readonly kind: 'swap';
      readonly pieceIndex: number;
      readonly fromClr: Length;
      readonly toClr: Length;
      readonly fromDeg: number;
      readonly toDeg: number;
    }
  /** Two bends of one shape let in one after the other, the second clocked 180: the tube steps aside. */
  | {
      readonly kind: 'bendPair';
      readonly joint: number;
      readonly clr: Length;
      readonly angleDeg: number;
      /** Of the first bend, from the bend before it. */
      readonly clockingDeg: number;
      /** What the next bend's clocking must read so that it stays as it lies; null when there is no bend after. */
      readonly nextClockingDeg: number | null;
    }
  /** A straight goes out and back: a bend, one of twice its angle, and the first one's like. */
  | {
      readonly kind: 'kick';
      readonly pieceIndex: number;
      readonly from: Length;
      readonly before: Length;
      readonly after: Length;
      readonly clr: Length;
      readonly angleDeg: number;
      readonly clockingDeg: number;
      readonly nextClockingDeg: number | null;
    };

/** A piece that a move takes from the shelf. */
export type StockNeed =
  | { readonly kind: 'straight'; readonly lengthMm: number; readonly isOnShelf: boolean }
  | { readonly kind: 'bend'; readonly clr: Length; readonly angleDeg: number; readonly onShelf: ShelfMatch };

/** See `move-cost.ts` for what each figure counts. */
export interface MoveCost {
  /** Tacked joints that come apart, as places of the piece after the joint. */
  readonly jointsBroken: readonly number[];
  readonly newCuts: number;
  readonly tubeAddedMm: number;
  /** Empty when no stock was given. */
  readonly stockNeeded: readonly StockNeed[];
  readonly stockLacking: number;
}

export interface Move {
  readonly kind: MoveKind;
  readonly primaryId: string;
  /** All of it as one undoable step. */
  readonly edit: BatchEdit;
  /** In order along the tube. */
  readonly changes: readonly MoveChange[];
  /** After the move, saw rounding included. */
  readonly lengthMm: number;
  readonly deviationMm: number;
  /** Null where the path is not known. */
  readonly closureBefore: Closure | null;
  readonly closureAfter: Closure | null;
  /** Least gap of this primary to other tubes, itself and obstacles; null when there is nothing to be near to. */
  readonly clearanceBeforeMm: number | null;
  readonly clearanceAfterMm: number | null;
  readonly cost: MoveCost;
  /** Only for moves on length alone: no point of the end shifts by more than this. */
  readonly endShiftAtMostMm: number | null;
}

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
  /** Moves exist, but each breaks more joints than allowed. */
  | { readonly kind: 'tooManyJoints'; readonly needed: number; readonly allowed: number }
  /** Moves exist, but each comes nearer to another tube or an obstacle than is kept. */
  | { readonly kind: 'tooTight'; readonly bestMm: number; readonly keptMm: number }
  /** Moves exist on paper, but not once rounded to what a saw can cut. */
  | { readonly kind: 'rounding' }
  | { readonly kind: 'outOfReach' };

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
  /** Places of the piece after the joint. */
  readonly weldedJoints: readonly number[];
  readonly tackedJoints: readonly number[];
}

export type MoveOutcome =
  | { readonly kind: 'found'; readonly before: Standing; readonly moves: readonly Move[] }
  | {
      readonly kind: 'none';
      readonly before: Standing | null;
      readonly reason: NoMoveReason;
      readonly nearest: NearestMiss | null;
      readonly toFree: ToFree | null;
    }
  /** Called off by `shouldStop`; the moves found until then are sound, but better ones may exist. */
  | { readonly kind: 'stopped'; readonly before: Standing; readonly moves: readonly Move[] };

/** Everything has a default: the header's own settings, no limits, no stock. */
export interface MoveOptions {
  readonly kinds?: readonly MoveKind[];
  /** Ids of pieces to leave alone besides those locked in the header. */
  readonly locked?: readonly string[];
  readonly maxJointsBroken?: number;
  readonly shortestStraightMm?: number;
  readonly closure?: { readonly gapMm: number; readonly tiltDeg: number };
  readonly slip?: { readonly deeperMm: number; readonly shallowerMm: number };
  /** Moves that bring the primary nearer than this to anything are left out, unless it was as near before. Null: any. */
  readonly clearanceKeptMm?: number | null;
  /** The shelf; null or none: not considered, bends are then only cut down and no CLR is swapped. */
  readonly stock?: readonly StockItem[] | null;
  /** `present` keeps the end where it is now even though the inlet is elsewhere. */
  readonly endAt?: 'inlet' | 'present';
  /** `none` gives the exact figures that no saw would cut. */
  readonly rounding?: 'saw' | 'none';
  readonly maxMoves?: number;
  /** Zeros leave tube alone in its place in the order of costs: the least of it that lands in band and closure. */
  readonly missWeights?: MissWeights;
  /** Asked every few hundred microseconds; true ends the search. */
  readonly shouldStop?: () => boolean;
  /** Ids for pieces let in; by default the first free ones of a fixed series. */
  readonly newId?: () => string;
}
