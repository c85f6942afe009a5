/** A rounded tube with the figures that proposals are put in order by. */

import type { StockNeed } from '../../moves/move.ts';
import { isLacking } from '../../moves/ranking/stock-needs.ts';
import { isOfTube, isSameSize, SAME_ANGLE_DEG } from '../../stock/shelf-match.ts';
import { type Length, mmOf } from '../../units/length.ts';
import type { ProposeProblem } from '../problem/propose-problem.ts';
import type { RoundedShape } from './round-shape.ts';
import { shelfNeeds } from './shelf-needs.ts';

export interface Candidate {
  readonly shape: RoundedShape;
  readonly bends: number;
  /** Bends that are neither taken whole nor at an angle that bends are bought in. */
  readonly oddBends: number;
  /** All of its figures lie on the coarsest grid: half degrees, and sixteenths of an inch or whole millimetres. */
  readonly isCoarse: boolean;
  readonly joints: number;
  readonly cuts: number;
  readonly needs: readonly StockNeed[];
  readonly lacking: number;
  /** The shortest is wanted: tube then goes before what is bought at its angle. */
  readonly isShortestWanted: boolean;
  /** Tube, and twice the distance from the length wanted, mm. */
  readonly tubeMm: number;
  /** Least gap to anything; infinite where there is nothing, or where it has not been looked at yet. */
  readonly gapMm: number;
}

/** Angles that mandrel bends are commonly bought in (common practice). */
export const BOUGHT_ANGLES_DEG: readonly number[] = [30, 45, 60, 90, 180];

/** What a candidate's bends may be taken from: for each CLR the angles that are there, or are commonly bought. */
export type ReadyAngles = ReadonlyMap<number, readonly number[]>;

export function readyAngles({ stock, tube, clrs }: ProposeProblem): ReadyAngles {
  return new Map(
    clrs.map((clr): [number, readonly number[]] => {
      const clrMm = mmOf(clr);
      if (stock === null) return [clrMm, BOUGHT_ANGLES_DEG];
      const angles = stock.flatMap((item) => {
        if (item.kind !== 'bend' || item.count === 0 || !isOfTube(item, tube)) return [];
        return isSameSize(mmOf(item.clr), clrMm) ? [item.angleDeg] : [];
      });
      return [clrMm, [...new Set(angles)].sort((a, b) => a - b)];
    }),
  );
}

export function isReady(
  ready: ReadyAngles,
  { clrMm, angleDeg }: { readonly clrMm: number; readonly angleDeg: number },
) {
  return (ready.get(clrMm) ?? []).some((angle) => Math.abs(angle - angleDeg) <= SAME_ANGLE_DEG);
}

/** The CLR as it was typed or counted. */
export function clrOf({ clrs }: ProposeProblem, clrMm: number): Length {
  return clrs.find((clr) => mmOf(clr) === clrMm) ?? (clrs[0] as Length);
}

/** The candidate, its gap and grid not looked at yet. `aimMm` of the new centreline; null: as short as can be. */
export function candidateOf(
  problem: ProposeProblem,
  ready: ReadyAngles,
  shape: RoundedShape,
  aimMm: number | null,
): Candidate {
  const { stock, tube } = problem;
  const oddBends = shape.bends.filter((bend) => !isReady(ready, bend)).length;
  const straights = shape.straights.filter((length) => mmOf(length) > 0);
  const needs =
    stock === null
      ? []
      : shelfNeeds(
          stock,
          tube,
          straights.map(mmOf),
          shape.bends.map(({ clrMm, angleDeg }) => ({ clr: clrOf(problem, clrMm), angleDeg })),
        );
  const pieces = straights.length + shape.bends.length;
  return {
    shape,
    bends: shape.bends.length,
    oddBends,
    isCoarse: false,
    joints: pieces + 1,
    cuts: straights.length + oddBends,
    needs,
    lacking: needs.filter(isLacking).length,
    isShortestWanted: aimMm === null,
    tubeMm: shape.lengthMm + (aimMm === null ? 0 : 2 * Math.abs(shape.lengthMm - aimMm)),
    gapMm: Number.POSITIVE_INFINITY,
  };
}

/** A gap of more than this is as good as any. */
const ROOMY_MM = 25;

/**
 * Negative when `a` goes first: fewest bends, then joints, then bends that are there or commonly bought, then what the shelf lacks, then tube with what is off the
 * length wanted (whole millimetres), then clearance (tenths of a millimetre, up to 25 mm). Where the shortest is wanted, tube comes right after joints.
 */
export function compareCandidates(a: Candidate, b: Candidate): number {
  return (
    a.bends - b.bends ||
    a.joints - b.joints ||
    (a.isShortestWanted ? Math.round(a.tubeMm) - Math.round(b.tubeMm) : 0) ||
    a.oddBends - b.oddBends ||
    a.lacking - b.lacking ||
    Math.round(a.tubeMm) - Math.round(b.tubeMm) ||
    roomOf(b) - roomOf(a) ||
    a.tubeMm - b.tubeMm
  );
}

function roomOf({ gapMm }: Candidate): number {
  return Math.round(10 * Math.min(ROOMY_MM, gapMm));
}

/** Parts of a right angle that ideas are told apart by. */
const PART_DEG = 45;

/** What a proposal is about, whatever its exact figures: its bends' CLRs, and roughly how each turns. */
export function ideaOf({ shape: { bends } }: Candidate): string {
  const part = (deg: number) => Math.round(deg / PART_DEG) * PART_DEG;
  return bends
    .map(({ clrMm, angleDeg, clockingDeg }) => `${clrMm}:${part(angleDeg)}:${(part(clockingDeg) + 360) % 360}`)
    .join(' ');
}
