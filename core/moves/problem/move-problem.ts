/** One primary made ready for the search: its path, where it must end, how long it may be, what may be touched. */

import { type Header, type Piece, type Primary, type Tube, tubeOf } from '../../header/header.ts';
import type { MatchReport } from '../../length/match-header.ts';
import { matchHeader } from '../../length/match-header.ts';
import type { PathProblem } from '../../path/path-problem.ts';
import type { StockItem } from '../../stock/stock-item.ts';
import { mmOf } from '../../units/length.ts';
import { CLOSENESS_PRICES, type ClosenessPrices } from '../linear/shift-windows.ts';
import type { NoMoveReason, Standing } from '../outcome.ts';
import type { MoveOptions } from '../question.ts';
import { type FixedEnds, fixedEnds, standingOf } from './fixed-ends.ts';
import { type JointState, jointStates } from './joints.ts';
import { type LengthWindow, lengthWindow } from './length-window.ts';

/** Why a piece is left alone; a search for what to free may touch it all the same, at a price above all others. */
export type Hold = 'locked' | 'welded' | null;

export interface MoveProblem {
  readonly header: Header;
  readonly primary: Primary;
  readonly tube: Tube;
  readonly pieces: readonly Piece[];
  readonly match: MatchReport;
  readonly window: LengthWindow;
  readonly holds: readonly Hold[];
  readonly jointStates: readonly JointState[];
  readonly shortestMm: number;
  /** Length lost at each weld: a piece more or less makes a weld more or less. */
  readonly shrinkageMm: number;
  readonly stock: readonly StockItem[] | null;
  readonly options: MoveOptions;
  readonly closeness: ClosenessPrices;
  /** `none` leaves the exact figures that no saw would cut, so that they can be held against a solver that knows no saw. */
  readonly rounding: 'saw' | 'none';
  readonly standing: Standing;
  /** Null: the path is not known, only length can be spoken of. */
  readonly ends: FixedEnds | null;
}

export type ReadProblem =
  | { readonly ok: true; readonly problem: MoveProblem }
  | { readonly ok: false; readonly reason: NoMoveReason; readonly standing: Standing | null };

export function readMoveProblem(header: Header, primaryId: string, options: MoveOptions): ReadProblem {
  const primary = header.primaries.find(({ id }) => id === primaryId);
  if (primary === undefined) return { ok: false, reason: { kind: 'noSuchPrimary' }, standing: null };
  if (header.state === 'finished') return { ok: false, reason: { kind: 'headerFinished' }, standing: null };
  if (primary.pieces.length === 0) return { ok: false, reason: { kind: 'noPieces' }, standing: null };
  const match = matchHeader(header);
  const window = lengthWindow(header, match, primaryId);
  const ends = fixedEnds(header, primary);
  const standing = standingOf(match, primaryId, ends);
  if (window === null) return { ok: false, reason: { kind: 'noTarget' }, standing };
  if (standing.unknown !== null && isImpossible(standing.unknown)) {
    return { ok: false, reason: { kind: 'impossiblePiece', problem: standing.unknown }, standing };
  }
  const known = { header, primary, options, match, window, standing, ends: ends.fixed };
  return { ok: true, problem: problemOf(known) };
}

type Known = Pick<MoveProblem, 'header' | 'primary' | 'options' | 'match' | 'window' | 'standing' | 'ends'>;

function problemOf(known: Known): MoveProblem {
  const { header, primary, options } = known;
  const { shortestStraight, weldShrinkage } = header.settings;
  return {
    ...known,
    tube: tubeOf(header, primary),
    pieces: primary.pieces,
    holds: primary.pieces.map(holdOf),
    jointStates: jointStates(primary.pieces),
    shortestMm: mmOf(shortestStraight),
    shrinkageMm: mmOf(weldShrinkage),
    stock: options.stock ?? null,
    closeness: CLOSENESS_PRICES,
    rounding: 'saw',
  };
}

function holdOf(piece: Piece): Hold {
  if (piece.state === 'welded') return 'welded';
  return piece.locked ? 'locked' : null;
}

function isImpossible(problem: PathProblem): boolean {
  return problem.kind === 'impossiblePiece' || problem.kind === 'tooFewPies';
}
