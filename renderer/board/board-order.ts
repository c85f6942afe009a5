/** The order of the board's rows: as the shop has its primaries, or by how far each is off. */

import type { MatchReport, PrimaryMatch } from '../../core/index.ts';

export type BoardOrder = 'port' | 'miss';

/**
 * Places in the header of its primaries, in the order of the rows. By miss, those that are judged come first, the farthest off
 * before the others; then those still being built, the one with most to go first; then the rest. Equals stay in the header's order.
 */
export function orderOf({ primaries }: MatchReport, order: BoardOrder): readonly number[] {
  const places = primaries.map((_, place) => place);
  if (order === 'port') return places;
  const of = (place: number) => primaries[place] as PrimaryMatch;
  return places.sort((a, b) => rankOf(of(a)) - rankOf(of(b)) || missOf(of(b)) - missOf(of(a)));
}

function rankOf({ standing }: PrimaryMatch): number {
  if (standing === 'judged') return 0;
  return standing === 'building' || standing === 'waiting' ? 1 : 2;
}

function missOf({ standing, deviationMm }: PrimaryMatch): number {
  return standing === 'setsLength' ? 0 : Math.abs(deviationMm ?? 0);
}
