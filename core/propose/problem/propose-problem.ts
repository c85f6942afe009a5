/** One question for a whole primary made ready for the search: its two ends, its length, what it may be made of. */

import { type Header, type Piece, type Primary, type Tube, tubeOf } from '../../header/header.ts';
import { pieceLength } from '../../length/piece-length.ts';
import { type ClosureLimits, closureOf, isClosed } from '../../path/ends/closure.ts';
import { closureLimits, findInlet, inletFrame, placedPath } from '../../path/ends/inlet-pose.ts';
import type { PathProblem } from '../../path/path-problem.ts';
import { failure, type Result, success } from '../../result.ts';
import { clrsOnShelf } from '../../stock/shelf-match.ts';
import type { StockItem } from '../../stock/stock-item.ts';
import { type Length, mmOf } from '../../units/length.ts';
import type { LeastStraights, TubeEnds } from '../joints/tube-shape.ts';
import type { NoProposalReason } from '../outcome.ts';
import type { ProposeOptions } from '../question.ts';
import { type WantedWindow, wantedWindow } from './wanted-window.ts';

export interface ProposeProblem {
  readonly header: Header;
  readonly primary: Primary;
  readonly options: ProposeOptions;
  readonly tube: Tube;
  /** Pieces from the port on that stay: up to the last that is tacked, welded or locked. */
  readonly keptPieces: number;
  readonly keptMm: number;
  readonly ends: TubeEnds;
  readonly limits: ClosureLimits;
  /** Of the whole primary as welded; null: as short as can be. */
  readonly window: WantedWindow | null;
  readonly clrs: readonly Length[];
  readonly least: LeastStraights;
  readonly stock: readonly StockItem[] | null;
  readonly mostBends: number;
  /** Null: any gap will do. */
  readonly gapKeptMm: number | null;
}

export type ReadProposeProblem =
  | { readonly ok: true; readonly problem: ProposeProblem }
  | { readonly ok: false; readonly reason: NoProposalReason };

const MOST_BENDS = 4;
/** Closure needs a little room even where the header asks for none, or rounding in the last digit would break it. */
const LEAST_ROOM = 1e-6;

export function readProposeProblem(header: Header, primaryId: string, options: ProposeOptions): ReadProposeProblem {
  const primary = header.primaries.find(({ id }) => id === primaryId);
  if (primary === undefined) return { ok: false, reason: { kind: 'noSuchPrimary' } };
  if (header.state === 'finished') return { ok: false, reason: { kind: 'headerFinished' } };
  const keptPieces = keptOf(primary);
  const ends = endsOf(header, primary, keptPieces);
  if (!ends.ok) return { ok: false, reason: { kind: 'endsUnknown', problem: ends.problems[0] as PathProblem } };
  const limits = limitsOf(header, primary);
  const closure = closureOf(ends.value.start, ends.value.wanted);
  if (isClosed(closure, limits)) return { ok: false, reason: { kind: keptPieces > 0 ? 'allThere' : 'samePlace' } };
  // What is kept may end in the right place and still point the wrong way.
  if (keptPieces === 0 && closure.gapMm < limits.gapMm) return { ok: false, reason: { kind: 'samePlace' } };
  const tube = tubeOf(header, primary);
  const clrs = clrsOf(header, tube, options);
  if (clrs.length === 0) return { ok: false, reason: { kind: 'noClr' } };
  const { shortestStraight, wantedGap } = header.settings;
  const leastMm = mmOf(shortestStraight);
  const kept = primary.pieces.slice(0, keptPieces);
  return {
    ok: true,
    problem: {
      header,
      primary,
      options,
      tube,
      keptPieces,
      keptMm: kept.reduce((sumMm, piece) => sumMm + pieceLength(piece), 0),
      ends: ends.value,
      limits,
      window: wantedWindow(header, primary, options.length ?? { kind: 'target' }),
      clrs,
      least: { firstMm: Math.max(0, leastMm - standingMm(kept)), betweenMm: leastMm, lastMm: leastMm },
      stock: options.stock ?? null,
      mostBends: Math.min(MOST_BENDS, Math.max(0, options.mostBends ?? MOST_BENDS)),
      gapKeptMm: options.clearanceKeptMm === undefined ? mmOf(wantedGap) : options.clearanceKeptMm,
    },
  };
}

/** What holds is kept, and all before it; what is only planned or cut may be replaced. */
function keptOf({ pieces }: Primary): number {
  return pieces.findLastIndex(({ state, locked }) => locked || state === 'tacked' || state === 'welded') + 1;
}

/** The straights that the pieces which stay end in: what is put after them makes them longer, and all of it is one straight from bend to bend. */
function standingMm(kept: readonly Piece[]): number {
  const bends = kept.findLastIndex(({ kind }) => kind !== 'straight') + 1;
  return kept.slice(bends).reduce((sumMm, piece) => sumMm + pieceLength(piece), 0);
}

function endsOf(header: Header, primary: Primary, keptPieces: number): Result<TubeEnds, PathProblem> {
  const path = placedPath({ ...primary, pieces: primary.pieces.slice(0, keptPieces) });
  if (!path.ok) return path;
  if (primary.inletId === null) {
    return failure({ kind: 'inletNotAssigned', primaryId: primary.id, primaryName: primary.name });
  }
  const wanted = inletFrame(header, primary.inletId);
  return wanted.ok ? success({ start: path.value.end, wanted: wanted.value }) : wanted;
}

function limitsOf(header: Header, { inletId }: Primary): ClosureLimits {
  const inlet = inletId === null ? null : findInlet(header, inletId);
  const { gap, tiltDeg } = header.settings.closure;
  const limits =
    inlet === null ? { gapMm: mmOf(gap), tiltDeg, deeperMm: 0, shallowerMm: 0 } : closureLimits(header, inlet);
  return { ...limits, gapMm: Math.max(LEAST_ROOM, limits.gapMm), tiltDeg: Math.max(LEAST_ROOM, limits.tiltDeg) };
}

function clrsOf({ settings }: Header, tube: Tube, { clrs = null, stock = null }: ProposeOptions): readonly Length[] {
  if (clrs !== null) return clrs;
  return stock === null ? [settings.clr] : clrsOnShelf(stock, tube);
}
