/** Headers as they stand after the last commit, held in memory so that a step need not read the document again. */

import type { StoredHeader } from './header-table.ts';
import type { Stacks } from './journal.ts';

/** A header as it stands at a revision, with what can be undone and redone from there. */
export interface Standing extends StoredHeader, Stacks {}

export interface RecentStandings {
  get(headerId: string): Standing | undefined;
  set(headerId: string, standing: Standing): void;
}

export function recentStandings(limit: number): RecentStandings {
  const held = new Map<string, Standing>();
  return {
    get: (headerId) => held.get(headerId),
    set(headerId, standing) {
      // A Map keeps the order of insertion: the first key is the one written to longest ago.
      held.delete(headerId);
      held.set(headerId, standing);
      const oldest = held.keys().next().value;
      if (held.size > limit && oldest !== undefined) held.delete(oldest);
    },
  };
}
