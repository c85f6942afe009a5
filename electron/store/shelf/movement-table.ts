/** Pieces that came and went: the truth about every count. */

import type Database from 'better-sqlite3';
import type { Cell, Row, StoredRow } from '../rows/columns.ts';
import { columnsOf } from '../rows/columns.ts';
import { checksumOf, isIntact, rowTable } from '../rows/row-table.ts';

export type MovementRow = StoredRow<'movements'>;

/** What the movements of a row come to. */
export interface Tally {
  /** The sum of those that are sound. */
  readonly count: number;
  /** One of them is damaged and the row was not counted since. */
  readonly isDoubtful: boolean;
}

export const NO_MOVEMENTS: Tally = { count: 0, isDoubtful: false };

export interface ExplainedMovement {
  readonly movement: MovementRow;
  /** Label of the step that made it; null where it is damaged. */
  readonly label: string | null;
}

/** As many as anyone looks through. */
const EXPLAINED = 500;

export function movementTable(db: Database.Database) {
  const rows = rowTable(db, 'movements', ['place']);
  const last = db.prepare<[], number>('SELECT coalesce(max(place), 0) FROM movements').pluck();
  const ofItem = db.prepare<[string], MovementRow>('SELECT * FROM movements WHERE item_id = ? ORDER BY place');
  const between = db.prepare<[number, number], MovementRow>(
    'SELECT * FROM movements WHERE place BETWEEN ? AND ? ORDER BY place',
  );
  const explained = db.prepare<[string], MovementRow & { readonly label: string | null }>(
    `SELECT m.*, s.label FROM movements AS m LEFT JOIN shelf_steps AS s ON s.id = m.request_id
     WHERE m.item_id = ? ORDER BY m.place DESC LIMIT ${EXPLAINED}`,
  );
  return {
    last: (): number => last.get() ?? 0,
    append: (row: Row<'movements'>): unknown => rows.insert(row),
    /** Null when one of them is missing or damaged. */
    range(first: number, count: number): readonly MovementRow[] | null {
      const found = between.all(first, first + count - 1);
      return found.length === count && found.every((row) => isIntact('movements', row)) ? found : null;
    },
    tally(itemId: string): Tally {
      let tally = NO_MOVEMENTS;
      for (const row of ofItem.iterate(itemId)) tally = counted(tally, row, isIntact('movements', row));
      return tally;
    },
    tallies: allTallies(db),
    /** The latest first. */
    explained: (itemId: string): ExplainedMovement[] =>
      explained.all(itemId).map(({ label, ...movement }) => ({ movement, label })),
  };
}

/** Tallies of every row that has movements. Linear in all movements; 200,000 take a few tenths of a second. */
function allTallies(db: Database.Database): () => ReadonlyMap<string, Tally> {
  // Raw rows are arrays, which are cheaper than objects; the checksum comes last.
  const all = db.prepare(`SELECT ${columnsOf('movements').join(', ')}, checksum FROM movements ORDER BY place`).raw();
  return () => {
    const found = new Map<string, Tally>();
    for (const cells of all.iterate() as IterableIterator<Cell[]>) {
      const isSound = cells.pop() === checksumOf('movements', cells);
      const [, itemId, , pieces, reason] = cells as [number, string, string, number, MovementRow['reason']];
      found.set(itemId, counted(found.get(itemId) ?? NO_MOVEMENTS, { pieces, reason }, isSound));
    }
    return found;
  };
}

function counted(tally: Tally, row: Pick<MovementRow, 'pieces' | 'reason'>, isSound: boolean): Tally {
  if (!isSound) return { ...tally, isDoubtful: true };
  return { count: tally.count + row.pieces, isDoubtful: tally.isDoubtful && row.reason !== 'counted' };
}
