/** The journal: a row a step, appended and never changed, each covering the checksum of the row before it. */

import type Database from 'better-sqlite3';
import { type Edit, editSchema, type Header } from '../../../core/index.ts';
import { Damaged } from '../file/faults.ts';
import type { Row, StoredRow } from '../rows/columns.ts';
import { isIntact, readCell, rowTable } from '../rows/row-table.ts';

/** A step as a person knows it, and how it is taken back. */
export interface HistoryStep {
  readonly label: string;
  readonly edit: Edit;
  readonly inverse: Edit;
}

export type JournalRow = StoredRow<'journal'>;
/** What lists show of a header. */
type Listed = Pick<JournalRow, 'header_id' | 'name' | 'state' | 'primary_count' | 'piece_count'>;
/** A row without its place, its checksum, and what follows from the header that it leads to. */
type Appended = Omit<Row<'journal'>, 'place' | keyof Listed>;

export function journalTable(db: Database.Database) {
  const rows = rowTable(db, 'journal', ['header_id', 'revision']);
  const nextPlace = db.prepare<[], number>('SELECT coalesce(max(place), 0) + 1 FROM journal').pluck();
  const ofHeader = (order: string) =>
    db.prepare<[string], JournalRow>(`SELECT * FROM journal WHERE header_id = ? ORDER BY ${order}`);
  const newest = ofHeader('revision DESC LIMIT 1');
  const end = db
    .prepare<[string], number>('SELECT checksum FROM journal WHERE header_id = ? ORDER BY revision DESC LIMIT 1')
    .pluck();
  const all = ofHeader('revision');
  const withStep = db.prepare<[string, string], JournalRow>(
    'SELECT * FROM journal WHERE header_id = ? AND step_id = ? ORDER BY revision DESC LIMIT 1',
  );
  return {
    /** The row that leads to `header`. Returns its checksum, which the next one covers. */
    append: (header: Header, row: Appended): number =>
      rows.insert({ place: nextPlace.get() ?? 1, ...row, ...listed(header) }),
    /** Undefined: there is no such header. Not yet checked, as what `find` and `all` give. */
    newest: (headerId: string): JournalRow | undefined => newest.get(headerId),
    /** The checksum of that row alone, which covers all rows before it. Every step asks for it, and reading the whole row took as long as writing the next. */
    end: (headerId: string): number | undefined => end.get(headerId),
    find: (headerId: string, revision: number): JournalRow | undefined => rows.find(headerId, revision),
    /** In their order. Linear: 10,000 take some 40 ms with their checksums. */
    all: (headerId: string): Iterable<JournalRow> => all.iterate(headerId),
    /** The row of a step by its id, if it is there and sound. Linear in the header's steps. */
    ofStep(headerId: string, stepId: string): JournalRow | null {
      const row = withStep.get(headerId, stepId);
      return row && isIntact('journal', row) ? row : null;
    },
    /** Throws Damaged when it is missing or not as it was written. */
    row(headerId: string, revision: number): JournalRow {
      const row = rows.find(headerId, revision);
      if (row && isIntact('journal', row)) return row;
      throw new Damaged(`step ${revision} is ${row ? 'damaged' : 'missing'}`, headerId);
    },
  };
}

export type Journal = ReturnType<typeof journalTable>;

function listed({ id, name, state, primaries }: Header): Listed {
  const piece_count = primaries.reduce((count, { pieces }) => count + pieces.length, 0);
  return { header_id: id, name, state, primary_count: primaries.length, piece_count };
}

/** What comes next once the row `of` is turned back: what came next before it was made. */
export function nextBelow(
  journal: Journal,
  headerId: string,
  { action, of }: { readonly action: 'undo' | 'redo'; readonly of: number },
): number | null {
  const before = journal.row(headerId, of - 1);
  return action === 'undo' ? before.undo_next : before.redo_next;
}

/** What an intact row did, in edits. Throws Damaged when they are not edits. */
export function stepIn(row: JournalRow): HistoryStep {
  return { label: row.label, edit: editIn(row), inverse: editIn(row, 'inverse') };
}

/** One edit alone. Throws Damaged. */
export function editIn(row: JournalRow, column: 'edit' | 'inverse' = 'edit'): Edit {
  const edit = readCell(editSchema, row[column]);
  if (edit === null) throw new Damaged(`step ${row.revision} holds no edit`, row.header_id);
  return edit;
}
