/** The order in which primaries hang on each other. */

import type { Header, Primary } from '../../header/header.ts';
import { findInlet } from '../../path/ends/inlet-pose.ts';

/** Every primary after the one that its inlet is the end of; otherwise in the header's order. Where they run in a circle, somewhere in it. */
export function inDependence(header: Header): readonly Primary[] {
  const ordered: Primary[] = [];
  const begun = new Set<string>();
  const visit = (primary: Primary) => {
    if (begun.has(primary.id)) return;
    begun.add(primary.id);
    const leader = leaderOf(header, primary);
    if (leader !== undefined) visit(leader);
    ordered.push(primary);
  };
  for (const primary of header.primaries) visit(primary);
  return ordered;
}

function leaderOf(header: Header, { inletId }: Primary): Primary | undefined {
  const place = inletId === null ? null : (findInlet(header, inletId)?.place ?? null);
  return place?.kind === 'endOf' ? header.primaries.find(({ id }) => id === place.primaryId) : undefined;
}
