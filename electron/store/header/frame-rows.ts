/** The rows of headers without their primaries: long, seldom changed, and so apart from what every step writes. */

import type Database from 'better-sqlite3';
import type { Header } from '../../../core/index.ts';
import { DamagedRow } from '../file/faults.ts';
import { intactRow, jsonOf } from '../rows/read-row.ts';
import { rowInsert, rowUpdate } from '../rows/row-writes.ts';

interface FrameRow {
  readonly header_id: string;
  readonly revision: number;
  readonly checksum: number;
  readonly document: string;
}

export function frameRows(db: Database.Database) {
  const find = db.prepare<[string], FrameRow>('SELECT * FROM frames WHERE header_id = ?');
  const insert = rowInsert(db, 'frames');
  const update = rowUpdate(db, 'frames', { key: ['header_id'] });
  return {
    /** The parsed document, its list of primaries empty, not yet checked for its shape. Throws DamagedRow. */
    read(headerId: string, revision: number): object {
      const row = find.get(headerId);
      if (row === undefined || intactRow('frames', row).revision !== revision)
        throw new DamagedRow(`the frame of header ${headerId} is not at ${revision}`);
      return jsonOf(row.document, `the frame of header ${headerId}`) as object;
    },
    insert: (header: Header, revision: number): unknown => insert(rowOf(header, revision)),
    update: (header: Header, revision: number): unknown => update(rowOf(header, revision)),
  };
}

function rowOf(header: Header, revision: number) {
  const document = JSON.stringify({ ...header, primaries: [] });
  return { header_id: header.id, revision, document };
}
