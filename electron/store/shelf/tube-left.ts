/** How much tube lay on the shelf, day by day. */

import type Database from 'better-sqlite3';
import { stockTubeMm } from '../../../core/index.ts';
import type { ResponseOf } from '../../bridge/contract.ts';
import type { ReadOnly } from '../../bridge/dispatcher.ts';
import { type Cell, columnsOf, type StoredRow } from '../rows/columns.ts';
import { checksumOf, isIntact, readCell } from '../rows/row-table.ts';
import { keptItemSchema } from './kept-item.ts';

type TubeLeft = ReadOnly<ResponseOf<'readShopFigures'>>['tubeLeft'];

/**
 * The sum over all rows of what their movements come to after each day on which there was one. Rows count with the length that
 * they have now, whatever it was typed as before; damaged rows and movements are left out. Linear in the movements: 200,000 take a
 * few tenths of a second.
 */
export function tubeLeft(db: Database.Database): () => TubeLeft {
  const stock = db.prepare<[], StoredRow<'stock'>>('SELECT * FROM stock');
  // Raw rows are arrays, which are cheaper than objects; the checksum comes last.
  const movements = db.prepare(`SELECT ${columnsOf('movements').join(', ')}, checksum FROM movements ORDER BY place`);
  return () => {
    const lengths = new Map(stock.all().map((row) => [row.id, lengthOf(row)]));
    const days = new Map<string, number>();
    let mm = 0;
    for (const cells of movements.raw().iterate() as IterableIterator<Cell[]>) {
      if (cells.pop() !== checksumOf('movements', cells)) continue;
      const [, itemId, , pieces, , movedAt] = cells as [number, string, string, number, string, number];
      mm += pieces * (lengths.get(itemId) ?? 0);
      days.set(new Date(movedAt).toISOString().slice(0, 10), mm);
    }
    return [...days]
      .map(([day, left]) => ({ at: `${day}T12:00:00.000Z`, mm: Math.max(0, left) }))
      .sort((a, b) => (a.at < b.at ? -1 : 1));
  };
}

function lengthOf(row: StoredRow<'stock'>): number {
  const kept = isIntact('stock', row) ? readCell(keptItemSchema, row.item) : null;
  return kept === null ? 0 : stockTubeMm({ ...kept, count: 0 });
}
