/** How near a primary comes to everything around it: the other tubes, itself, and the obstacles. */

import { type Header, type Primary, tubeOf } from '../../header/header.ts';
import { bodyClearance, selfClearance, type TubeBody, tubeBody } from '../../path/clearance/clearance.ts';
import { collectorGapsInSteps } from '../../path/clearance/collector-gaps.ts';
import { obstacleClearance } from '../../path/clearance/obstacle-clearance.ts';
import { collectorOf, placedPath } from '../../path/ends/inlet-pose.ts';
import { mmOf } from '../../units/length.ts';
import { runThrough } from '../search-in-slices.ts';

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

/** The gap of a primary to each thing around it, in mm, negative where they run into each other; by a name for the thing. */
export type Gaps = ReadonlyMap<string, number>;

/** Null when the primary's own path is not known. That two tubes meet at their collector does not count (see `collectorGaps`). */
export function gapsOf(neighbours: Neighbours, primary: Primary): Gaps | null {
  return runThrough(gapsInSteps(neighbours, primary));
}

/** The same with a pause after each thing: one gap may take milliseconds. */
export function* gapsInSteps({ header, others, wantedMm }: Neighbours, primary: Primary): Generator<void, Gaps | null> {
  const path = placedPath(primary);
  if (!path.ok) return null;
  const odMm = mmOf(tubeOf(header, primary).od);
  const body = tubeBody(path.value, odMm);
  const gaps = new Map<string, number>();
  const note = (name: string, clearance: { readonly gapMm: number } | null) => {
    if (clearance !== null) gaps.set(name, clearance.gapMm);
  };
  note('itself', selfClearance(path.value, odMm));
  yield;
  for (const obstacle of header.obstacles) {
    note(`obstacle ${obstacle.id}`, obstacleClearance(body, obstacle));
    yield;
  }
  const collector = collectorOf(header, primary);
  for (const other of others) {
    const meet = collector !== null && collector === collectorOf(header, other.primary);
    const clearance = meet
      ? (yield* collectorGapsInSteps(body, other.body, wantedMm)).elsewhere
      : bodyClearance(body, other.body);
    note(`primary ${other.primary.id}`, clearance);
    yield;
  }
  return gaps;
}

/** Null when there is nothing to be near to. */
export function leastOf(gaps: Gaps | null): number | null {
  return gaps === null || gaps.size === 0 ? null : Math.min(...gaps.values());
}

/** Gaps that differ by less are the same. */
const SAME_MM = 1e-6;

/**
 * The least gap that is nearer than what is kept without having been as near before, each thing against its own past: that one
 * thing is tight already excuses no other. Null when there is none.
 */
export function tightenedTo(before: Gaps | null, after: Gaps | null, keptMm: number): number | null {
  let leastMm: number | null = null;
  for (const [name, gapMm] of after ?? []) {
    const allowedMm = Math.min(keptMm, before?.get(name) ?? Number.POSITIVE_INFINITY);
    if (gapMm < allowedMm - SAME_MM) leastMm = Math.min(leastMm ?? Number.POSITIVE_INFINITY, gapMm);
  }
  return leastMm;
}
