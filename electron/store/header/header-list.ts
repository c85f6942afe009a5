/** Which headers there are, on the bench and in the bin, and what lists show of them: what the newest row of each journal says. */

import type Database from 'better-sqlite3';
import type { ResponseOf } from '../../bridge/contract.ts';
import { rowTable } from '../rows/row-table.ts';
import type { JournalRow } from './journal.ts';

type Summary = ResponseOf<'listHeaders'>['headers'][number];
type ListRow = { readonly id: string } & {
  readonly [Column in 'name' | 'state' | 'revision' | 'primary_count' | 'piece_count' | 'changed_at']:
    | JournalRow[Column]
    | null;
};

/** The place of a header's last change, for a query on `headers`. */
export const LAST_PLACE = `(SELECT place FROM journal WHERE header_id = headers.id ORDER BY revision DESC LIMIT 1)`;

export function headerList(db: Database.Database) {
  const rows = rowTable(db, 'headers', ['id']);
  const binned = rowTable(db, 'bin', ['header_id']);
  const list = (having: string) =>
    db.prepare<[], ListRow>(
      `SELECT headers.id, name, state, revision, primary_count, piece_count, changed_at
       FROM headers LEFT JOIN journal ON place = ${LAST_PLACE}
       WHERE headers.id ${having} (SELECT header_id FROM bin) ORDER BY place DESC`,
    );
  const places = { bench: list('NOT IN'), bin: list('IN') };
  return {
    add: (id: string): unknown => rows.insert({ id }),
    has: (id: string): boolean => rows.find(id) !== undefined,
    isInBin: (id: string): boolean => binned.find(id) !== undefined,
    /** One that lies in the bin already lies there since then. */
    bin(id: string, now: string): void {
      if (!binned.find(id)) binned.insert({ header_id: id, binned_at: now });
    },
    takeOut: (id: string): void => binned.remove(id),
    /** Last changed first. */
    list: (place: 'bench' | 'bin'): readonly Summary[] => places[place].all().map(summaryOf),
  };
}

/** A header whose journal is gone is listed all the same, so that opening it can say so. */
function summaryOf(row: ListRow): Summary {
  return {
    headerId: row.id,
    name: row.name ?? 'Damaged header',
    state: row.state ?? 'open',
    revision: row.revision ?? 0,
    primaryCount: row.primary_count ?? 0,
    pieceCount: row.piece_count ?? 0,
    changedAt: new Date(row.changed_at ?? 0).toISOString(),
  };
}
