/** Every gap in a header: between primaries, of each with itself, and to obstacles. */

import { type Header, type Primary, tubeOf } from '../../header/header.ts';
import { mmOf } from '../../units/length.ts';
import { collectorOf, placedPath } from '../ends/inlet-pose.ts';
import type { PathProblem } from '../path-problem.ts';
import { bodyClearance, type Clearance, selfClearance, type TubeBody, tubeBody } from './clearance.ts';
import { collectorGaps } from './collector-gaps.ts';
import { type ObstacleClearance, obstacleClearance } from './obstacle-clearance.ts';

interface Gap {
  /** Less than the header's wanted gap, and not meant to be. */
  readonly isTight: boolean;
}

export interface PairGap extends Gap {
  readonly kind: 'pair';
  readonly primaryIdA: string;
  readonly primaryIdB: string;
  readonly clearance: Clearance;
  /** Where two primaries come together at the collector that both go into, as they are meant to. */
  readonly isAtCollector: boolean;
}

export interface SelfGap extends Gap {
  readonly kind: 'self';
  readonly primaryId: string;
  readonly clearance: Clearance;
}

export interface ObstacleGap extends Gap {
  readonly kind: 'obstacle';
  readonly primaryId: string;
  readonly obstacleId: string;
  readonly clearance: ObstacleClearance;
}

export type HeaderGap = PairGap | SelfGap | ObstacleGap;

export interface HeaderClearances {
  /** In the order of the primaries, and of the obstacles within each. */
  readonly gaps: readonly HeaderGap[];
  /** Those under the wanted gap, smallest first. */
  readonly tight: readonly HeaderGap[];
  /** Why a primary was left out: its port or a clocking is not known. */
  readonly problems: readonly PathProblem[];
}

interface PlacedPrimary {
  readonly primary: Primary;
  readonly body: TubeBody;
  readonly collectorId: string | null;
}

/**
 * All gaps of a header. Two primaries that go into one collector can have two: where they meet, and elsewhere. Primaries
 * without pieces or without a known path take no part and do not keep the others from it.
 * Cost: every pair of primaries once; 8 primaries of 20 pieces take a few milliseconds.
 */
export function headerClearances(header: Header): HeaderClearances {
  const placed: PlacedPrimary[] = [];
  const problems: PathProblem[] = [];
  for (const primary of header.primaries) {
    if (primary.pieces.length === 0) continue;
    const path = placedPath(primary);
    if (path.ok) placed.push(placedPrimary(header, primary, tubeBody(path.value, mmOf(tubeOf(header, primary).od))));
    else problems.push(...path.problems);
  }
  const wantedMm = mmOf(header.settings.wantedGap);
  const gaps = [
    ...pairGaps(placed, wantedMm),
    ...selfGaps(placed, wantedMm),
    ...obstacleGaps(header, placed, wantedMm),
  ];
  const tight = gaps.filter((gap) => gap.isTight).sort((a, b) => a.clearance.gapMm - b.clearance.gapMm);
  return { gaps, tight, problems };
}

function placedPrimary(header: Header, primary: Primary, body: TubeBody): PlacedPrimary {
  return { primary, body, collectorId: collectorOf(header, primary)?.id ?? null };
}

/** All gaps, the smallest first; those at a collector, where tubes are meant to meet, come last. */
export function gapsInOrder(gaps: readonly HeaderGap[]): readonly HeaderGap[] {
  const rank = (gap: HeaderGap) => (gap.kind === 'pair' && gap.isAtCollector ? 1 : 0);
  return [...gaps].sort((a, b) => rank(a) - rank(b) || a.clearance.gapMm - b.clearance.gapMm);
}

/** A gap that is just as wanted is not tight for the rounding in its last digits. */
function isUnder(gapMm: number, wantedMm: number): boolean {
  return gapMm < wantedMm - 1e-6;
}

function pairGaps(placed: readonly PlacedPrimary[], wantedMm: number): readonly PairGap[] {
  return placed.flatMap((a, index) => placed.slice(index + 1).flatMap((b) => gapsOfPair(a, b, wantedMm)));
}

function gapsOfPair(a: PlacedPrimary, b: PlacedPrimary, wantedMm: number): readonly PairGap[] {
  const gap = (clearance: Clearance | null, isAtCollector: boolean): readonly PairGap[] => {
    if (clearance === null) return [];
    const isTight = !isAtCollector && isUnder(clearance.gapMm, wantedMm);
    return [{ kind: 'pair', primaryIdA: a.primary.id, primaryIdB: b.primary.id, clearance, isAtCollector, isTight }];
  };
  if (a.collectorId === null || a.collectorId !== b.collectorId) return gap(bodyClearance(a.body, b.body), false);
  const { meeting, elsewhere } = collectorGaps(a.body, b.body, wantedMm);
  return [...gap(elsewhere, false), ...gap(meeting, true)];
}

function selfGaps(placed: readonly PlacedPrimary[], wantedMm: number): readonly SelfGap[] {
  return placed.flatMap(({ primary, body }): readonly SelfGap[] => {
    const clearance = selfClearance(body.path, body.odMm);
    if (clearance === null) return [];
    return [{ kind: 'self', primaryId: primary.id, clearance, isTight: isUnder(clearance.gapMm, wantedMm) }];
  });
}

function obstacleGaps(header: Header, placed: readonly PlacedPrimary[], wantedMm: number): readonly ObstacleGap[] {
  return placed.flatMap(({ primary, body }) =>
    header.obstacles.flatMap((obstacle): readonly ObstacleGap[] => {
      const clearance = obstacleClearance(body, obstacle);
      if (clearance === null) return [];
      const isTight = isUnder(clearance.gapMm, wantedMm);
      return [{ kind: 'obstacle', primaryId: primary.id, obstacleId: obstacle.id, clearance, isTight }];
    }),
  );
}
