/** The rows of a header's primaries: a row each, so that a step writes only the primaries that it changes. */

import type Database from 'better-sqlite3';
import type { Header, Primary } from '../../../core/index.ts';
import { DamagedRow } from '../file/faults.ts';
import { intactRow, jsonOf } from '../rows/read-row.ts';
import { rowInsert, rowUpdate } from '../rows/row-writes.ts';
import type { RowRevisions } from './row-revisions.ts';

interface PrimaryRow {
  readonly header_id: string;
  readonly id: string;
  readonly revision: number;
  readonly checksum: number;
  readonly document: string;
}

/**
 * Documents are filled up with spaces to whole units of this many bytes. A row that keeps its size is overwritten in
 * place; any other may have to move, which brings more pages to the disk.
 */
const DOCUMENT_UNIT_BYTES = 256;

export function primaryRows(db: Database.Database) {
  const all = db.prepare<[string], PrimaryRow>('SELECT * FROM primaries WHERE header_id = ?');
  const insert = rowInsert(db, 'primaries');
  const update = rowUpdate(db, 'primaries', { key: ['header_id', 'id'] });
  const remove = db.prepare<[string, string]>('DELETE FROM primaries WHERE header_id = ? AND id = ?');
  return {
    /** The parsed documents in their order, not yet checked for their shape. Throws DamagedRow. */
    read(headerId: string, revisions: RowRevisions['primaries']): readonly unknown[] {
      const rows = new Map(all.all(headerId).map((row) => [row.id, intactRow('primaries', row)]));
      if (rows.size !== revisions.size)
        throw new DamagedRow(`header ${headerId} lists ${revisions.size} primaries, not ${rows.size}`);
      return [...revisions].map(([id, revision]) => {
        const row = rows.get(id);
        if (row?.revision !== revision)
          throw new DamagedRow(`primary ${id} of header ${headerId} is not at ${revision}`);
        return jsonOf(row.document, `primary ${id} of header ${headerId}`);
      });
    },
    insert(header: Header, revision: number): void {
      for (const primary of header.primaries) insert(rowOf(header.id, primary, revision));
    },
    /** Brings the rows from one header to another: those that `revisions` has at `revision` are written. */
    update({ before, header, revision, revisions }: Change): void {
      for (const primary of header.primaries) {
        if (revisions.get(primary.id) !== revision) continue;
        const isKnown = before.primaries.some(({ id }) => id === primary.id);
        (isKnown ? update : insert)(rowOf(header.id, primary, revision));
      }
      for (const { id } of before.primaries) if (!revisions.has(id)) remove.run(header.id, id);
    },
  };
}

interface Change {
  readonly before: Header;
  readonly header: Header;
  /** That the header has after the change. */
  readonly revision: number;
  readonly revisions: RowRevisions['primaries'];
}

function rowOf(headerId: string, primary: Primary, revision: number) {
  const document = filledUp(JSON.stringify(primary));
  return { header_id: headerId, id: primary.id, revision, document };
}

function filledUp(json: string): string {
  const over = Buffer.byteLength(json) % DOCUMENT_UNIT_BYTES;
  return over === 0 ? json : json + ' '.repeat(DOCUMENT_UNIT_BYTES - over);
}
