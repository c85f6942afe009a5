/** Whole documents at some revisions, so that opening a header does not take all its steps. */

import type Database from 'better-sqlite3';
import { type Header, headerSchema } from '../../../core/index.ts';
import { DamagedRow } from '../file/faults.ts';
import { textChecksum } from '../rows/checksums.ts';
import type { StoredRow } from '../rows/columns.ts';
import { intactRow, jsonOf, shaped } from '../rows/read-row.ts';
import { rowTable } from '../rows/row-table.ts';

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
  const lastRevision = db
    .prepare<[string, number], number>('SELECT max(revision) FROM snapshots WHERE header_id = ? AND edit_meaning = ?')
    .pluck();
  return {
    keep: ({ header, revision, chain }: Snapshot): unknown =>
      rows.insert({
        header_id: header.id,
        edit_meaning: EDIT_MEANING,
        revision,
        chain,
        document: JSON.stringify(header),
      }),
    /** The newest that are sound, newest first. */
    newestSound(headerId: string, count: number): readonly SoundSnapshot[] {
      const sound: SoundSnapshot[] = [];
      for (const row of newestFirst.iterate(headerId, EDIT_MEANING)) {
        const snapshot = soundSnapshot(row);
        if (snapshot) sound.push(snapshot);
        if (sound.length === count) break;
      }
      return sound;
    },
    /** Of the newest, sound or not; null when there is none. */
    lastRevision: (headerId: string): number | null => lastRevision.get(headerId, EDIT_MEANING) ?? null,
  };
}

/** Null: damaged, so that an older one has to do. */
function soundSnapshot(row: StoredRow<'snapshots'>): SoundSnapshot | null {
  const { header_id, revision, chain } = row;
  const where = `the snapshot of header ${header_id} at ${revision}`;
  try {
    const header = shaped(headerSchema, jsonOf(intactRow('snapshots', row).document, where), where);
    return { revision, chain, header, documentChecksum: textChecksum(row.document) };
  } catch (cause) {
    if (cause instanceof DamagedRow) return null;
    throw cause;
  }
}
