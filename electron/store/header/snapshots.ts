/** Whole documents at some revisions, so that opening a header does not take all its steps. */

import type Database from 'better-sqlite3';
import { type Header, headerSchema } from '../../../core/index.ts';
import { DamagedRow } from '../file/faults.ts';
import { intactRow, jsonOf, shaped } from '../rows/read-row.ts';
import { rowInsert } from '../rows/row-insert.ts';

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

interface SnapshotRow {
  readonly header_id: string;
  readonly edit_meaning: number;
  readonly revision: number;
  readonly chain: number;
  readonly document: string;
  readonly checksum: number;
}

export function snapshotTable(db: Database.Database) {
  const insert = rowInsert(db, 'snapshots');
  const newestFirst = db.prepare<[string, number], SnapshotRow>(
    'SELECT * FROM snapshots WHERE header_id = ? AND edit_meaning = ? ORDER BY revision DESC',
  );
  const lastRevision = db
    .prepare<[string, number], number>('SELECT max(revision) FROM snapshots WHERE header_id = ? AND edit_meaning = ?')
    .pluck();
  return {
    keep: ({ header, revision, chain }: Snapshot): unknown =>
      insert({ header_id: header.id, edit_meaning: EDIT_MEANING, revision, chain, document: JSON.stringify(header) }),
    /** The newest that are sound, newest first. */
    newestSound(headerId: string, count: number): readonly Snapshot[] {
      const sound: Snapshot[] = [];
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
function soundSnapshot(row: SnapshotRow): Snapshot | null {
  const { header_id, revision, chain } = row;
  const where = `the snapshot of header ${header_id} at ${revision}`;
  try {
    const header = shaped(headerSchema, jsonOf(intactRow('snapshots', row).document, where), where);
    return { revision, chain, header };
  } catch (cause) {
    if (cause instanceof DamagedRow) return null;
    throw cause;
  }
}
