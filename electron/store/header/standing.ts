/** A header as it stands after its last step, and those written to last, held so that a step need not read them again. */

import type { Header } from '../../../core/index.ts';

export interface Standing {
  readonly header: Header;
  readonly revision: number;
  /** Of the journal's row at that revision: what the next row covers. */
  readonly checksum: number;
  /** The rows that an undo and a redo would turn back; null where there is none. */
  readonly undoNext: number | null;
  readonly redoNext: number | null;
  /** Revision of the newest snapshot. */
  readonly snapshotAt: number;
}

/** More than anyone works on between two starts; all of them together take a few megabytes. */
const HELD = 32;

export function recentStandings() {
  const held = new Map<string, Standing>();
  return {
    /** As this process last wrote to it; another may have since. Undefined: not held. */
    get: (headerId: string): Standing | undefined => held.get(headerId),
    /** After the commit that made it so. */
    set(standing: Standing): void {
      const { id } = standing.header;
      // A Map keeps the order of insertion: the first key is the one written to longest ago.
      held.delete(id);
      held.set(id, standing);
      const oldest = held.keys().next().value;
      if (held.size > HELD && oldest !== undefined) held.delete(oldest);
    },
    all: (): readonly Standing[] => [...held.values()],
  };
}
