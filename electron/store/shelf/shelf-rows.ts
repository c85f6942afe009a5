/** The rows of the stock book with their counts, kept between calls and brought up to date by what happened since. */

import type Database from 'better-sqlite3';
import type { ShelfRow } from '../../../core/index.ts';
import type { StoredRow } from '../rows/columns.ts';
import { isIntact, readCell } from '../rows/row-table.ts';
import { keptItemSchema } from './kept-item.ts';
import { type movementTable, NO_MOVEMENTS, type Tally } from './movement-table.ts';
import type { Mark, stepTable } from './step-table.ts';

type StockRow = StoredRow<'stock'>;

export interface KnownRow {
  readonly place: number;
  readonly revision: number;
  /** Null: the row is damaged. */
  readonly row: ShelfRow | null;
  readonly isDoubtful: boolean;
}

type KnownRows = ReadonlyMap<string, KnownRow>;

/** With more rows than this changed, all are read: that is one walk through the movements instead of one for each. */
const FEW = 1000;

/**
 * Reading 20,000 rows and 200,000 movements takes tenths of a second, so it is done once. Every change of the shelf, by
 * whichever process, is a step, and each row names the step that wrote it last: what came after the newest step that is known is
 * read again, and nothing else. A known step that is not in the book was rolled back; then all is read anew.
 */
export function shelfRows(
  db: Database.Database,
  {
    steps,
    movements,
  }: { readonly steps: ReturnType<typeof stepTable>; readonly movements: ReturnType<typeof movementTable> },
) {
  const all = db.prepare<[], StockRow>('SELECT * FROM stock ORDER BY place');
  const since = db.prepare<[number], StockRow>('SELECT * FROM stock WHERE step > ?');
  let mark: Mark | null = null;
  let known: KnownRows = new Map();

  function readAll(): void {
    const tallies = movements.tallies();
    known = new Map(all.all().map((row) => [row.id, knownRow(row, tallies.get(row.id) ?? NO_MOVEMENTS)]));
  }

  function readSince({ place }: Mark): void {
    const changed = since.all(place);
    if (changed.length > FEW) readAll();
    else
      known = new Map([...known, ...changed.map((row) => [row.id, knownRow(row, movements.tally(row.id))] as const)]);
  }

  /** Another map whenever something changed. */
  return (): KnownRows => {
    const newest = steps.newest();
    if (mark?.place === newest.place && mark.checksum === newest.checksum) return known;
    if (mark === null || mark.place > newest.place || !steps.has(mark)) readAll();
    else readSince(mark);
    mark = newest;
    return known;
  };
}

function knownRow(row: StockRow, { count, isDoubtful }: Tally): KnownRow {
  const item = isIntact('stock', row) ? readCell(keptItemSchema, row.item) : null;
  return {
    place: row.place,
    revision: row.revision,
    // The sum as it is, which where movements are damaged can be below zero: what is counted then is counted from there.
    row: item && { item: { ...item, count }, revision: row.revision, isRetired: row.is_retired === 1 },
    isDoubtful,
  };
}
