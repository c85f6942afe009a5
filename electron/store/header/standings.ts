/** Headers as they stand after the last commit, held in memory so that a step need not read them again. */

import type Database from 'better-sqlite3';
import type { StoredHeader } from './header-table.ts';
import type { Stacks } from './journal.ts';

/** A header as it stands at a revision, with what can be undone and redone from there. */
export interface Standing extends StoredHeader, Stacks {}

export interface RecentStandings {
  /** As it is stored; undefined when it is not held. To be called in a transaction. */
  get(headerId: string): Standing | undefined;
  /** Whether it is the header that was set last, and no other was changed or made since. To be called after `get`. */
  isLatest(headerId: string): boolean;
  /** After the commit that made it so. */
  set(headerId: string, standing: Standing): void;
  /** Before this connection writes a header in any other way. */
  clear(): void;
}

export function recentStandings(db: Database.Database, limit: number): RecentStandings {
  // Another number as soon as any other connection has committed.
  const dataVersion = db.prepare<[], number>('PRAGMA data_version').pluck();
  const held = new Map<string, Standing>();
  let seenVersion = dataVersion.get();
  let latest: string | null = null;
  function clear(): void {
    held.clear();
    latest = null;
  }
  return {
    get(headerId) {
      const version = dataVersion.get();
      if (version !== seenVersion) clear();
      seenVersion = version;
      return held.get(headerId);
    },
    isLatest: (headerId) => headerId === latest,
    set(headerId, standing) {
      // A Map keeps the order of insertion: the first key is the one written to longest ago.
      held.delete(headerId);
      held.set(headerId, standing);
      latest = headerId;
      const oldest = held.keys().next().value;
      if (held.size > limit && oldest !== undefined) held.delete(oldest);
    },
    clear,
  };
}
