/** One primary made ready for the search: its path, where it must end, how long it may be, what may be touched. */

import { type Header, type Piece, type Primary, type Tube, tubeOf } from '../../header/header.ts';
import type { MatchReport } from '../../length/match-header.ts';
import { matchHeader } from '../../length/match-header.ts';
import { type Closure, type ClosureLimits, closureOf, isClosed } from '../../path/ends/closure.ts';
import { closureLimits, findInlet, inletFrame } from '../../path/ends/inlet-pose.ts';
import type { Frame } from '../../path/frame.ts';
import type { PathProblem } from '../../path/path-problem.ts';
import { tracePrimary } from '../../path/trace-primary.ts';
import type { StockItem } from '../../stock/stock-item.ts';
import { mmOf } from '../../units/length.ts';
import { type JointState, jointStates } from './joints.ts';
import { type LengthWindow, lengthWindow } from './length-window.ts';
import { MISS_WEIGHTS, type MissWeights } from '../linear/shift-windows.ts';
import type { MoveOptions, NoMoveReason, Standing } from '../move.ts';

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
  readonly missWeights: MissWeights;
  readonly standing: Standing;
  /** Null: the path is not known, only length can be spoken of. */
  readonly ends: FixedEnds | null;
}

export interface FixedEnds {
  /** Frames before every piece, and the present end last. */
  readonly joints: readonly Frame[];
  readonly end: Frame;
  readonly wanted: Frame;
  readonly limits: ClosureLimits;
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
  const ends = fixedEnds(header, primary, options);
  const standing = standingOf(match, primaryId, ends);
  if (window === null) return { ok: false, reason: { kind: 'noTarget' }, standing };
  if (standing.unknown !== null && isImpossible(standing.unknown)) {
    return { ok: false, reason: { kind: 'impossiblePiece', problem: standing.unknown }, standing };
  }
  const { settings } = header;
  const problem: MoveProblem = {
    header,
    primary,
    tube: tubeOf(header, primary),
    pieces: primary.pieces,
    match,
    window,
    holds: primary.pieces.map((piece) => holdOf(piece, options.locked ?? [])),
    jointStates: jointStates(primary.pieces),
    shortestMm: options.shortestStraightMm ?? mmOf(settings.shortestStraight),
    shrinkageMm: mmOf(settings.weldShrinkage),
    stock: options.stock ?? null,
    options,
    missWeights: options.missWeights ?? MISS_WEIGHTS,
    standing,
    ends: ends.fixed,
  };
  return { ok: true, problem };
}

function holdOf(piece: Piece, locked: readonly string[]): Hold {
  if (piece.state === 'welded') return 'welded';
  return piece.locked || locked.includes(piece.id) ? 'locked' : null;
}

function isImpossible(problem: PathProblem): boolean {
  return problem.kind === 'impossiblePiece' || problem.kind === 'tooFewPies';
}

interface Ends {
  readonly fixed: FixedEnds | null;
  readonly reference: Standing['endReference'];
  readonly unknown: PathProblem | null;
}

/** Closure needs a little room even where the header asks for none, or rounding in the last digit would break it. */
const LEAST_GAP_MM = 1e-6;
const LEAST_TILT_DEG = 1e-6;

function fixedEnds(header: Header, primary: Primary, options: MoveOptions): Ends {
  const path = tracePrimary(primary, primary.port);
  if (!path.ok) return { fixed: null, reference: 'none', unknown: path.problems[0] ?? null };
  const { joints, end } = path.value;
  const inletId = options.endAt === 'present' ? null : primary.inletId;
  const inlet = inletId === null ? null : findInlet(header, inletId);
  const pose = inletId === null || primary.port === null ? null : inletFrame(header, inletId);
  const hasInlet = inlet !== null && pose?.ok === true;
  const own = inlet === null ? null : closureLimits(header, inlet);
  const limits: ClosureLimits = {
    gapMm: Math.max(LEAST_GAP_MM, options.closure?.gapMm ?? mmOf(header.settings.closure.gap)),
    tiltDeg: Math.max(LEAST_TILT_DEG, options.closure?.tiltDeg ?? header.settings.closure.tiltDeg),
    deeperMm: options.slip?.deeperMm ?? (hasInlet ? (own?.deeperMm ?? 0) : 0),
    shallowerMm: options.slip?.shallowerMm ?? (hasInlet ? (own?.shallowerMm ?? 0) : 0),
  };
  return {
    fixed: { joints, end, wanted: hasInlet ? pose.value : end, limits },
    reference: hasInlet ? 'inlet' : 'presentEnd',
    unknown: pose?.ok === false ? (pose.problems[0] ?? null) : null,
  };
}

function standingOf(match: MatchReport, primaryId: string, { fixed, reference, unknown }: Ends): Standing {
  const own = match.primaries.find((one) => one.primaryId === primaryId);
  const closure: Closure | null = fixed === null ? null : closureOf(fixed.end, fixed.wanted);
  return {
    endReference: reference,
    closure,
    isClosed: closure !== null && fixed !== null && isClosed(closure, fixed.limits),
    lengthMm: own?.lengthMm ?? 0,
    deviationMm: own?.deviationMm ?? null,
    unknown,
  };
}
