/** Which primaries a plan for the whole header speaks of. */

import type { PrimaryMatch } from '../../length/match-header.ts';

/** All of it is there or planned: what is left to be built of it is no shift of what there is. */
export function isAllThere({ side, building }: Pick<PrimaryMatch, 'side' | 'building'>): boolean {
  return side !== null && (building === null || building.kind === 'planned');
}
