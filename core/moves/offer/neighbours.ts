/** How near a primary comes to everything around it: the other tubes, itself, and the obstacles. */

import { type Header, type Primary, tubeOf } from '../../header/header.ts';
import { bodyClearance, selfClearance, type TubeBody, tubeBody } from '../../path/clearance/clearance.ts';
import { collectorGaps } from '../../path/clearance/collector-gaps.ts';
import { obstacleClearance } from '../../path/clearance/obstacle-clearance.ts';
import { collectorOf, placedPath } from '../../path/ends/inlet-pose.ts';
import { mmOf } from '../../units/length.ts';

interface Neighbour {
  readonly primary: Primary;
  readonly body: TubeBody;
}

/** Bodies of the other primaries, made once for all moves that are looked at. */
export interface Neighbours {
  readonly header: Header;
  readonly others: readonly Neighbour[];
  /** Nearer than this counts, but where two tubes meet at their collector. */
  readonly wantedMm: number;
}

/** Primaries without a port or with an unknown path are nowhere, and keep no one off. */
export function neighboursOf(header: Header, primaryId: string, wantedMm: number): Neighbours {
  const others = header.primaries.flatMap((primary): readonly Neighbour[] => {
    if (primary.id === primaryId || primary.pieces.length === 0) return [];
    const path = placedPath(primary);
    return path.ok ? [{ primary, body: tubeBody(path.value, mmOf(tubeOf(header, primary).od)) }] : [];
  });
  return { header, others, wantedMm };
}

/**
 * The least gap of a primary in mm, negative where it runs into something; null when nothing is there or its own path is
 * not known. That two tubes meet at their collector does not count against them (see `collectorGaps`).
 */
export function leastClearanceMm({ header, others, wantedMm }: Neighbours, primary: Primary): number | null {
  const path = placedPath(primary);
  if (!path.ok) return null;
  const odMm = mmOf(tubeOf(header, primary).od);
  const body = tubeBody(path.value, odMm);
  const gapsMm: number[] = [];
  const self = selfClearance(path.value, odMm);
  if (self !== null) gapsMm.push(self.gapMm);
  for (const obstacle of header.obstacles) {
    const clearance = obstacleClearance(body, obstacle);
    if (clearance !== null) gapsMm.push(clearance.gapMm);
  }
  const collector = collectorOf(header, primary);
  for (const other of others) {
    const meet = collector !== null && collector === collectorOf(header, other.primary);
    const clearance = meet ? collectorGaps(body, other.body, wantedMm).elsewhere : bodyClearance(body, other.body);
    if (clearance !== null) gapsMm.push(clearance.gapMm);
  }
  return gapsMm.length === 0 ? null : Math.min(...gapsMm);
}
