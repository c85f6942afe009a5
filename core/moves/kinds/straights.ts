/** Moves of straights alone: made shorter or longer, taken out, let in. */

import type { Variable } from '../problem/variable.ts';
import type { Search } from '../search.ts';
import { searchTurned } from './turned.ts';

/** Exact, up to `mostChanges` of them at once. */
export function searchStraights(
  search: Search,
  shifts: readonly Variable[],
  mostChanges: number,
): Generator<void, void> {
  return searchTurned(search, shifts, { turns: [], values: [], mostChanges, extraMm: 0 });
}
