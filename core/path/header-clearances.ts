/** Every gap in a header: between primaries, of each with itself, and to obstacles. */

import { type Header, type Primary, tubeOf } from '../header/header.ts';
import { mmOf } from '../units/length.ts';
import { bodyClearance, type Clearance, selfClearance, type TubeBody, tubeBody } from './clearance.ts';
import { findInlet, placedPath } from './inlet-pose.ts';
import { type ObstacleClearance, obstacleClearance } from './obstacle-clearance.ts';
import type { PathProblem } from './path-problem.ts';

interface Gap {
  /** Less than the header's wanted gap. */
  readonly isTight: boolean;
}

export interface PairGap extends Gap {
  readonly kind: 'pair';
  readonly primaryIdA: string;
  readonly primaryIdB: string;
  readonly clearance: Clearance;
  /** Both points are on the last pieces of primaries that go into one collector, where tubes are meant to come together. */
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
 * All gaps of a header. Primaries without pieces or without a known path take no part and do not keep the others from it.
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
  const { inletId } = primary;
  const inlet = inletId === null ? null : findInlet(header, inletId);
  const collector = header.collectors.find(({ inlets }) => inlet !== null && inlets.includes(inlet));
  return { primary, body, collectorId: collector?.id ?? null };
}

/** A gap that is just as wanted is not tight for the rounding in its last digits. */
function isUnder(gapMm: number, wantedMm: number): boolean {
  return gapMm < wantedMm - 1e-6;
}

function pairGaps(placed: readonly PlacedPrimary[], wantedMm: number): readonly PairGap[] {
  const gaps: PairGap[] = [];
  for (const [index, a] of placed.entries()) {
    for (const b of placed.slice(index + 1)) {
      const clearance = bodyClearance(a.body, b.body);
      if (clearance === null) continue;
      const isAtCollector =
        a.collectorId !== null &&
        a.collectorId === b.collectorId &&
        clearance.pieceIndexA === a.primary.pieces.length - 1 &&
        clearance.pieceIndexB === b.primary.pieces.length - 1;
      gaps.push({
        kind: 'pair',
        primaryIdA: a.primary.id,
        primaryIdB: b.primary.id,
        clearance,
        isAtCollector,
        isTight: isUnder(clearance.gapMm, wantedMm),
      });
    }
  }
  return gaps;
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
