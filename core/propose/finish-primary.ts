/** How far it is to the inlet from where a primary ends now, and the one piece or two that would finish it. */

import type { Header } from '../header/header.ts';
import type { QuickPiece } from '../header/parts/quick-entry.ts';
import { sawSteps } from '../moves/offer/saw-steps.ts';
import { type Closure, closureOf, isClosed } from '../path/ends/closure.ts';
import type { Frame } from '../path/frame.ts';
import { cross, dot, magnitude, squareTo } from '../path/vector.ts';
import type { StockItem } from '../stock/stock-item.ts';
import { degreesOf } from '../units/angle.ts';
import { mmOf } from '../units/length.ts';
import { unitOf } from '../units/length-style.ts';
import { finishingPieces } from './finish-pieces.ts';
import { clrOf } from './offer/candidate.ts';
import type { RoundedShape } from './offer/round-shape.ts';
import { type ProposeProblem, readProposeProblem } from './problem/propose-problem.ts';

export interface Finish {
  /** From the present end of all its pieces to the inlet. */
  readonly closure: Closure;
  readonly toGo: ToGo;
  /** Null: no one piece or two would do. */
  readonly pieces: readonly QuickPiece[] | null;
}

/** Where the inlet lies as seen along the tube from its present end. */
export interface ToGo {
  /** On along the end's own axis, mm; below zero: the end has run past it. */
  readonly aheadMm: number;
  /** Square to that axis, mm, zero or more. */
  readonly asideMm: number;
  /** The clocking of a bend that would curl to the side on which the inlet lies, above -180 to 180; null where it lies in line. */
  readonly sideDeg: number | null;
  /** Between the directions of the end and of the inlet, 0 to 180. */
  readonly tiltDeg: number;
}

/** Nearer to the axis than this the inlet lies to no side, mm. */
const IN_LINE_MM = 1e-6;

/** Where `inlet` lies as seen from `end`. Exact to rounding. */
export function toGoOf(end: Frame, inlet: Frame): ToGo {
  const { gap, tiltDeg } = closureOf(end, inlet);
  const { tangent, normal } = end;
  const aside = squareTo(tangent, gap);
  const asideMm = magnitude(aside);
  const sideRad = Math.atan2(dot(aside, cross(tangent, normal)), dot(aside, normal));
  return {
    aheadMm: dot(gap, tangent),
    asideMm,
    sideDeg: asideMm < IN_LINE_MM ? null : degreesOf(sideRad),
    tiltDeg,
  };
}

/**
 * What would finish a primary in one piece, or two: a straight, a bend, or a bend with a straight before or after it, whatever its length then comes to. Figures are such as a saw and
 * an angle gauge can do; fewest pieces first, then the tightest CLR of the shelf or the header's own. Null where its end or its inlet is not known, or where it is closed already.
 */
export function finishPrimary(header: Header, primaryId: string, stock: readonly StockItem[] | null): Finish | null {
  // All of it counts as standing, planned pieces too.
  const standing = header.primaries.map((primary) =>
    primary.id === primaryId
      ? { ...primary, pieces: primary.pieces.map((piece) => ({ ...piece, locked: true })) }
      : primary,
  );
  const asked = { ...header, primaries: standing };
  const onShelf = readProposeProblem(asked, primaryId, { stock });
  // A shelf without bends of this tube says nothing about which CLR is meant.
  const hasNoBend = !onShelf.ok && onShelf.reason.kind === 'noClr';
  const read = hasNoBend ? readProposeProblem(asked, primaryId, {}) : onShelf;
  if (!read.ok) return null;
  const { problem } = read;
  const { ends, limits } = problem;
  const closure = closureOf(ends.start, ends.wanted);
  if (isClosed(closure, limits)) return null;
  const { display } = problem.header.settings;
  const shape = finishingPieces({
    ends,
    limits,
    clrsMm: problem.clrs.map(mmOf),
    least: problem.least,
    unit: unitOf(display),
    steps: sawSteps(display),
  });
  const pieces = shape === null ? null : piecesOf(problem, shape);
  return { closure, toGo: toGoOf(ends.start, ends.wanted), pieces };
}

function piecesOf(problem: ProposeProblem, { straights, bends }: RoundedShape): readonly QuickPiece[] {
  return straights.flatMap((length, index): readonly QuickPiece[] => {
    const bend = bends[index - 1];
    const straight: readonly QuickPiece[] = mmOf(length) > 0 ? [{ kind: 'straight', length }] : [];
    if (bend === undefined) return straight;
    const { clrMm, angleDeg, clockingDeg } = bend;
    return [{ kind: 'bend', clr: clrOf(problem, clrMm), angleDeg, clockingDeg }, ...straight];
  });
}
