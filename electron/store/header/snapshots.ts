/** Whole documents at some revisions, so that opening a header does not take all its steps. */

import type Database from 'better-sqlite3';
import * as z from 'zod';
import { type Header, headerSchema } from '../../../core/index.ts';
import type { StoredRow } from '../rows/columns.ts';
import { isIntact, readCell, rowTable, textChecksum } from '../rows/row-table.ts';

/** Grows when an edit comes to do something else than before; only steps of the same meaning are applied again. */
export const EDIT_MEANING = 1;
/** After so many steps the next snapshot is due. */
export const STEPS_A_SNAPSHOT = 64;

export interface Snapshot {
  readonly revision: number;
  /** Checksum of the journal's row at that revision. */
  readonly chain: number;
  readonly header: Header;
}

/** One that was read back. */
export interface SoundSnapshot extends Snapshot {
  /** Of its text: what the first row of a journal covers. */
  readonly documentChecksum: number;
}

export function snapshotTable(db: Database.Database) {
  const rows = rowTable(db, 'snapshots', ['header_id', 'edit_meaning', 'revision']);
  const newestFirst = db.prepare<[string, number], StoredRow<'snapshots'>>(
    'SELECT * FROM snapshots WHERE header_id = ? AND edit_meaning = ? ORDER BY revision DESC',
  );
  const oldestFirst = db.prepare<[string, number], StoredRow<'snapshots'>>(
    'SELECT * FROM snapshots WHERE header_id = ? AND edit_meaning = ? ORDER BY revision LIMIT 1',
  );
  return {
    /** The oldest that the steps of today's meaning follow; null where that is damaged. */
    oldest(headerId: string): Snapshot | null {
      const row = oldestFirst.get(headerId, EDIT_MEANING);
      const header = row && isIntact('snapshots', row) ? readCell(headerSchema, row.document) : null;
      return row && header ? { revision: row.revision, chain: row.chain, header } : null;
    },
    /** Unless there is one of that revision. */
    keep({ header, revision, chain }: Snapshot): void {
      if (rows.find(header.id, EDIT_MEANING, revision)) return;
      const document = JSON.stringify(header);
      rows.insert({ header_id: header.id, edit_meaning: EDIT_MEANING, revision, chain, document });
    },
    /** What the one of that revision holds, read as JSON alone; null where it is missing, or not as it was written. */
    at(headerId: string, revision: number): unknown {
      const row = rows.find(headerId, EDIT_MEANING, revision);
      return row && isIntact('snapshots', row) ? readCell(z.unknown(), row.document) : null;
    },
    /** The newest that are sound, newest first: where one is damaged, an older one has to do. */
    newestSound(headerId: string, count: number): readonly SoundSnapshot[] {
      const sound: SoundSnapshot[] = [];
      for (const row of newestFirst.iterate(headerId, EDIT_MEANING)) {
        const header = isIntact('snapshots', row) ? readCell(headerSchema, row.document) : null;
        const { revision, chain, document } = row;
        if (header) sound.push({ revision, chain, header, documentChecksum: textChecksum(document) });
        if (sound.length === count) break;
      }
      return sound;
    },
  };
}
