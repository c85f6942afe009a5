/** How near a primary comes to everything around it: the other tubes, itself, and the obstacles. */

import { type Header, type Primary, tubeOf } from '../header/header.ts';
import { bodyClearance, selfClearance, type TubeBody, tubeBody } from '../path/clearance.ts';
import { findInlet, placedPath } from '../path/inlet-pose.ts';
import { obstacleClearance } from '../path/obstacle-clearance.ts';
import { mmOf } from '../units/length.ts';

interface Neighbour {
  readonly primary: Primary;
  readonly body: TubeBody;
}

/** Bodies of the other primaries, made once for all moves that are looked at. */
export interface Neighbours {
  readonly header: Header;
  readonly others: readonly Neighbour[];
}

/** Primaries without a port or with an unknown path are nowhere, and keep no one off. */
export function neighboursOf(header: Header, primaryId: string): Neighbours {
  const others = header.primaries.flatMap((primary): readonly Neighbour[] => {
    if (primary.id === primaryId || primary.pieces.length === 0) return [];
    const path = placedPath(primary);
    return path.ok ? [{ primary, body: tubeBody(path.value, mmOf(tubeOf(header, primary).od)) }] : [];
  });
  return { header, others };
}

/**
 * The least gap of a primary in mm, negative where it runs into something; null when nothing is there or its own path is
 * not known. Where two tubes come together at a collector their last pieces do not count against each other.
 */
export function leastClearanceMm({ header, others }: Neighbours, primary: Primary): number | null {
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
  for (const other of others) {
    const clearance = bodyClearance(body, other.body);
    if (clearance === null) continue;
    const isAtCollector =
      clearance.pieceIndexA === primary.pieces.length - 1 &&
      clearance.pieceIndexB === other.primary.pieces.length - 1 &&
      isOneCollector(header, primary, other.primary);
    if (!isAtCollector) gapsMm.push(clearance.gapMm);
  }
  return gapsMm.length === 0 ? null : Math.min(...gapsMm);
}

function isOneCollector(header: Header, a: Primary, b: Primary): boolean {
  const collectorOf = ({ inletId }: Primary) => {
    const inlet = inletId === null ? null : findInlet(header, inletId);
    return inlet === null ? undefined : header.collectors.find(({ inlets }) => inlets.includes(inlet));
  };
  const collector = collectorOf(a);
  return collector !== undefined && collector === collectorOf(b);
}
