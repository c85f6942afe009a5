/** The rows of a header's primaries: a row each, so that a step writes only the primaries that it changes. */

import type Database from 'better-sqlite3';
import * as z from 'zod';
import type { Header, Primary } from '../../core/header/header.ts';
import { DamagedRow } from './faults.ts';
import { cellOf, intactRow, jsonOf } from './read-row.ts';
import { rowInsert, rowUpdate } from './row-writes.ts';

/** Ids of the primaries with the revision that wrote each last. */
export type WrittenAt = ReadonlyMap<string, number>;

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

const listSchema = z.array(z.tuple([z.string(), z.int()]));

export function primaryRows(db: Database.Database) {
  const all = db.prepare<[string], PrimaryRow>('SELECT * FROM primaries WHERE header_id = ?');
  const insert = rowInsert(db, 'primaries');
  const update = rowUpdate(db, 'primaries', { key: ['header_id', 'id'] });
  const remove = db.prepare<[string, string]>('DELETE FROM primaries WHERE header_id = ? AND id = ?');
  return {
    /** The parsed documents in the order of the list, not yet checked for their shape. Throws DamagedRow. */
    read(headerId: string, list: WrittenAt): readonly unknown[] {
      const rows = new Map(all.all(headerId).map((row) => [row.id, intactRow('primaries', row)]));
      if (rows.size !== list.size)
        throw new DamagedRow(`header ${headerId} lists ${list.size} primaries, not ${rows.size}`);
      return [...list].map(([id, revision]) => {
        const row = rows.get(id);
        if (row?.revision !== revision)
          throw new DamagedRow(`primary ${id} of header ${headerId} is not at ${revision}`);
        return jsonOf(row.document, `primary ${id} of header ${headerId}`);
      });
    },
    /** Brings the rows from one header to another; a primary that is the same object in both is left alone. */
    write({ before, header, revision }: Change): WrittenAt {
      const old = new Map(before.header.primaries.map((primary) => [primary.id, primary]));
      const writtenAt = new Map<string, number>();
      for (const primary of header.primaries) {
        const known = old.get(primary.id);
        old.delete(primary.id);
        const kept = known === primary ? before.writtenAt.get(primary.id) : undefined;
        if (kept === undefined) (known ? update : insert)(rowOf(header.id, primary, revision));
        writtenAt.set(primary.id, kept ?? revision);
      }
      for (const id of old.keys()) remove.run(header.id, id);
      return writtenAt;
    },
  };
}

export interface Change {
  readonly before: { readonly header: Pick<Header, 'primaries'>; readonly writtenAt: WrittenAt };
  readonly header: Header;
  /** That the header has after the change. */
  readonly revision: number;
}

/** The list as a cell. */
export function listText(writtenAt: WrittenAt): string {
  return JSON.stringify([...writtenAt]);
}

/** Throws DamagedRow. */
export function listIn(cell: string, where: string): WrittenAt {
  return new Map(cellOf(listSchema, cell, where));
}

function rowOf(headerId: string, primary: Primary, revision: number) {
  const document = filledUp(JSON.stringify(primary));
  return { header_id: headerId, id: primary.id, revision, document };
}

function filledUp(json: string): string {
  const over = Buffer.byteLength(json) % DOCUMENT_UNIT_BYTES;
  return over === 0 ? json : json + ' '.repeat(DOCUMENT_UNIT_BYTES - over);
}
