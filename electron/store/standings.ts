/** Headers as they stand after the last commit, held in memory so that a step need not read the document again. */

import type { Header } from '../../core/header/header.ts';
import type { Stacks } from './journal.ts';

/** A header as it stands at a revision, with what can be undone and redone from there. */
export interface Standing extends Stacks {
  readonly header: Header;
  readonly revision: number;
  /** Checksum of its row: tells whether the row is still the one that this was read from. */
  readonly checksum: number;
  readonly touched: number;
}

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
