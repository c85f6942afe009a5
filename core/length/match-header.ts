/** Which primary is short and by how much: every primary against the target and its tolerance band. */

import type { Header, Primary } from '../header/header.ts';
import { mmOf } from '../units/length.ts';
import { BAND_SLACK_MM, type Band, bandAbout, sideOf, type Verdict } from './band.ts';
import type { Building } from './building.ts';
import { asWeldedLength, pieceLength } from './piece-length.ts';
import { type FoundTarget, findTarget } from './target.ts';

/**
 * How a primary stands, which says what its deviation means.
 * - `empty`: it has no pieces.
 * - `noTarget`: there is nothing to match it to.
 * - `setsLength`: the target is its own length, so there is nothing to judge; it may itself still be being built.
 * - `building`: it is still being built; the deviation is what there is to go, or how far it is over.
 * - `waiting`: it is whole, but the target is that of a primary still being built, and will move.
 * - `judged`: it is whole and so is the target; it has a verdict.
 */
export type MatchStanding = 'empty' | 'noTarget' | 'setsLength' | 'building' | 'waiting' | 'judged';

export interface PrimaryMatch {
  readonly primaryId: string;
  readonly name: string;
  /** As welded, see `primaryLength`; 0 while there are no pieces. */
  readonly lengthMm: number;
  /** Length minus target: negative is short. Null: no pieces yet, or no target. */
  readonly deviationMm: number | null;
  readonly standing: MatchStanding;
  /** Why it is still being built, see `buildingOf`; null when it is not. */
  readonly building: Building | null;
  /** Where its length lies to the band, judged or not. Null: no pieces yet, or no target. */
  readonly side: Verdict | null;
  /** How far past the band's edge its length is; 0 within it, and where there is no side. */
  readonly outsideMm: number;
  /** The side of those that are judged; null for all others. */
  readonly verdict: Verdict | null;
  /** Of each piece in order, before shrinkage. */
  readonly pieceLengthsMm: readonly number[];
}

export interface MatchReport {
  /** Null: there is nothing to take a target from yet. */
  readonly targetMm: number | null;
  /** The primary whose length is the target, where the target is a primary's. */
  readonly targetPrimaryId: string | null;
  /** The target is the length of what is still being built: it will move, and nobody is judged by it. */
  readonly isTargetBuilding: boolean;
  /** The band's edges, both within it. */
  readonly lowMm: number | null;
  readonly highMm: number | null;
  /** In the header's order. */
  readonly primaries: readonly PrimaryMatch[];
  /** Longest minus shortest of those that count (`countsInMean`). Null for fewer than two. */
  readonly spreadMm: number | null;
  /** Of those that count. Null: none does. */
  readonly meanMm: number | null;
  /** The judged primary with the largest deviation either way, in band or not; the first of equals. */
  readonly worstPrimaryId: string | null;
}

/** Whether a primary counts for mean and spread: those that are judged, and the one that sets the length. */
export function countsInMean({ standing, building }: Pick<PrimaryMatch, 'standing' | 'building'>): boolean {
  return standing === 'judged' || (standing === 'setsLength' && building === null);
}

interface Measured {
  readonly primary: Primary;
  readonly lengthMm: number;
  readonly pieceLengthsMm: readonly number[];
}

/**
 * Target, band, and each primary's length, deviation, standing and verdict; spread, mean and worst.
 *
 * Primaries without pieces count for nothing but are listed. A target that is a primary without pieces, or that is not in
 * the header, gives no target. In a finished header nothing is being built any more. Cost linear in the number of pieces;
 * 8 primaries of 20 pieces take under 50 microseconds, and where inlets are placed about as much again for each primary
 * that is short, whose path is traced.
 */
export function matchHeader(header: Header): MatchReport {
  const shrinkageMm = mmOf(header.settings.weldShrinkage);
  const measured = header.primaries.map((primary) => measure(primary, shrinkageMm));
  const begun = measured.filter(({ primary }) => primary.pieces.length > 0);
  const found = findTarget(header, begun);
  const band = found.targetMm === null ? null : bandAbout(found.targetMm, header.settings.tolerance);
  const primaries = measured.map((one) => matchOf(one, { found, band }));
  const counted = primaries.filter(countsInMean).map(({ lengthMm }) => lengthMm);
  return {
    targetMm: found.targetMm,
    targetPrimaryId: found.targetPrimaryId,
    isTargetBuilding: found.isBuilding,
    lowMm: band?.lowMm ?? null,
    highMm: band?.highMm ?? null,
    primaries,
    spreadMm: counted.length < 2 ? null : Math.max(...counted) - Math.min(...counted),
    meanMm: counted.length === 0 ? null : counted.reduce((sumMm, mm) => sumMm + mm, 0) / counted.length,
    worstPrimaryId: worstOf(primaries),
  };
}

function measure(primary: Primary, shrinkageMm: number): Measured {
  const pieceLengthsMm = primary.pieces.map(pieceLength);
  return { primary, pieceLengthsMm, lengthMm: asWeldedLength(pieceLengthsMm, shrinkageMm) };
}

interface Aim {
  readonly found: FoundTarget;
  readonly band: Band | null;
}

function matchOf({ primary, lengthMm, pieceLengthsMm }: Measured, { found, band }: Aim): PrimaryMatch {
  const known = { primaryId: primary.id, name: primary.name, lengthMm, pieceLengthsMm };
  if (primary.pieces.length === 0 || band === null) {
    const standing = primary.pieces.length === 0 ? 'empty' : 'noTarget';
    return { ...known, deviationMm: null, standing, building: null, side: null, outsideMm: 0, verdict: null };
  }
  const side = sideOf(lengthMm, band);
  const standing = standingOf(primary.id, found);
  return {
    ...known,
    deviationMm: lengthMm - band.targetMm,
    standing,
    building: found.buildings.get(primary.id) ?? null,
    side,
    outsideMm: side === 'short' ? band.lowMm - lengthMm : side === 'long' ? lengthMm - band.highMm : 0,
    verdict: standing === 'judged' ? side : null,
  };
}

function standingOf(primaryId: string, { buildings, targetPrimaryId, isBuilding }: FoundTarget): MatchStanding {
  if (targetPrimaryId === primaryId) return 'setsLength';
  if (buildings.has(primaryId)) return 'building';
  return isBuilding ? 'waiting' : 'judged';
}

function worstOf(primaries: readonly PrimaryMatch[]): string | null {
  let worst: PrimaryMatch | null = null;
  for (const one of primaries) {
    if (one.verdict === null || one.deviationMm === null) continue;
    if (worst === null || Math.abs(one.deviationMm) > Math.abs(worst.deviationMm ?? 0) + BAND_SLACK_MM) worst = one;
  }
  return worst?.primaryId ?? null;
}
